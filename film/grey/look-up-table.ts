import type { DataSet } from '../dicom/data-set.ts';
import { TAG } from '../dicom/tags.ts';
import { bytesOf, shorts } from '../dicom/values.ts';
import type { LookUpTable } from '../film.ts';

/**
 * Table of a Modality or VOI LUT item. First descriptor value 0 means 65536 entries; the first mapped
 * input is signed when the pixels are. Undefined when descriptor and data do not fit together.
 * Source: DICOM PS3.3 C.11.1.1 and C.11.2.1.1.
 */
export function lookUpTable(item: DataSet, signedInput: boolean): LookUpTable | undefined {
  const descriptor = shorts(item, TAG.LUTDescriptor);
  const bits = descriptor?.[2];
  const count = descriptor?.[0] === 0 ? 65536 : descriptor?.[0];
  const data = bytesOf(item, TAG.LUTData);
  if (!descriptor || !count || !bits || bits > 16 || !data) return undefined;
  const first = signedInput ? (shorts(item, TAG.LUTDescriptor, true)?.[1] ?? 0) : (descriptor[1] as number);
  const wide = data.length >= 2 * count;
  if (!wide && data.length < count) return undefined;
  const values = wide ? shorts(item, TAG.LUTData) : undefined;
  return { first, bits, entries: Uint16Array.from({ length: count }, (_, i) => values?.[i] ?? (data[i] as number)) };
}

/** Entry of the table for an input, clamped to its ends. */
export const lookUp = (lut: LookUpTable, value: number): number =>
  lut.entries[Math.min(Math.max(value - lut.first, 0), lut.entries.length - 1)] as number;
