/** What a compressed stream says about itself, read before anything is unpacked. */
export interface CodeStream {
  readonly kind: 'jpeg-baseline' | 'jpeg-extended' | 'jpeg-progressive' | 'jpeg-lossless' | 'jpeg-ls' | 'jpeg-2000';
  readonly rows: number;
  readonly columns: number;
  readonly components: number;
  readonly bits: number;
  readonly signed: boolean;
  /** Component identifiers of a JPEG frame, as written. */
  readonly componentIds: readonly number[];
  /** Colour transform of an Adobe APP14 segment: 0 none, 1 YCbCr. */
  readonly adobeTransform?: number;
  readonly jfif: boolean;
}

const FRAME_KINDS: Readonly<Record<number, CodeStream['kind']>> = {
  192: 'jpeg-baseline',
  193: 'jpeg-extended',
  194: 'jpeg-progressive',
  195: 'jpeg-lossless',
  247: 'jpeg-ls',
};

/** Header of a JPEG, JPEG-LS or JPEG 2000 stream; undefined when it is none of them or cut short. */
export function codeStream(bytes: Uint8Array): CodeStream | undefined {
  if (bytes.length < 16) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (view.getUint16(0) === 0xffd8) return jpeg(view);
  const at = view.getUint32(4) === 0x6a502020 ? boxedStart(view) : 0;
  return at !== undefined ? jpeg2000(view, at) : undefined;
}

function jpeg(view: DataView): CodeStream | undefined {
  let at = 2;
  let jfif = false;
  let adobeTransform: number | undefined;
  while (at + 4 <= view.byteLength) {
    if (view.getUint8(at) !== 0xff) return undefined;
    const marker = view.getUint8(at + 1);
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const length = view.getUint16(at + 2);
    if (marker === 0xda || length < 2 || at + 2 + length > view.byteLength) return undefined;
    if (marker === 0xe0 && length >= 7 && view.getUint32(at + 4) === 0x4a464946) jfif = true;
    if (marker === 0xee && length >= 14 && view.getUint32(at + 4) === 0x41646f62)
      adobeTransform = view.getUint8(at + 15);
    const kind = FRAME_KINDS[marker];
    if (kind) {
      const components = length >= 8 ? view.getUint8(at + 9) : 0;
      if (components < 1 || length < 8 + 3 * components) return undefined;
      return {
        kind,
        bits: view.getUint8(at + 4),
        rows: view.getUint16(at + 5),
        columns: view.getUint16(at + 7),
        components,
        componentIds: Array.from({ length: components }, (_, i) => view.getUint8(at + 10 + 3 * i)),
        signed: false,
        jfif,
        ...(adobeTransform === undefined ? {} : { adobeTransform }),
      };
    }
    at += 2 + length;
  }
  return undefined;
}

/** Image and tile size (SIZ) segment right after the start of a code stream (ISO 15444-1 A.5.1). */
function jpeg2000(view: DataView, at: number): CodeStream | undefined {
  if (at + 43 > view.byteLength || view.getUint32(at) !== 0xff4fff51) return undefined;
  const components = view.getUint16(at + 40);
  if (components < 1) return undefined;
  const depth = view.getUint8(at + 42);
  return {
    kind: 'jpeg-2000',
    columns: view.getUint32(at + 8) - view.getUint32(at + 16),
    rows: view.getUint32(at + 12) - view.getUint32(at + 20),
    components,
    bits: (depth & 0x7f) + 1,
    signed: (depth & 0x80) !== 0,
    componentIds: [],
    jfif: false,
  };
}

/** First byte of the code stream inside a JP2 file: the content of its `jp2c` box. */
function boxedStart(view: DataView): number | undefined {
  for (let at = 0; at + 8 <= view.byteLength; ) {
    const length = view.getUint32(at);
    if (view.getUint32(at + 4) === 0x6a703263) return at + 8;
    if (length < 8) return undefined;
    at += length;
  }
  return undefined;
}
