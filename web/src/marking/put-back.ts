import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { sameLandmark } from '@gapline/core/landmarks/repeated-mark.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';

/** The edit that puts one mark back to where it was before a change; null where it stands there. */
export function putBack(
  file: CaseFile,
  before: Mark | null,
  name: Pick<Mark, 'landmark' | 'side' | 'film'>,
): Edit | null {
  if (!file.films.some((f) => f.id === name.film)) return null;
  const now = file.marks.find((m) => sameLandmark(m, name));
  if (before) return JSON.stringify(now) === JSON.stringify(before) ? null : { kind: 'put-mark', mark: before };
  const { landmark: id, side, film } = name;
  return now ? { kind: 'remove-mark', landmark: id, side, film } : null;
}
