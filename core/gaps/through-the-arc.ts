import type { PerCompartment } from '../landmarks/side.ts';
import { arcLaxity, type KneeInArc } from './arc.ts';

/** Laxity of both sides at one angle of the knee, mm. */
export interface ArcPoint {
  readonly flexionDeg: number;
  readonly laxityMm: PerCompartment<number>;
}

/** The side and angle at which a knee is slackest between extension and flexion. */
export interface MidFlexionExcess {
  readonly side: 'medial' | 'lateral';
  readonly flexionDeg: number;
  readonly laxityMm: number;
  /** By how much it is looser there than the straight line between its laxity at 0 and at 90 degrees, mm. */
  readonly excessMm: number;
}

const ARC_DEG = { end: 120, flexion: 90 } as const;

/**
 * Laxity of both sides from 0 to 120 degrees (GAP-23), for a chart.
 *
 * @param stepDeg whole degrees between points, 1 to 30.
 * @returns mm; 0 = just taut, + = loose; the first point at 0, the last at 120 degrees or just before.
 */
export const arcPoints = (knee: KneeInArc, stepDeg: number): readonly ArcPoint[] =>
  Array.from({ length: Math.floor(ARC_DEG.end / stepDeg) + 1 }, (_, i) => ({
    flexionDeg: i * stepDeg,
    laxityMm: arcLaxity(knee, i * stepDeg),
  }));

/**
 * What a knee that is balanced at 0 and at 90 degrees is slacker by between the two, at its worst (GAP-23): the mark of
 * a raised joint line, since moving the femur up and forward turns the arc of its surface away from the tibia.
 *
 * @returns the worst whole degree from 1 to 89 of the worse side, `excessMm` >= 0; the medial side and the smaller angle among
 * equals. 0 where the knee is nowhere slacker than the straight line.
 * Example: 5 mm raised and 5 mm forward on a bearing 5 mm high: 2.07 mm at 45 degrees.
 */
export function midFlexionExcess(knee: KneeInArc): MidFlexionExcess {
  const [straight, bent] = [arcLaxity(knee, 0), arcLaxity(knee, ARC_DEG.flexion)];
  let worst: MidFlexionExcess | null = null;
  for (let flexionDeg = 1; flexionDeg < ARC_DEG.flexion; flexionDeg++) {
    const laxity = arcLaxity(knee, flexionDeg);
    for (const side of ['medial', 'lateral'] as const) {
      const line = straight[side] + ((bent[side] - straight[side]) * flexionDeg) / ARC_DEG.flexion;
      const excessMm = Math.max(0, laxity[side] - line);
      if (worst === null || excessMm > worst.excessMm + 1e-9)
        worst = { side, flexionDeg, laxityMm: laxity[side], excessMm };
    }
  }
  return worst ?? { side: 'medial', flexionDeg: 45, laxityMm: straight.medial, excessMm: 0 };
}
