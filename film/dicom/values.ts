import type { DataSet, Element, Tag } from './data-set.ts';

/** Values read out of a data set. Absent, empty and unreadable values are `undefined`, never a default. */

const DECODER = new TextDecoder('latin1');

export const element = (set: DataSet, tag: Tag): Element | undefined => set.elements.get(tag);

export const bytesOf = (set: DataSet, tag: Tag): Uint8Array | undefined => {
  const found = set.elements.get(tag);
  return found && !found.items && !found.fragments ? set.bytes.subarray(found.at, found.at + found.length) : undefined;
};

/** Text of the default repertoire, without padding. Only for code strings, numbers, dates and UIDs. */
export function text(set: DataSet, tag: Tag): string | undefined {
  const bytes = bytesOf(set, tag);
  if (!bytes || bytes.length > 4096) return undefined;
  const value = DECODER.decode(bytes).split('\0', 1)[0]?.trim();
  return value === '' ? undefined : value;
}

/** Values of a multi-valued string, empty ones kept as ''. */
export const texts = (set: DataSet, tag: Tag): readonly string[] =>
  text(set, tag)
    ?.split('\\')
    .map((v) => v.trim()) ?? [];

/** First value of a decimal or integer string. */
export function decimal(set: DataSet, tag: Tag): number | undefined {
  return decimals(set, tag)?.[0];
}

/** All values of a decimal or integer string, when every one of them is a number. */
export function decimals(set: DataSet, tag: Tag): readonly number[] | undefined {
  const values = texts(set, tag);
  if (values.length === 0) return undefined;
  const numbers = values.map((v) => (/^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(v) ? Number(v) : Number.NaN));
  return numbers.every(Number.isFinite) ? numbers : undefined;
}

/** Unsigned (or, where asked, signed) 16-bit numbers. */
export function shorts(set: DataSet, tag: Tag, signed = false): readonly number[] | undefined {
  const bytes = bytesOf(set, tag);
  if (!bytes || bytes.length < 2) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const little = set.encoding.littleEndian;
  const read = (i: number) => (signed ? view.getInt16(2 * i, little) : view.getUint16(2 * i, little));
  return Array.from({ length: bytes.length >> 1 }, (_, i) => read(i));
}

export const short = (set: DataSet, tag: Tag): number | undefined => {
  const bytes = bytesOf(set, tag);
  if (!bytes || bytes.length < 2) return undefined;
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint16(0, set.encoding.littleEndian);
};

export const items = (set: DataSet, tag: Tag): readonly DataSet[] => set.elements.get(tag)?.items ?? [];

/** `YYYYMMDD` as `YYYY-MM-DD`; anything that is not a real day is unknown. */
export function date(set: DataSet, tag: Tag): string | undefined {
  const match = /^(\d{4})[.-]?(\d{2})[.-]?(\d{2})/.exec(text(set, tag) ?? '');
  if (!match) return undefined;
  const [, year, month, day] = match as unknown as [string, string, string, string];
  const days = new Date(Date.UTC(Number(year), Number(month), 0)).getUTCDate();
  const real = Number(month) >= 1 && Number(month) <= 12 && Number(day) >= 1 && Number(day) <= days;
  return real ? `${year}-${month}-${day}` : undefined;
}
