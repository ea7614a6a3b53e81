import type { DiaphysisMap } from '../bone/bone-map.ts';
import type { OffsetCoupler, Stem } from '../catalogue/catalogue.ts';
import type { Side } from '../landmarks/side.ts';
import { fillMeets } from './canal-fill.ts';
import { type CanalOfBone, STEM_VIEWS, type StemView } from './canal-view.ts';
import { stemLooseMm } from './choose-stem.ts';
import {
  type ChosenOffset,
  chooseOffset,
  type OffsetDirection,
  type OffsetNeeded,
  offsetDirection,
  takenOffset,
} from './offset-direction.ts';
import { type StemInView, stemInView } from './stem-in-view.ts';
import { saysOf } from './stem-words.ts';
import { type Bypass, bypasses, type MetalGap, metalGap, type Standing3 } from './tip-checks.ts';

/** Tilt of a component that is still accepted when its stem forces it, deg (STM-8; limits of neutral alignment, grade C). */
export const MOST_TILT_DEG: Readonly<Record<'femur' | 'tibia', Readonly<Record<StemView, number>>>> = {
  femur: { ap: 3, lateral: 5 },
  tibia: { ap: 3, lateral: 3 },
};

/** What a stem is judged in. */
export interface StemSurroundings {
  readonly side: Side;
  readonly canal: CanalOfBone;
  /** Where the stem begins, mm from the target joint line outwards. */
  readonly seatMm: number;
  /** Where the component holds its stem when it stands over the bone's middle, mm across; null = the catalogue does not say. */
  readonly bossMm: Readonly<Record<StemView, number | null>>;
  readonly shaft: DiaphysisMap;
  readonly couplers: readonly OffsetCoupler[];
  /** The coupler that a construct takes, null = none; absent = no construct yet: the nearest of `couplers`. */
  readonly taken?: OffsetCoupler | null;
}

/** One stem of the catalogue in the measured canal. */
export interface StemVerdict {
  readonly ref: string;
  readonly name: string;
  readonly fixation: Stem['fixation'];
  readonly diameterMm: number;
  readonly lengthMm: number;
  readonly seatMm: number;
  readonly tipMm: number;
  /** `not-known`: nothing speaks against it, but a view is not traced, or not far enough. */
  readonly verdict: 'passes' | 'does-not-pass' | 'not-known';
  /** The verdict in one plain sentence. */
  readonly says: string;
  readonly ap: StemInView | null;
  readonly lateral: StemInView | null;
  /** Tilt that it forces on its component, deg: valgus +; femur: flexion +, tibia: posterior slope +. Null = not known. */
  readonly component: { readonly coronalDeg: number | null; readonly sagittalDeg: number | null };
  /** Published limits of fill and engagement, press-fit stems only; null for cemented ones. */
  readonly fill: { readonly fill: Standing3; readonly engaged: Standing3 } | null;
  /** How much narrower it is than its own stretch of the canal asks for, both views together, mm, >= 0 (STM-2); null = not traced there. */
  readonly looseMm: number | null;
  /** Cement on each side at its thinnest, mm; null for press-fit stems and where it does not pass. */
  readonly mantleMm: number | null;
  /** Where the component has to stand against its stem to come over the bone's middle, and the coupler for it. */
  readonly offset: (OffsetDirection & { readonly needed: OffsetNeeded; readonly choice: ChosenOffset }) | null;
  readonly bypass: readonly Bypass[];
  readonly metal: MetalGap | null;
}

/**
 * One stem of the catalogue against everything that is measured of its canal (STM-4 to STM-14). Three-valued: what fails in one view
 * fails; what passes in one view while the other is not traced, or ends beyond the trace, is not known.
 */
