import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';

/** A picture to look for a code in: a frame of the camera, or a photograph. */
export interface LabelPicture {
  readonly picture: ImageData | Blob;
  readonly wasm: string;
}

export type LabelAnswer =
  | { readonly ok: true; readonly text: string | null }
  | { readonly ok: false; readonly message: string };

/** The reader's binary comes from our own server, never from anywhere else. */
let prepared: string | null = null;

async function look({ picture, wasm }: LabelPicture): Promise<LabelAnswer> {
  if (prepared !== wasm) {
    prepareZXingModule({ overrides: { locateFile: () => wasm } });
    prepared = wasm;
  }
  const codes = await readBarcodes(picture, {
    formats: ['DataMatrix', 'Code128', 'QRCode', 'Aztec', 'PDF417', 'Code39'],
    textMode: 'Plain',
    tryHarder: true,
    maxNumberOfSymbols: 4,
  });
  const [code] = codes.filter((c) => c.isValid);
  if (!code) return { ok: true, text: null };
  // The symbology identifier tells that the code carries GS1 data, which its text alone does not.
  return { ok: true, text: code.contentType === 'GS1' ? `${code.symbologyIdentifier}${code.text}` : code.text };
}

self.addEventListener('message', (event: MessageEvent<LabelPicture>) => {
  void look(event.data)
    .catch((fault: unknown): LabelAnswer => ({ ok: false, message: String(fault) }))
    .then((answer) => self.postMessage(answer));
});
