import type { Stem } from '../catalogue/catalogue.ts';
import { toDeg } from '../measure/angle.ts';
import { type CanalFill, canalFill } from './canal-fill.ts';
import { canalSpan } from './canal-span.ts';
import type { CanalInView } from './canal-view.ts';
import { CEMENT_MANTLE_MM } from './choose-stem.ts';
import { boundsOutwards, boundsUpTo, type SlopeBounds } from './slope-bounds.ts';
import { type CanalSection, longestWithin, straightFit } from './straight-stem.ts';
import { bowDropMm, type StemBow, straightenedFor } from './straighten-canal.ts';

/** Where a stem stands along its bone, mm from the target joint line outwards. */
export interface StemSeat {
  readonly seatMm: number;
  readonly tipMm: number;
}

/** A place where stem (or its mantle) and wall meet. */
export interface WallContact {
  readonly zMm: number;
  readonly wall: 'low' | 'high';
}

/** One stem in one view of its canal. */
export interface StemInView {
  readonly view: CanalInView['view'];
  readonly film: string;
  /**
   * `passes` within the allowed tilt; `tilts` passes with more than that; `stopped` at no tilt; `beyond-trace`: passes as far
   * as the canal was traced, and ends beyond it.
   */
  readonly standing: 'passes' | 'tilts' | 'stopped' | 'beyond-trace';
  /** Least tilt that the canal forces, deg; + = tip towards lateral or anterior; null where it is stopped. */
  readonly tiltDeg: number | null;
  /** Spread of a forced tilt from marking the walls, deg; null where no tilt is forced. */
  readonly tiltSdDeg: number | null;
  /** Where the axis may stand at the seat, across, mm: least and most; null where it is stopped. */
  readonly atSeatMm: readonly [number, number] | null;
  /** Least clearance to each wall when the stem stands midway, mm (a cemented stem: thickness of its mantle), and where. */
  readonly clearance: {
    readonly low: { readonly mm: number; readonly zMm: number };
    readonly high: { readonly mm: number; readonly zMm: number };
  } | null;
  /** Where the walls hold it, or stop it. */
  readonly contacts: readonly WallContact[];
  readonly fill: CanalFill | null;
  /** Longest stem of this diameter and shape from the same seat that passes within the allowed tilt, mm; null = enters nowhere. */
  readonly longestMm: number | null;
  /** The trace ends before that stem is stopped: it may be longer. */
  readonly longestEndsWithTrace: boolean;
}

/** What is asked of a stem in a view. */
export interface StemAsked {
  readonly stem: Stem;
  readonly seat: StemSeat;
  readonly mostTiltDeg: number;
}

/** Clearance below which a wall counts as touched, mm. */
const TOUCHES_MM = 0.05;

/** Width that the canal must leave, mm: the stem's own, with a mantle on each side where it is cemented (STM-2). */
export const passingWidthMm = (stem: Stem): number =>
  stem.diameterMm + (stem.fixation === 'cemented' ? 2 * CEMENT_MANTLE_MM : 0);

/** A bowed stem bows in the lateral view; in front it is straight. */
export const bowOf = ({ stem, seat }: StemAsked, view: CanalInView['view']): StemBow | null =>
  stem.bowRadiusMm !== undefined && view === 'lateral' ? { radiusMm: stem.bowRadiusMm, seatMm: seat.seatMm } : null;

/**
 * One stem of a catalogue in one view of the traced canal (STM-4 to STM-9, STM-14): least forced tilt, where it may stand, clearance to
 * each cortex, fill, the longest that passes.
 *
 * The stem is followed from its seat or from the first traced section, whichever lies further out: the wide metaphysis before it
 * holds nothing. Lengths mm, tilt deg, signs as in `CanalInView`. Null where the trace does not reach the stem at all.
 */
