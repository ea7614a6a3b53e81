import { createHash } from 'node:crypto';

/** A DICOM UID of the form 2.25.<number> (PS3.5 annex B.2) that depends on a text alone: the same text, the same UID. */
export function uidFrom(text: string): string {
  const hex = createHash('sha256').update(text).digest('hex').slice(0, 31);
  return `2.25.${BigInt(`0x1${hex}`).toString()}`;
}

/** The UID of something that this project writes, by its name. */
export const uidOf = (name: string): string => uidFrom(`gapline/${name}`);
