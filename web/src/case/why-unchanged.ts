import type { CaseFile } from '@gapline/core/plan/case.ts';

/**
 * Why a moved mark changed nothing in the plan, in words; null where that cannot be told. Where a landmark is marked on the
 * long-leg film too, that one is read first, because only that film shows the mechanical axis.
 */
export function whyUnchanged(before: CaseFile, after: CaseFile): string | null {
  const stood = new Set(before.marks.map((mark) => JSON.stringify(mark)));
  const longLeg = new Set(after.films.flatMap(({ id, view }) => (view === 'long-leg' ? [id] : [])));
  const isReadElsewhere = after.marks.some(
    (mark) =>
      !longLeg.has(mark.film) &&
      !stood.has(JSON.stringify(mark)) &&
      after.marks.some(
        ({ landmark, side, film }) => landmark === mark.landmark && side === mark.side && longLeg.has(film),
      ),
  );
  return isReadElsewhere
    ? 'nothing in the plan changed: this landmark is also marked on the long-leg film, which the plan reads first'
    : null;
}
