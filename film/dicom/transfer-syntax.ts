import type { Encoding } from './data-set.ts';

/** How pixel data is packed. `refused` syntaxes are known by name and not read. */
export type Packing =
  | 'raw'
  | 'deflated'
  | 'rle'
  | 'jpeg-baseline'
  | 'jpeg-lossless'
  | 'jpeg-ls'
  | 'jpeg-2000'
  | 'htj2k'
  | 'refused';

export interface TransferSyntax {
  readonly uid: string;
  readonly name: string;
  readonly packing: Packing;
  readonly encoding: Encoding;
}

const EXPLICIT: Encoding = { explicit: true, littleEndian: true };

const row = (uid: string, name: string, packing: Packing, encoding: Encoding = EXPLICIT): TransferSyntax => ({
  uid: `1.2.840.10008.1.2${uid}`,
  name,
  packing,
  encoding,
});

/** Transfer syntaxes of PS3.6 table A-1 that a film may come in. */
export const TRANSFER_SYNTAXES: readonly TransferSyntax[] = [
  row('', 'Implicit VR Little Endian', 'raw', { explicit: false, littleEndian: true }),
  row('.1', 'Explicit VR Little Endian', 'raw'),
  row('.1.99', 'Deflated Explicit VR Little Endian', 'deflated'),
  row('.2', 'Explicit VR Big Endian', 'raw', { explicit: true, littleEndian: false }),
  row('.5', 'RLE Lossless', 'rle'),
  row('.4.50', 'JPEG Baseline 8 bit', 'jpeg-baseline'),
  row('.4.51', 'JPEG Extended 12 bit', 'refused'),
  row('.4.57', 'JPEG Lossless', 'jpeg-lossless'),
  row('.4.70', 'JPEG Lossless, first-order prediction', 'jpeg-lossless'),
  row('.4.80', 'JPEG-LS Lossless', 'jpeg-ls'),
  row('.4.81', 'JPEG-LS Near-Lossless', 'jpeg-ls'),
  row('.4.90', 'JPEG 2000 Lossless', 'jpeg-2000'),
  row('.4.91', 'JPEG 2000', 'jpeg-2000'),
  row('.4.92', 'JPEG 2000 Part 2 Multi-component Lossless', 'refused'),
  row('.4.93', 'JPEG 2000 Part 2 Multi-component', 'refused'),
  row('.4.94', 'JPIP Referenced', 'refused'),
  row('.4.95', 'JPIP Referenced Deflate', 'refused'),
  row('.4.100', 'MPEG2 video', 'refused'),
  row('.4.101', 'MPEG2 video, high level', 'refused'),
  row('.4.102', 'MPEG-4 video', 'refused'),
  row('.4.103', 'MPEG-4 video, BD-compatible', 'refused'),
  row('.4.201', 'HTJ2K Lossless', 'htj2k'),
  row('.4.202', 'HTJ2K Lossless RPCL', 'htj2k'),
  row('.4.203', 'HTJ2K', 'htj2k'),
  row('.8.1', 'Deflated Image Frame', 'refused'),
];

export const transferSyntax = (uid: string): TransferSyntax | undefined =>
  TRANSFER_SYNTAXES.find((syntax) => syntax.uid === uid);
