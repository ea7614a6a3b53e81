import type { Catalogue } from '../catalogue/catalogue.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import { toRad } from '../measure/angle.ts';
import { arcLaxity, type KneeInArc, shapeOf } from './arc.ts';
import { ARC_END_DEG, onTargetMm } from './arc-laxity.ts';
import { shapeLooserMm } from './arc-shape.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct } from './construct.ts';
import { slopeOpeningMm } from './laxity.ts';
import { partsOf } from './parts-of.ts';
import type { Prices } from './price.ts';
import { bearingMm } from './seating.ts';

/** Free window at one angle, mm, `[low, high]`. */
export type Band = readonly [number, number];

export interface ArcPoint {
  readonly flexionDeg: number;
  /** With the construct, mm; 0 = just taut, + = loose. */
  readonly laxityMm: PerCompartment<number>;
  /** With the joint surfaces on target, mm: what the ligaments alone leave. */
  readonly onTargetMm: PerCompartment<number>;
  readonly band: PerCompartment<Band>;
}

export interface ArcCurve {
  /** From 0 to 120 degrees in steps of 3. */
  readonly points: readonly ArcPoint[];
  /** Point furthest outside its band from 0 to 90 degrees; the first one, with 0 beyond, where all lie inside. */
  readonly worst: {
    readonly side: 'medial' | 'lateral';
    readonly flexionDeg: number;
    readonly laxityMm: number;
    readonly beyondMm: number;
  };
  /**
   * What the construct adds in mid-flexion to the straight line from its laxity at 0 to that at 90 degrees, where it is
   * largest by size, mm, + = slack; the same on both sides.
   */
  readonly excess: { readonly flexionDeg: number; readonly mm: number };
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

function excessOf(knee: KneeInArc): ArcCurve['excess'] {
  const { femurProximalMm: j, femurAnteriorMm: q } = knee.construct;
  let excess = { flexionDeg: 45, mm: 0 };
  for (let deg = 1; deg < 90; deg++) {
    const t = toRad(deg);
    const line = j + ((q - j) * deg) / 90;
    const mm = j * Math.cos(t) + q * Math.sin(t) + shapeLooserMm(shapeOf(knee), deg) - line;
    if (Math.abs(mm) > Math.abs(excess.mm) + 1e-12) excess = { flexionDeg: deg, mm };
  }
  return excess;
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
  const points = Array.from({ length: ARC_END_DEG / STEP_DEG + 1 }, (_, i): ArcPoint => {
    const flexionDeg = i * STEP_DEG;
    return {
      flexionDeg,
      laxityMm: arcLaxity(knee, flexionDeg),
      onTargetMm: each((x) => onTargetMm(e[x], f[x], flexionDeg)),
      band: each((x) => bandAt(prices, x, flexionDeg)),
    };
  });
  return { points, worst: worstOf(points), excess: excessOf(knee) };
}

function worstOf(points: readonly ArcPoint[]): ArcCurve['worst'] {
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
