import { canalFiner } from './canal-span.ts';
import type { CanalSection } from './straight-stem.ts';

/** A bowed stem in the view that shows its bow: circular arc of a radius from its seat outwards. */
export interface StemBow {
  readonly radiusMm: number;
  /** Where the stem begins, mm along the bone. */
  readonly seatMm: number;
}

/** How far a bowed stem's axis has turned back (posteriorly) from its direction at the seat, mm, >= 0. */
export function bowDropMm({ radiusMm, seatMm }: StemBow, zMm: number): number {
  const u = Math.min(Math.max(0, zMm - seatMm), radiusMm);
  return (u * u) / (radiusMm + Math.sqrt(radiusMm * radiusMm - u * u));
}

const STEP_MM = 2;

/**
 * The canal as a bowed stem sees it (STM-14): walls moved by the stem's own bow, so that the stem becomes straight in it and
 * the programme of STM-4 holds unchanged. The bow runs convex to the front, as the femur does: low = posterior.
 *
 * Walls are cut finer first (2 mm) and the high wall is taken nearer by the bow between two cuts, so that what passes here
 * passes between them too. Valid for tilts of a few degrees: a stem tilted by t leaves its own arc by the drop times t
 * (200 mm long, radius 1000 mm, 3 degrees: 20 mm x 0.05 = 1 mm along the bone, 0.05 mm across it).
 */
export function straightenedFor(sections: readonly CanalSection[], bow: StemBow): readonly CanalSection[] {
  const between = STEP_MM ** 2 / (8 * bow.radiusMm);
  return canalFiner(sections, STEP_MM).map((s) => {
    const drop = bowDropMm(bow, s.zMm);
    return { zMm: s.zMm, lowMm: s.lowMm + drop, highMm: s.highMm + drop - between };
  });
}
