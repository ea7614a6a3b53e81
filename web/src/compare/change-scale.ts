import type { ComparedLine } from '@gapline/core/compare/compare-dates.ts';
import { Z95 } from '@gapline/core/measure/quantity.ts';

/** Widest value that lines of one unit must show, either side of no change. */
export function reachOf(lines: readonly ComparedLine[], unit: ComparedLine['unit']): number {
  const ends = lines
    .filter((l) => l.unit === unit)
    .flatMap((l) => [Math.abs(l.change.value) + Z95 * l.change.sd, l.movement?.limit ?? 0]);
  return Math.max(...ends, 1e-9);
}

/** Place of a change on a line of that length with no change in its middle. */
export const placeOf = (value: number, reach: number, length: number): number =>
  length / 2 + (value / reach) * (length / 2) * 0.96;

/** What holds first, then what is larger, then what is within its uncertainty; each as the measurements stand. */
export const inOrder = (lines: readonly ComparedLine[]): readonly ComparedLine[] => {
  const rank = (l: ComparedLine) => (l.holds || l.movement?.reading === 'moved' ? 0 : l.larger ? 1 : 2);
  return lines
    .map((l, i) => ({ l, i }))
    .sort((a, b) => rank(a.l) - rank(b.l) || a.i - b.i)
    .map(({ l }) => l);
};

/** The reading of one change in a word or two. */
export function readingWords(l: ComparedLine): string {
  if (l.movement?.reading === 'moved') return 'moved';
  if (l.holds) return 'changed';
  if (l.larger) return 'perhaps changed';
  return l.movement?.reading === 'not-shown' ? 'not moved' : 'within error';
}
