import type { Stem } from '../catalogue/catalogue.ts';
import { toDeg, toRad } from '../measure/angle.ts';
import { type CanalFill, canalFill } from './canal-fill.ts';
import { canalSpan } from './canal-span.ts';
import type { CanalInView } from './canal-view.ts';
import { CEMENT_MANTLE_MM } from './choose-stem.ts';
import { boundsUpTo } from './slope-bounds.ts';
import { type Clearance, straightFit } from './straight-stem.ts';
import { bowDropMm, type StemBow } from './straighten-canal.ts';
import { reachOf, sweptCanal, touched, type WallContact } from './swept-canal.ts';

/** Where a stem stands along its bone, mm from the target joint line outwards. */
export interface StemSeat {
  readonly seatMm: number;
  readonly tipMm: number;
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
  /** Where it stands there: as near to its component's place as the walls let it, midway where that is not known; null = stopped. */
  readonly standsAtMm: number | null;
  /** Least clearance to each wall as it stands, mm (a cemented stem: thickness of its mantle), and where. */
  readonly clearance: { readonly low: Clearance; readonly high: Clearance } | null;
  /** Where the walls hold it; of a stem that is stopped, where they hold the longest that passes. */
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
  /** Where its component holds it without offset, mm across; null = not known. */
  readonly bossMm: number | null;
}

/** Width that the canal must leave, mm: the stem's own, with a mantle on each side where it is cemented (STM-2). */
export const passingWidthMm = (stem: Stem): number =>
  stem.diameterMm + (stem.fixation === 'cemented' ? 2 * CEMENT_MANTLE_MM : 0);

/** A bowed stem bows in the lateral view; from in front it is straight. */
const bowOf = ({ stem, seat }: Pick<StemAsked, 'stem' | 'seat'>, view: CanalInView['view']): StemBow | null =>
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
  const swept = sweptCanal(canal.sections, { widthMm, fromMm: seat.seatMm, bow: bowOf(asked, canal.view) });
  const [first, last] = [swept.sections[0], swept.sections.at(-1)];
  if (!first || !last || first.zMm >= seat.tipMm) return null;
  const reach = reachOf(swept, mostTiltDeg);
  const endMm = Math.min(seat.tipMm, last.zMm);
  const span = canalSpan(swept.sections, first.zMm, endMm);
  const fit = straightFit(span, widthMm, boundsUpTo(swept, { zMm: endMm, diameterMm: widthMm }));
  const common = {
    view: canal.view,
    film: canal.film,
    fill: canalFill(canal.sections, { diameterMm: stem.diameterMm, fromMm: seat.seatMm, toMm: seat.tipMm }),
    longestMm: reach.reachMm === null ? null : reach.reachMm - seat.seatMm,
    longestEndsWithTrace: reach.reachMm !== null && reach.reachMm >= last.zMm - 1e-6,
  };
  if (!fit.ok) {
    const none = { tiltDeg: null, tiltSdDeg: null, atSeatMm: null, standsAtMm: null, clearance: null };
    return { ...common, ...none, standing: 'stopped', contacts: reach.contacts };
  }
  const { tiltDeg, startMm, playMm, forcedOverMm, clearanceAtMm } = fit.value;
  const slope = Math.tan(toRad(tiltDeg));
  const middle = startMm - slope * (first.zMm - seat.seatMm);
  const stands = Math.min(Math.max(asked.bossMm ?? middle, middle - playMm), middle + playMm);
  const mantle = (widthMm - stem.diameterMm) / 2;
  const clearance = {
    low: { mm: playMm + (stands - middle) + mantle, zMm: clearanceAtMm.low },
    high: { mm: playMm - (stands - middle) + mantle, zMm: clearanceAtMm.high },
  };
  const tooFar = Math.abs(tiltDeg) > mostTiltDeg + 1e-9;
  return {
    ...common,
    standing: tooFar ? 'tilts' : seat.tipMm > last.zMm + 1e-6 ? 'beyond-trace' : 'passes',
    tiltDeg,
    tiltSdDeg: forcedOverMm === null ? null : toDeg((Math.SQRT2 * canal.wallSdMm) / Math.max(1, forcedOverMm)),
    atSeatMm: [middle - playMm, middle + playMm],
    standsAtMm: stands,
    clearance,
    contacts: touched(span, { axisMm: (z) => stands + slope * (z - seat.seatMm), radiusMm: widthMm / 2 }),
  };
}

/** Where the stem's axis runs across at a height, mm, for drawing: as it stands, with its forced tilt and its bow. */
export function stemAxisMm(found: StemInView, asked: Omit<StemAsked, 'bossMm' | 'mostTiltDeg'>, zMm: number): number {
  const { seatMm } = asked.seat;
  const bow = bowOf(asked, found.view);
  const leaning = Math.tan(toRad(found.tiltDeg ?? 0)) * (zMm - seatMm);
  return (found.standsAtMm ?? 0) + leaning - (bow ? bowDropMm(bow, zMm) : 0);
}
