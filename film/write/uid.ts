import { createHash } from 'node:crypto';

/** A DICOM UID of the form 2.25.<number> (PS3.5 annex B.2) that depends on a name alone: the same name, the same UID. */
export function uidOf(name: string): string {
  const hex = createHash('sha256').update(`gapline/${name}`).digest('hex').slice(0, 31);
  return `2.25.${BigInt(`0x1${hex}`).toString()}`;
}
