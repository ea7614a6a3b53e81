import { toDeg, toRad } from '../measure/angle.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';

/** One cross-section of the canal in one view: the two walls at a height, mm. */
export interface CanalSection {
  /** Along the bone, from the joint outwards. */
  readonly zMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

export interface StraightFit {
  /** Least tilt that passes, deg; + = towards the high wall going out along the bone, 0 = along the bone. */
  readonly tiltDeg: number;
  /** Where the axis stands at the first section, midway between what the walls allow, mm. */
  readonly startMm: number;
  /** Least clearance to the low and to the high wall, mm, >= 0. */
  readonly clearanceMm: { readonly low: number; readonly high: number };
  /** Stem diameter over canal width, least and greatest along the span. */
  readonly fill: { readonly least: number; readonly greatest: number };
}

const refuse = (code: string, message: string, mend: string) => cannot({ code, message, mend });

function wrong(sections: readonly CanalSection[], diameterMm: number) {
  if (!(diameterMm > 0))
    return refuse('stem-diameter', `A stem of ${diameterMm} mm is no stem.`, 'Give its diameter in mm.');
  if (sections.length < 2)
    return refuse('canal-sections', 'The canal has fewer than two sections.', 'Mark both walls at more heights.');
  if (sections.some((s, i) => i > 0 && !(s.zMm > (sections[i - 1]?.zMm ?? 0))))
    return refuse(
      'canal-order',
      'The sections of the canal are not in order.',
      'List them from the joint outwards, each height once.',
    );
  return null;
}

/** Slopes (tangent of the tilt) that some shift can carry through all sections, exactly: `[least, greatest]`, maybe empty. */
function slopes(sections: readonly CanalSection[], diameterMm: number): readonly [number, number] {
  let least = Number.NEGATIVE_INFINITY;
  let greatest = Number.POSITIVE_INFINITY;
  for (const a of sections)
    for (const b of sections) {
      // The stem lies above the low wall at a and below the high wall at b: one bound of the slope for each pair.
      const room = b.highMm - a.lowMm - diameterMm;
      const apart = b.zMm - a.zMm;
      if (apart > 0) greatest = Math.min(greatest, room / apart);
      else if (apart < 0) least = Math.max(least, room / apart);
      else if (room < 0) return [1, -1];
    }
  return [least, greatest];
}

const TOUCH_MM = 1e-9;

/**
 * The least tilt at which a straight stem passes a canal (STM-4): `low + d/2 <= y0 + z tan(tilt) <= high - d/2` at
 * every section. A linear programme in two unknowns, solved exactly: every pair of sections bounds the slope, and the
 * slope nearest to zero within the bounds is the least.
 *
 * @param sections canal walls of one view from the joint outwards, mm, straight between sections.
 * @param diameterMm d, mm.
 * @returns tilt, start, clearances, fill. `cannot` where the stem does not pass at any tilt.
 * Small tilts: the stem's width across the view is taken as d, as the specification has it (d / cos(3 deg) is 0.1 % more).
 */
export function straightStem(sections: readonly CanalSection[], diameterMm: number): Outcome<StraightFit> {
  const fault = wrong(sections, diameterMm);
  if (fault) return fault;
  const [least, greatest] = slopes(sections, diameterMm);
  if (least > greatest + 1e-12)
    return refuse(
      'stem-does-not-pass',
      `A straight stem of ${diameterMm} mm does not pass this canal at any tilt.`,
      'Take a shorter, thinner or bowed stem.',
    );
  const slope = Math.min(Math.max(0, least), Math.max(least, greatest));
  const first = sections[0]?.zMm ?? 0;
  const above = Math.max(...sections.map((s) => s.lowMm + diameterMm / 2 - slope * (s.zMm - first)));
  const below = Math.min(...sections.map((s) => s.highMm - diameterMm / 2 - slope * (s.zMm - first)));
  const fills = sections.map((s) => diameterMm / (s.highMm - s.lowMm));
  const clearance = Math.max(0, (below - above) / 2);
  return ok({
    tiltDeg: toDeg(Math.atan(slope)),
    startMm: (above + below) / 2,
    clearanceMm: { low: clearance, high: clearance },
    fill: { least: Math.min(...fills), greatest: Math.max(...fills) },
  });
}

/** The canal up to a height, its last section cut in between where needed. */
function upTo(sections: readonly CanalSection[], zMm: number): CanalSection[] {
  const inside = sections.filter((s) => s.zMm <= zMm + TOUCH_MM);
  const a = inside.at(-1);
  const b = sections[inside.length];
  if (!a || !b || zMm <= a.zMm + TOUCH_MM) return inside;
  const part = (zMm - a.zMm) / (b.zMm - a.zMm);
  const mix = (x: number, y: number) => x + part * (y - x);
  return [...inside, { zMm, lowMm: mix(a.lowMm, b.lowMm), highMm: mix(a.highMm, b.highMm) }];
}

/**
 * The longest straight stem of a diameter that passes from the first section outwards with a tilt of at most
 * `mostTiltDeg` (STM-4, STM-5). A longer stem is bound by all that binds a shorter one, so the length is halved in on.
 *
 * @returns mm, to a thousandth, rounded down; the whole canal where all of it passes; `cannot` where not even the first
 * two sections do. Example: width 16, bowed to 1000 mm, diameter 14: 126.5 mm.
 */
export function longestStraightStemMm(
  sections: readonly CanalSection[],
  diameterMm: number,
  mostTiltDeg: number,
): Outcome<number> {
  const fault = wrong(sections, diameterMm);
  if (fault) return fault;
  const most = Math.tan(toRad(mostTiltDeg));
  const start = sections[0]?.zMm ?? 0;
  const passes = (lengthMm: number) => {
    const [least, greatest] = slopes(upTo(sections, start + lengthMm), diameterMm);
    return Math.max(least, -most) <= Math.min(greatest, most) + 1e-12;
  };
  const whole = (sections.at(-1)?.zMm ?? 0) - start;
  if (passes(whole)) return ok(whole);
  if (!passes(0))
    return refuse(
      'stem-does-not-enter',
      `A stem of ${diameterMm} mm is wider than the canal's mouth.`,
      'Take a thinner stem.',
    );
  let low = 0;
  let high = whole;
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    if (passes(middle)) low = middle;
    else high = middle;
  }
  return ok(low);
}