export function judgeStem(stem: Stem, around: StemSurroundings): StemVerdict {
  const { canal, seatMm, shaft } = around;
  const seat = { seatMm, tipMm: seatMm + stem.lengthMm };
  const most = MOST_TILT_DEG[canal.bone];
  const seen = (view: StemView) => {
    const traced = canal[view];
    return traced ? stemInView(traced, { stem, seat, mostTiltDeg: most[view], bossMm: around.bossMm[view] }) : null;
  };
  const [ap, lateral] = [seen('ap'), seen('lateral')];
  const found = [ap, lateral].filter((v) => v !== null);
  const fails = found.some((v) => v.standing === 'stopped' || v.standing === 'tilts');
  const whole = found.length === STEM_VIEWS.length && found.every((v) => v.standing === 'passes');
  const verdict = fails ? 'does-not-pass' : whole ? 'passes' : 'not-known';
  const mantles = found.flatMap((v) => (v.clearance ? [v.clearance.low.mm, v.clearance.high.mm] : []));
  const judged = {
    ref: stem.ref,
    name: stem.name,
    fixation: stem.fixation,
    diameterMm: stem.diameterMm,
    lengthMm: stem.lengthMm,
    ...seat,
    verdict,
    ap,
    lateral,
    component: componentTilt(ap, lateral),
    fill: stem.fixation === 'press-fit' ? fillOf(canal.bone, [ap, lateral]) : null,
    looseMm: looseOf(stem, found),
    mantleMm: stem.fixation === 'cemented' && mantles.length > 0 ? Math.min(...mantles) : null,
    offset: offsetOf(around, ap, lateral),
    bypass: bypasses(seat.tipMm, shaft),
    metal: metalGap(seat.tipMm, shaft),
  } as const;
  return { ...judged, says: saysOf(judged, canal) };
}

/** By the narrowest place that it reaches in either view: there a press-fit stem has to hold. */
function looseOf(stem: Stem, found: readonly StemInView[]): number | null {
  const narrowest = found.flatMap((v) => (v.fill ? [stem.diameterMm / v.fill.greatest] : []));
  return narrowest.length === 0 ? null : stemLooseMm(stem, Math.min(...narrowest));
}

/**
 * What a forced tilt does to the component (STM-8): a stem whose tip leans laterally sets femur and tibia in varus; a femoral tip that leans
 * to the front flexes the component; a tibial tip that leans to the front adds posterior slope. Deg.
 */
export const componentTilt = (
  ap: Pick<StemInView, 'tiltDeg'> | null,
  lateral: Pick<StemInView, 'tiltDeg'> | null,
): StemVerdict['component'] => ({
  // Never -0: a tilt that is not forced is told as 0 on either side.
  coronalDeg: ap?.tiltDeg == null ? null : 0 - ap.tiltDeg,
  sagittalDeg: lateral?.tiltDeg ?? null,
});

/** Met where every traced view meets it; not met where one does not; not known while a view is missing. */
function fillOf(bone: 'femur' | 'tibia', views: readonly (StemInView | null)[]): NonNullable<StemVerdict['fill']> {
  const all = (pick: 'fill' | 'engaged'): Standing3 => {
    const met = views.map((v) => (v?.fill ? fillMeets(v.fill, bone)[pick] : null));
    if (met.includes(false)) return 'not-met';
    return met.includes(null) ? 'not-known' : 'met';
  };
  return { fill: all('fill'), engaged: all('engaged') };
}

/** The component over the bone's middle while the stem stands as near to it as the canal lets it. */
function offsetOf(around: StemSurroundings, ap: StemInView | null, lateral: StemInView | null): StemVerdict['offset'] {
  const away = (view: StemInView | null, boss: number | null): number | null =>
    view?.standsAtMm == null || boss === null ? null : boss - view.standsAtMm;
  const lateralMm = away(ap, around.bossMm.ap);
  if (lateralMm === null) return null;
  const anteriorMm = away(lateral, around.bossMm.lateral);
  const needed = { lateralMm, anteriorMm };
  const direction = offsetDirection(needed, { bone: around.canal.bone, side: around.side });
  const { taken } = around;
  const couplers = around.couplers.filter((c) => c.bone === 'both' || c.bone === around.canal.bone);
  const { sizeMm } = direction;
  return {
    ...direction,
    needed,
    choice: taken === undefined ? chooseOffset(sizeMm, couplers) : takenOffset(sizeMm, taken),
  };
}