export function stemInView(canal: CanalInView, asked: StemAsked): StemInView | null {
  const { stem, seat, mostTiltDeg } = asked;
  const widthMm = passingWidthMm(stem);
  const bow = bowOf(asked, canal.view);
  const walls = swept(canal.sections, { widthMm, fromMm: seat.seatMm, bow });
  const [first, last] = [walls.sections[0], walls.sections.at(-1)];
  if (!first || !last || first.zMm >= seat.tipMm) return null;
  const longest = longestWithin(walls.sections, widthMm, { mostTiltDeg, bounds: walls.bounds });
  const reachMm = longest === null ? null : first.zMm + longest;
  const endsWithTrace = reachMm !== null && reachMm >= last.zMm - 1e-6;
  const endMm = Math.min(seat.tipMm, last.zMm);
  const span = canalSpan(walls.sections, first.zMm, endMm);
  const bounds = boundsUpTo(walls, { zMm: endMm, diameterMm: widthMm });
  const common = {
    view: canal.view,
    film: canal.film,
    fill: canalFill(canal.sections, { diameterMm: stem.diameterMm, fromMm: seat.seatMm, toMm: seat.tipMm }),
    longestMm: reachMm === null ? null : reachMm - seat.seatMm,
    longestEndsWithTrace: endsWithTrace,
  };
  const fit = straightFit(span, widthMm, bounds);
  if (!fit.ok) {
    const contacts = stoppedAt(walls, { widthMm, reachMm, mostTiltDeg });
    return {
      ...common,
      standing: 'stopped',
      tiltDeg: null,
      tiltSdDeg: null,
      atSeatMm: null,
      clearance: null,
      contacts,
    };
  }
  const { tiltDeg, startMm, playMm, forcedOverMm } = fit.value;
  const slope = Math.tan((tiltDeg * Math.PI) / 180);
  const middle = startMm - slope * (first.zMm - seat.seatMm);
  const mantle = (widthMm - stem.diameterMm) / 2;
  const side = (at: number) => ({ mm: playMm + mantle, zMm: at });
  const { low, high } = fit.value.clearanceAtMm;
  return {
    ...common,
    standing:
      Math.abs(tiltDeg) > mostTiltDeg + 1e-9 ? 'tilts' : seat.tipMm > last.zMm + 1e-6 ? 'beyond-trace' : 'passes',
    tiltDeg,
    tiltSdDeg: forcedOverMm === null ? null : toDeg((Math.SQRT2 * canal.wallSdMm) / Math.max(1, forcedOverMm)),
    atSeatMm: [middle - playMm, middle + playMm],
    clearance: { low: side(low), high: side(high) },
    contacts: touched(span, { axisMm: (z) => startMm + slope * (z - first.zMm), radiusMm: widthMm / 2 }),
  };
}

interface Swept {
  readonly sections: readonly CanalSection[];
  readonly bounds: readonly SlopeBounds[];
}

/** Traced walls from the seat outwards, straightened for a bowed stem, with the slope bounds of every length. Kept for the same question. */
const known = new WeakMap<readonly CanalSection[], Map<string, Swept>>();

function swept(
  sections: readonly CanalSection[],
  { widthMm, fromMm, bow }: { readonly widthMm: number; readonly fromMm: number; readonly bow: StemBow | null },
): Swept {
  const kept = known.get(sections) ?? new Map<string, Swept>();
  known.set(sections, kept);
  const key = `${widthMm}/${fromMm}/${bow?.radiusMm ?? 0}`;
  const before = kept.get(key);
  if (before) return before;
  const start = Math.max(fromMm, sections[0]?.zMm ?? 0);
  const traced = canalSpan(sections, start, sections.at(-1)?.zMm ?? 0);
  const walls = bow ? straightenedFor(traced, bow) : traced;
  const made = { sections: walls, bounds: boundsOutwards(walls, widthMm) };
  kept.set(key, made);
  return made;
}

/** Walls that an axis touches, each run of neighbouring sections once, at its nearest section. */
function touched(
  span: readonly CanalSection[],
  { axisMm, radiusMm }: { readonly axisMm: (zMm: number) => number; readonly radiusMm: number },
): readonly WallContact[] {
  const found: WallContact[] = [];
  for (const wall of ['low', 'high'] as const) {
    const gaps = span.map((s) =>
      wall === 'low' ? axisMm(s.zMm) - radiusMm - s.lowMm : s.highMm - radiusMm - axisMm(s.zMm),
    );
    for (const [i, gap] of gaps.entries()) {
      const at = span[i];
      const nearer = gap <= TOUCHES_MM && gap < (gaps[i - 1] ?? Infinity) && gap <= (gaps[i + 1] ?? Infinity);
      if (at && nearer) found.push({ zMm: at.zMm, wall });
    }
  }
  return found.toSorted((a, b) => a.zMm - b.zMm || (a.wall < b.wall ? -1 : 1));
}

/** Where the longest stem that passes is held when it goes no further: its tip first. */
function stoppedAt(
  walls: Swept,
  {
    widthMm,
    reachMm,
    mostTiltDeg,
  }: { readonly widthMm: number; readonly reachMm: number | null; readonly mostTiltDeg: number },
): readonly WallContact[] {
  const first = walls.sections[0];
  if (reachMm === null || !first) return [];
  const span = canalSpan(walls.sections, first.zMm, reachMm);
  const fit = straightFit(span, widthMm, boundsUpTo(walls, { zMm: reachMm, diameterMm: widthMm }));
  if (!fit.ok || Math.abs(fit.value.tiltDeg) > mostTiltDeg + 0.01) return [];
  const slope = Math.tan((fit.value.tiltDeg * Math.PI) / 180);
  return touched(span, { axisMm: (z) => fit.value.startMm + slope * (z - first.zMm), radiusMm: widthMm / 2 });
}

/** Where the stem's axis runs across at a height, mm, for drawing: midway, with its forced tilt and its bow. */
export function stemAxisMm(found: StemInView, asked: StemAsked, zMm: number): number {
  const { seatMm } = asked.seat;
  const [least, most] = found.atSeatMm ?? [0, 0];
  const bow = bowOf(asked, found.view);
  const slope = Math.tan(((found.tiltDeg ?? 0) * Math.PI) / 180);
  return (least + most) / 2 + slope * (zMm - seatMm) - (bow ? bowDropMm(bow, zMm) : 0);
}
