import { toDeg, toRad } from '../measure/angle.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { canalSpan } from './canal-span.ts';
import { boundsOutwards, boundsWith, isOpen, type SlopeBounds } from './slope-bounds.ts';

/** One cross-section of the canal in one view: the two walls at a height, mm. */
export interface CanalSection {
  /** Along the bone, from the joint outwards. */
  readonly zMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/** Least clearance to one wall, and where along the bone. */
export interface Clearance {
  readonly mm: number;
  readonly zMm: number;
}

export interface StraightFit {
  /** Least tilt that passes, deg; + = towards the high wall going out along the bone, 0 = along the bone. */
  readonly tiltDeg: number;
  /** Where the axis stands at the first section, midway between what the walls allow, mm. */
  readonly startMm: number;
  /** Half of what the axis can be shifted at that tilt, mm. */
  readonly playMm: number;
  /** Least clearance to the low and to the high wall, mm, >= 0. */
  readonly clearanceMm: { readonly low: number; readonly high: number };
  /** Where along the bone each of them is. */
  readonly clearanceAtMm: { readonly low: number; readonly high: number };
  /** Stem diameter over canal width, least and greatest along the span. */
  readonly fill: { readonly least: number; readonly greatest: number };
  /** Distance between the two walls that force the tilt, mm; null = no tilt is forced. */
  readonly forcedOverMm: number | null;
}

const refuse = (code: string, message: string, mend: string) => cannot({ code, message, mend });

function wrong(sections: readonly CanalSection[], diameterMm: number) {
  if (!(diameterMm > 0 && Number.isFinite(diameterMm)))
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

/** The slope of smallest size within the bounds, and what forces it. */
function leastSlope({ least, greatest }: SlopeBounds): { slope: number; forcedOverMm: number | null } {
  if (least.slope > 0) return { slope: least.slope, forcedOverMm: least.apartMm };
  if (greatest.slope < 0) return { slope: greatest.slope, forcedOverMm: greatest.apartMm };
  return { slope: 0, forcedOverMm: null };
}

/** Clearance of an axis to both walls: smallest at a section, because walls and axis run straight between them. */
function clearances(sections: readonly CanalSection[], axisMm: (zMm: number) => number, radiusMm: number) {
  let low: Clearance = { mm: Number.POSITIVE_INFINITY, zMm: 0 };
  let high = low;
  for (const { zMm, lowMm, highMm } of sections) {
    const y = axisMm(zMm);
    if (y - radiusMm - lowMm < low.mm - 1e-9) low = { mm: y - radiusMm - lowMm, zMm };
    if (highMm - radiusMm - y < high.mm - 1e-9) high = { mm: highMm - radiusMm - y, zMm };
  }
  return { low, high };
}

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
  return straightFit(sections, diameterMm, boundsOutwards(sections, diameterMm).at(-1));
}

/** The same from slope bounds that are known already. `sections` as checked by `straightStem`. */
export function straightFit(
  sections: readonly CanalSection[],
  diameterMm: number,
  bounds: SlopeBounds | undefined,
): Outcome<StraightFit> {
  if (!bounds || !isOpen(bounds))
    return refuse(
      'stem-does-not-pass',
      `A straight stem of ${diameterMm} mm does not pass this canal at any tilt.`,
      'Take a shorter, thinner or bowed stem.',
    );
  const { slope, forcedOverMm } = leastSlope(bounds);
  const first = sections[0]?.zMm ?? 0;
  const r = diameterMm / 2;
  const onAxis = ({ low, high }: ReturnType<typeof clearances>) => (high.mm - low.mm) / 2;
  const startMm = onAxis(clearances(sections, (z) => slope * (z - first), r));
  const { low, high } = clearances(sections, (z) => startMm + slope * (z - first), r);
  const fills = sections.map((s) => diameterMm / Math.max(s.highMm - s.lowMm, diameterMm));
  const play = Math.max(0, Math.min(low.mm, high.mm));
  return ok({
    tiltDeg: toDeg(Math.atan(slope)),
    startMm,
    playMm: play,
    clearanceMm: { low: play, high: play },
    clearanceAtMm: { low: low.zMm, high: high.zMm },
    fill: { least: Math.min(...fills), greatest: Math.max(...fills) },
    forcedOverMm,
  });
}

/**
 * The longest straight stem of a diameter that passes from the first section outwards with a tilt of at most
 * `mostTiltDeg` (STM-4, STM-5). A longer stem is bound by all that binds a shorter one, so the sections are swept outwards
 * until one stops it, and the place between the last two is halved in on.
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
  const longest = longestWithin(sections, diameterMm, {
    mostTiltDeg,
    bounds: boundsOutwards(sections, diameterMm),
  });
  return longest === null
    ? refuse(
        'stem-does-not-enter',
        `A stem of ${diameterMm} mm is wider than the canal's mouth.`,
        'Take a thinner stem.',
      )
    : ok(longest);
}

/** The same from bounds that are known already; null = it does not enter. */
export function longestWithin(
  sections: readonly CanalSection[],
  diameterMm: number,
  { mostTiltDeg, bounds }: { readonly mostTiltDeg: number; readonly bounds: readonly SlopeBounds[] },
): number | null {
  const most = Math.tan(toRad(mostTiltDeg));
  const passes = ({ least, greatest }: SlopeBounds) =>
    Math.max(least.slope, -most) <= Math.min(greatest.slope, most) + 1e-12;
  const stopped = bounds.findIndex((b) => !passes(b));
  const start = sections[0]?.zMm ?? 0;
  if (stopped < 0) return (sections.at(-1)?.zMm ?? start) - start;
  const [before, after] = [sections[stopped - 1], sections[stopped]];
  const known = bounds[stopped - 1];
  if (!before || !after || !known) return null;
  const inner = sections.slice(0, stopped);
  let low = before.zMm;
  let high = after.zMm;
  while (high - low > 1e-3) {
    const middle = (low + high) / 2;
    const section = canalSpan(sections, middle, middle)[0];
    if (section && passes(boundsWith(known, inner, { section, diameterMm }))) low = middle;
    else high = middle;
  }
  return low - start;
}
