import type { Stem } from '../../catalogue/catalogue.ts';
import { takesHeld } from './by-hand.ts';
import { type Held, out, type Trial, weigh } from './trial.ts';

/** What stands on one bone. */
export interface Standing {
  readonly bone: 'femur' | 'tibia';
  readonly size: number;
  readonly rank: number;
  readonly augmented: boolean;
  readonly coupler: boolean;
  readonly boxMm: number;
  readonly segment: boolean;
}

const ofBone = (t: Trial, bone: 'femur' | 'tibia') =>
  bone === 'femur'
    ? {
        cls: t.state.femurClass,
        quality: t.state.femurQuality,
        canal: t.state.femurCanalMm,
        limits: t.state.femoralStemLimits,
        cavity: t.state.femurCavity,
      }
    : {
        cls: t.state.tibiaClass,
        quality: t.state.tibiaQuality,
        canal: t.state.tibiaCanalMm,
        limits: t.state.tibialStemLimits,
        cavity: t.state.tibiaCavity,
      };

function passes(t: Trial, stem: Stem, on: Standing): boolean {
  const { canal, cls, limits } = ofBone(t, on.bone);
  if (stem.bone !== 'both' && stem.bone !== on.bone) return false;
  if (stem.lengthMm < (cls === '3' || on.rank === 2 ? 100 : 50)) return false;
  if (limits && !limits.some((l) => l.ref === stem.ref && l.passes)) return false;
  if (typeof limits?.find((l) => l.ref === stem.ref)?.looseMm === 'number') return true;
  if (canal === null) return stem.fixation === 'cemented';
  return stem.diameterMm <= canal - (stem.fixation === 'cemented' ? 4 : 0);
}

type Metaphysis = Held['metaphysis'];

/** Whether cone or sleeve can be had there. */
function canBe(t: Trial, on: Standing, way: { readonly stem: Stem | null; readonly metaphysis: Metaphysis }): boolean {
  const { cavity } = ofBone(t, on.bone);
  const fits = (part: { ref: string; bone: string; sizes: readonly number[] }) =>
    part.bone === on.bone &&
    part.sizes.includes(on.size) &&
    (!cavity || cavity.some((c) => c.ref === part.ref && c.fits));
  const wide = Math.max(on.boxMm, way.stem?.diameterMm ?? 0);
  if (way.metaphysis === 'none') return true;
  if (on.segment) return false;
  if (way.metaphysis === 'cone') return t.catalogue.cones?.some((c) => fits(c) && (c.boreMm ?? 1e9) >= wide) ?? false;
  return t.catalogue.sleeves?.some((s) => fits(s) && (!on.coupler || s.takesOffset)) ?? false;
}

/** Zones that are missing of two; null where that is forbidden. */
function missingZones(
  t: Trial,
  on: Standing,
  has: { readonly stem: boolean; readonly second: boolean },
): number | null {
  const { cls, quality } = ofBone(t, on.bone);
  const rim = !on.segment && (cls === '1' || cls === '2A');
  const solid =
    (rim && quality === 'good' ? 1 : 0) + (!on.segment && (has.second || cls === '1') ? 1 : 0) + (has.stem ? 1 : 0);
  if (!on.segment && !rim && solid < 2) return null;
  return Math.max(0, 2 - solid - (rim && quality === 'unknown' ? 1 : 0));
}

/** What a stem costs: itself, its looseness, its conflict with the canal. */
function stemCost(t: Trial, on: Standing, stem: Stem): number {
  const { canal, limits } = ofBone(t, on.bone);
  const limit = limits?.find((l) => l.ref === stem.ref);
  const play = stem.fixation === 'cemented' ? 8 : 0.5;
  const byCanal = canal === null ? 0 : Math.max(0, canal - play - stem.diameterMm);
  const tilts = [limit?.forcedTiltDeg.coronal ?? 0, limit?.forcedTiltDeg.sagittal ?? 0];
  return (
    weigh(t, 'stem').w +
    weigh(t, 'stem-fit').w * (limit?.looseMm ?? byCanal) +
    tilts.reduce((sum, deg) => sum + out(Math.abs(deg), weigh(t, 'stem-conflict')), 0)
  );
}

/** Every way to hold one bone that is allowed. */
export function holdings(t: Trial, on: Standing): readonly Held[] {
  const { cls, limits } = ofBone(t, on.bone);
  const [first] = t.catalogue.stems;
  const found: Held[] = [];
  for (const stem of [null, ...(first && passes(t, first, on) ? [first] : [])])
    for (const metaphysis of ['none', 'cone', 'sleeve'] as const) {
      if (!canBe(t, on, { stem, metaphysis })) continue;
      const loaded = on.augmented || on.coupler || metaphysis !== 'none' || on.segment;
      if (!stem && (loaded || cls !== '1' || on.rank > 0)) continue;
      const missing = missingZones(t, on, { stem: stem !== null, second: metaphysis !== 'none' });
      if (missing === null) continue;
      const cost =
        weigh(t, 'zones').w * missing +
        (stem ? stemCost(t, on, stem) : 0) +
        (metaphysis === 'none' ? 0 : weigh(t, metaphysis).w);
      const tilt = stem && on.bone === 'femur' && !on.segment ? limits?.find((l) => l.ref === stem.ref) : undefined;
      found.push({ cost, stem: stem !== null, metaphysis, flexionDeg: tilt?.forcedTiltDeg.sagittal ?? 0 });
    }
  return takesHeld(t, on.bone, found);
}
