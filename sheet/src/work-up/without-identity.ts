import { createHash } from 'node:crypto';
import type { CaseFile } from '@gapline/core/plan/case.ts';

/** What stands on the letter instead of a name: the same for the same case, and telling nothing of it. */
export const pseudonymOf = (file: CaseFile): string =>
  `Case ${createHash('sha256').update(`letter ${file.id}`).digest('hex').slice(0, 8)}`;

/** Shorter parts of a name would take ordinary words apart. */
const SHORTEST_PART = 3;

/**
 * The case as it may be shown without identity (WU-11): no number, name or title, and in every free text of the work-up the parts of the
 * patient's own name, number and day of birth are replaced by dots. The year of birth stays for the age. Other names that a
 * person typed cannot be known: the letter is to be read before it is sent.
 */
export function withoutIdentity(file: CaseFile): CaseFile {
  const { name = '', id = '', birthDate = '', sex } = file.patient;
  const parts = [...name.split(/[\^,\s]+/), id, birthDate].filter((p) => p.length >= SHORTEST_PART);
  const cleaned = parts.length === 0 ? file.workUp : (replaced(file.workUp, patternOf(parts)) as CaseFile['workUp']);
  return {
    ...file,
    title: pseudonymOf(file),
    patient: { ...(sex ? { sex } : {}), ...(birthDate ? { birthDate } : {}) },
    ...(cleaned ? { workUp: cleaned } : {}),
  };
}

const patternOf = (parts: readonly string[]): RegExp =>
  new RegExp(
    parts
      .toSorted((a, b) => b.length - a.length)
      .map((p) => p.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&'))
      .join('|'),
    'giu',
  );

/** Every text inside a value; the names of fields stay. Ids and words of a list never hold a name that is typed by hand. */
function replaced(value: unknown, pattern: RegExp): unknown {
  if (typeof value === 'string') return value.replace(pattern, '…');
  if (Array.isArray(value)) return value.map((v) => replaced(v, pattern));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, replaced(v, pattern)]));
}
