/** Tag as one number: group in the upper, element in the lower 16 bits, e.g. 0x00280010 is Rows. */
export type Tag = number;

/** One data element as it lies in the file: where, not what. */
export interface Element {
  readonly tag: Tag;
  /** Value representation; in implicit files only `SQ` and the pixel data are told apart, all else is `UN`. */
  readonly vr: string;
  /** First byte of the element's tag. */
  readonly start: number;
  /** First byte of the value. */
  readonly at: number;
  /** Bytes of the value, delimiters of undefined lengths included. */
  readonly length: number;
  /** Items of a sequence. */
  readonly items?: readonly DataSet[];
  /** Pieces of encapsulated pixel data after the offset table. */
  readonly fragments?: readonly Piece[];
  /** Offsets of the frames into the fragments, when the file gives them. */
  readonly frameOffsets?: readonly number[];
}

export interface Piece {
  readonly at: number;
  readonly length: number;
}

/** Elements of a data set or of one item of a sequence, over the bytes they lie in. */
export interface DataSet {
  readonly bytes: Uint8Array;
  readonly encoding: Encoding;
  readonly elements: ReadonlyMap<Tag, Element>;
}

export interface Encoding {
  readonly explicit: boolean;
  readonly littleEndian: boolean;
}

/** "(0028,0010)", as the standard prints it. */
export const tagName = (tag: Tag): string => {
  const hex = (n: number) => n.toString(16).toUpperCase().padStart(4, '0');
  return `(${hex(tag >>> 16)},${hex(tag & 0xffff)})`;
};
