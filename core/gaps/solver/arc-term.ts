import { toRad } from '../../measure/angle.ts';
import { MID_FLEXION_DEG } from '../arc.ts';
import { onTargetMm } from '../arc-laxity.ts';
import type { BoneState } from '../bone-state.ts';
import { beyond } from '../price.ts';
import type { Weight } from '../weights.ts';
import type { Piece } from './arc-pieces.ts';
import type { Lengths } from './settle.ts';

/** Laxity of one side at one angle of mid-flexion: `cos * J + sin * q - K + rest`, mm. */
export interface ArcLine {
  readonly cos: number;
  readonly sin: number;
  readonly rest: number;
}

/** What is charged on mid-flexion (GAP-23): for each side the line that lies furthest outside the window. */
export interface ArcTerm {
  readonly sides: readonly (readonly ArcLine[])[];
  readonly weight: Weight;
  /** For each side the plane pieces of its cost; null = not worked out yet. */
  pieces: readonly (readonly Piece[])[] | null;
}

const TURNS = MID_FLEXION_DEG.map((deg) => ({ deg, cos: Math.cos(toRad(deg)), sin: Math.sin(toRad(deg)) }));

/**
 * The term of mid-flexion at one slope for one shape of the femur.
 *
 * @param opensMm what the slope opens at 90 degrees.
 * @param looserMm what the shape adds at each angle of mid-flexion.
 */
export function arcTermOf(
  state: BoneState,
  { opensMm, looserMm }: { readonly opensMm: number; readonly looserMm: readonly number[] },
  weight: Weight,
): ArcTerm {
  const side = (x: 'medial' | 'lateral') =>
    TURNS.map(({ deg, cos, sin }, i) => ({
      cos,
      sin,
      rest: onTargetMm(state.extensionLaxityMm[x], state.flexionLaxityMm[x] + opensMm, deg) + (looserMm[i] ?? 0),
    }));
  return { sides: [side('medial'), side('lateral')], weight, pieces: null };
}

/** What mid-flexion costs where the lengths stand, >= 0. */
export function arcCost({ sides, weight }: ArcTerm, { j, q, k }: Lengths): number {
  let sum = 0;
  for (const lines of sides) {
    let worst = 0;
    for (const { cos, sin, rest } of lines) worst = Math.max(worst, beyond(cos * j + sin * q - k + rest, weight));
    sum += worst;
  }
  return weight.weight * sum;
}
