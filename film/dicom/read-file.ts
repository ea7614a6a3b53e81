import { cannot, type Outcome, ok, type Warning } from '@gapline/core/measure/outcome.ts';
import type { DataSet, Encoding } from './data-set.ts';
import { inflateDataSet } from './inflate.ts';
import { readDataSet } from './read-data-set.ts';
import { TAG } from './tags.ts';
import { type TransferSyntax, transferSyntax } from './transfer-syntax.ts';
import { text } from './values.ts';

export interface DicomFile {
  readonly syntax: TransferSyntax;
  /** File meta information (group 2); absent in files without it. */
  readonly meta?: DataSet;
  readonly data: DataSet;
}

/** "DICM" behind a preamble of 128 bytes. */
export const hasPreamble = (bytes: Uint8Array): boolean =>
  bytes.length > 132 && bytes[128] === 0x44 && bytes[129] === 0x49 && bytes[130] === 0x43 && bytes[131] === 0x4d;

/** True when the bytes may be DICOM at all: with its preamble, or starting with an element of group 2 or 8. */
export const looksLikeDicom = (bytes: Uint8Array): boolean => hasPreamble(bytes) || startsLikeDataSet(bytes);

/**
 * Reads a DICOM file into its elements: Part 10 files, and bare data sets without preamble or without
 * meta information, whose encoding is then told from the first elements. Values are not copied.
 * Refuses what is not DICOM, unknown transfer syntaxes, damaged and truncated files, each with its reason.
 * Source: DICOM PS3.10 chapter 7.
 */
export function readDicomFile(bytes: Uint8Array): Outcome<DicomFile> {
  const preamble = hasPreamble(bytes);
  if (!preamble && !startsLikeDataSet(bytes)) return NOT_DICOM;
  const from = preamble ? 132 : 0;
  const end = endOfMeta(bytes, from);
  if (end === from) return bare(bytes, from, preamble ? [NO_META] : [NO_PREAMBLE]);
  const meta = readDataSet(bytes.subarray(0, end), from, EXPLICIT);
  if (!meta.ok) return meta;
  const uid = text(meta.value, TAG.TransferSyntaxUID);
  const warnings = preamble ? [] : [NO_PREAMBLE];
  if (uid === undefined) return bare(bytes, end, [...warnings, NO_SYNTAX], meta.value);
  const syntax = transferSyntax(uid);
  if (!syntax) return unknownSyntax(uid);
  return withSyntax({ bytes, from: end, syntax, meta: meta.value, warnings });
}

interface Rest {
  readonly bytes: Uint8Array;
  readonly from: number;
  readonly syntax: TransferSyntax;
  readonly meta?: DataSet | undefined;
  readonly warnings: readonly Warning[];
}

function withSyntax({ bytes, from, syntax, meta, warnings }: Rest): Outcome<DicomFile> {
  let content = { bytes, from };
  if (syntax.packing === 'deflated') {
    const inflated = inflateDataSet(bytes.subarray(from));
    if (!inflated.ok) return inflated;
    content = { bytes: inflated.value, from: 0 };
  }
  const encoding = encodingFound(content.bytes, content.from, syntax.encoding);
  const data = readDataSet(content.bytes, content.from, encoding);
  if (!data.ok) return data;
  const surprises = encoding === syntax.encoding ? [] : [OTHER_ENCODING];
  return ok({ syntax, ...(meta ? { meta } : {}), data: data.value }, [...warnings, ...surprises, ...data.warnings]);
}

/** Some writers state explicit elements and write implicit ones; the first element tells. */
function encodingFound(bytes: Uint8Array, from: number, stated: Encoding): Encoding {
  const found = sniff(bytes, from);
  return stated.explicit && !found.explicit && bytes.length > from ? { ...stated, explicit: false } : stated;
}

/** A data set whose transfer syntax nobody states: uncompressed, its encoding told from the first element. */
function bare(bytes: Uint8Array, from: number, warnings: readonly Warning[], meta?: DataSet): Outcome<DicomFile> {
  const encoding = sniff(bytes, from);
  const syntax = transferSyntax(`1.2.840.10008.1.2${suffix(encoding)}`);
  return syntax ? withSyntax({ bytes, from, syntax, meta, warnings }) : NOT_DICOM;
}

const suffix = ({ explicit, littleEndian }: Encoding) => (explicit ? (littleEndian ? '.1' : '.2') : '');

function sniff(bytes: Uint8Array, from: number): Encoding {
  const vr = String.fromCharCode(bytes[from + 4] ?? 0, bytes[from + 5] ?? 0);
  // Group 8 stands as 08 00 in little and 00 08 in big endian.
  return { explicit: /^[A-Z]{2}$/.test(vr), littleEndian: bytes[from] !== 0 };
}

/** Elements of group 2 are always explicit little endian; walks them to where the data set starts. */
function endOfMeta(bytes: Uint8Array, from: number): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = from;
  while (at + 8 <= bytes.length && view.getUint16(at, true) === 2) {
    const long = LONG.has(String.fromCharCode(bytes[at + 4] as number, bytes[at + 5] as number));
    if (long && at + 12 > bytes.length) break;
    const next = long ? at + 12 + view.getUint32(at + 8, true) : at + 8 + view.getUint16(at + 6, true);
    if (next > bytes.length) break;
    at = next;
  }
  return at;
}

const LONG = new Set(['OB', 'OW', 'UN', 'UT', 'SQ']);
const EXPLICIT: Encoding = { explicit: true, littleEndian: true };

function startsLikeDataSet(bytes: Uint8Array): boolean {
  if (bytes.length < 16) return false;
  const group = ((bytes[0] as number) | ((bytes[1] as number) << 8)) & 0xffff;
  const vr = String.fromCharCode(bytes[4] as number, bytes[5] as number);
  if (group === 2 || group === 8) {
    const length = new DataView(bytes.buffer, bytes.byteOffset).getUint32(4, true);
    return /^[A-Z]{2}$/.test(vr) || length <= bytes.length - 8;
  }
  return group === 0x0800 && /^[A-Z]{2}$/.test(vr);
}

const NOT_DICOM = cannot({
  code: 'not-dicom',
  message: 'This is not a DICOM file.',
  mend: 'Give a DICOM film, or a PNG or JPEG picture with a scale stated by hand.',
});

const unknownSyntax = (uid: string) =>
  cannot({
    code: 'transfer-syntax-unknown',
    message: `The film is packed in a way that is not known here (transfer syntax ${uid}).`,
    field: '(0002,0010)',
    mend: 'Export it again uncompressed (Explicit VR Little Endian).',
  });

const NO_PREAMBLE: Warning = {
  code: 'dicom-no-preamble',
  message: 'The file lacks the DICOM preamble; it was read all the same.',
};

const NO_META: Warning = {
  code: 'dicom-no-meta',
  message: 'The file lacks its meta information; its encoding was told from its first elements.',
};

const OTHER_ENCODING: Warning = {
  code: 'dicom-other-encoding',
  message: 'The file states explicit elements and holds implicit ones; it was read as it is.',
  field: '(0002,0010)',
};

const NO_SYNTAX: Warning = {
  code: 'dicom-no-transfer-syntax',
  message: 'The file does not state its transfer syntax; its encoding was told from its first elements.',
  field: '(0002,0010)',
};
