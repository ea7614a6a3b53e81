import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { XY } from './flatten.ts';

/** What a part states of its outline in one view: one number, or the least and the most, mm. Absent = not stated. */
export interface StatedSize {
  readonly widthMm?: number | readonly [least: number, most: number];
  readonly heightMm?: number | readonly [least: number, most: number];
}

/** How far an outline may be off what its part states: the greater of the two (GAP-45). */
const SHARE = 0.02;
const LEAST_MM = 0.5;

/** Known mistakes of scale, told by name. */
const MISTAKES: readonly (readonly [factor: number, words: string])[] = [
  [25.4, 'it seems to be drawn in inches'],
  [10, 'it seems to be drawn in centimetres'],
  [25.4 / 96, 'it seems to be drawn in pixels of 1/96 inch'],
  [25.4 / 72, 'it seems to be drawn in points'],
  [0.1, 'it seems to be drawn at ten times its size'],
];

/**
 * Whether lines are as wide and as high as their part states (GAP-45), mm. Refused where neither is stated: then nothing
 * vouches for the scale. A refusal names what was measured and the one factor that would fit, where there is one.
 */
export function checkScale(
  lines: readonly (readonly XY[])[],
  stated: StatedSize,
): Outcome<{ widthMm: number; heightMm: number }> {
  const points = lines.flat();
  const extent = (k: 0 | 1) => Math.max(...points.map((p) => p[k])) - Math.min(...points.map((p) => p[k]));
  const size = { widthMm: extent(0), heightMm: extent(1) };
  const asked = (['widthMm', 'heightMm'] as const).flatMap((key) => {
    const range = stated[key];
    if (range === undefined) return [];
    const [least, most] = typeof range === 'number' ? [range, range] : range;
    return [{ key, least, most, is: size[key] }];
  });
  if (asked.length === 0)
    return cannot({
      code: 'outline-size-not-stated',
      message: 'Neither width nor height of the outline is stated: its scale cannot be checked.',
      mend: 'State the width or the height of the part in this view, mm.',
    });
  const off = asked.filter(({ least, most, is }) => is < least - slack(least) || is > most + slack(most));
  if (off.length === 0) return ok(size);
  const told = off.map(
    ({ key, least, most, is }) =>
      `${key === 'widthMm' ? 'width' : 'height'} ${is.toFixed(1)} mm, stated ${least === most ? least : `${least} to ${most}`} mm`,
  );
  return cannot({
    code: 'outline-scale',
    message: `The outline is not of the size that its part states: ${told.join('; ')}.`,
    mend: mendOf(asked),
  });
}

const slack = (mm: number): number => Math.max(LEAST_MM, SHARE * mm);

/** The one factor that makes every stated size fit, if there is one. */
function mendOf(asked: readonly { least: number; most: number; is: number }[]): string {
  const low = Math.max(...asked.map(({ least, is }) => (least - slack(least)) / is));
  const high = Math.min(...asked.map(({ most, is }) => (most + slack(most)) / is));
  if (!(low <= high) || !Number.isFinite(low))
    return 'Width and height ask for different scales: check the drawing and the numbers.';
  const known = MISTAKES.find(([factor]) => factor >= low && factor <= high);
  const factor = known?.[0] ?? (low + high) / 2;
  return `Scale the drawing by ${Number(factor.toPrecision(3))}${known ? `: ${known[1]}` : ''}, or correct the part.`;
}
