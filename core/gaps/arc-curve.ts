import type { Catalogue } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import type { KneeInArc } from './arc.ts';
import { onTargetMm } from './arc-laxity.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct } from './construct.ts';
import { slopeOpeningMm } from './laxity.ts';
import { partsOf } from './parts-of.ts';
import type { Prices } from './price.ts';
import { bearingMm } from './seating.ts';
import { type ArcPoint, arcPoints, type MidFlexionExcess, midFlexionExcess } from './through-the-arc.ts';

/** Free window at one angle, mm, `[low, high]`. */
export type Band = readonly [number, number];

/** Laxity with the construct, and what it is to be held against. */
export interface JudgedPoint extends ArcPoint {
  /** With the joint surfaces on target, mm: what the ligaments alone leave. */
  readonly onTargetMm: PerCompartment<number>;
  readonly band: PerCompartment<Band>;
}

export interface ArcCurve {
  /** From 0 to 120 degrees in steps of 3. */
  readonly points: readonly JudgedPoint[];
  /** Point furthest outside its band from 0 to 90 degrees; the first one, with 0 beyond, where all lie inside. */
  readonly worst: {
    readonly side: 'medial' | 'lateral';
    readonly flexionDeg: number;
    readonly laxityMm: number;
    readonly beyondMm: number;
  };
  readonly excess: MidFlexionExcess;
}

const STEP_DEG = 3;
const SIDES = ['medial', 'lateral'] as const;

const each = <T>(make: (side: 'medial' | 'lateral') => T): PerCompartment<T> => ({
  medial: make('medial'),
  lateral: make('lateral'),
});

/** Straight from the window in extension to that in flexion, which holds on beyond 90 degrees. */
function bandAt(prices: Prices, x: 'medial' | 'lateral', flexionDeg: number): Band {
  const from = prices[`laxity-extension-${x}`].free;
  const to = prices[`laxity-flexion-${x}`].free;
  return [onTargetMm(from[0], to[0], flexionDeg), onTargetMm(from[1], to[1], flexionDeg)];
}

function kneeOf(asked: { construct: Construct; state: BoneState; catalogue: Catalogue }): KneeInArc {
  const { construct, state } = asked;
  const { femur, tray, insert } = partsOf(construct, asked.catalogue);
  return {
    state,
    construct,
    femur,
    bearingMm: bearingMm(construct.trayMm, tray.thicknessMm, insert.heightMm),
    slopeOpeningMm: slopeOpeningMm({
      slopeDeg: construct.slopeDeg,
      referenceSlopeDeg: state.referenceSlopeDeg,
      contactBehindMm: state.flexionContactBehindMm,
    }),
  };
}

/**
 * Laxity from 0 to 120 degrees for a chart, both sides (GAP-13, GAP-23): with the construct, with the surfaces on
 * target, and the band in which it costs nothing; its worst point, and the mid-flexion excess from a raised line.
 *
 * All in mm, 0 = just taut, + = loose; angles in deg. Beyond 90 degrees the ligaments are taken to be as at 90, an
 * assumption. Where the state holds no target outline the component's own shape is the reference.
 * Example: a line raised by 5 mm and balanced at both ends has an excess of 2.07 mm at 45 degrees.
 */
export function arcCurve(
  asked: { readonly construct: Construct; readonly state: BoneState; readonly catalogue: Catalogue },
  prices: Prices,
): ArcCurve {
  const knee = kneeOf(asked);
  const { extensionLaxityMm: e, flexionLaxityMm: f } = asked.state;
  const points = arcPoints(knee, STEP_DEG).map(
    (point): JudgedPoint => ({
      ...point,
      onTargetMm: each((x) => onTargetMm(e[x], f[x], point.flexionDeg)),
      band: each((x) => bandAt(prices, x, point.flexionDeg)),
    }),
  );
  return { points, worst: worstOf(points), excess: midFlexionExcess(knee) };
}

function worstOf(points: readonly JudgedPoint[]): ArcCurve['worst'] {
  const outside = (laxityMm: number, free: Band) => Math.max(0, free[0] - laxityMm, laxityMm - free[1]);
  let worst: ArcCurve['worst'] | null = null;
  for (const { flexionDeg, laxityMm, band } of points)
    for (const side of SIDES) {
      if (flexionDeg > 90) continue;
      const beyondMm = outside(laxityMm[side], band[side]);
      if (!worst || beyondMm > worst.beyondMm) worst = { side, flexionDeg, laxityMm: laxityMm[side], beyondMm };
    }
  if (!worst) throw new Error('The curve holds no point.');
  return worst;
}
