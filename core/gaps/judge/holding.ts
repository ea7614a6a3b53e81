import type { Stem } from '../../catalogue/catalogue.ts';
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

/** Every way to hold one bone that is allowed. */
export function holdings(t: Trial, on: Standing): readonly Held[] {
  const { cls, quality, canal, limits, cavity } = ofBone(t, on.bone);
  const [first] = t.catalogue.stems;
  const found: Held[] = [];
  for (const stem of [null, ...(first && passes(t, first, on) ? [first] : [])])
    for (const metaphysis of ['none', 'cone', 'sleeve'] as const) {
      const fits = (part: { ref: string; bone: string; sizes: readonly number[] }) =>
        part.bone === on.bone &&
        part.sizes.includes(on.size) &&
        (!cavity || cavity.some((c) => c.ref === part.ref && c.fits));
      const wide = Math.max(on.boxMm, stem?.diameterMm ?? 0);
      if (metaphysis !== 'none' && on.segment) continue;
      if (metaphysis === 'cone' && !t.catalogue.cones?.some((c) => fits(c) && (c.boreMm ?? 1e9) >= wide)) continue;
      if (metaphysis === 'sleeve' && !t.catalogue.sleeves?.some((s) => fits(s) && (!on.coupler || s.takesOffset)))
        continue;
      const loaded = on.augmented || on.coupler || metaphysis !== 'none' || on.segment;
      if (!stem && (loaded || cls !== '1' || on.rank > 0)) continue;
      const rim = !on.segment && (cls === '1' || cls === '2A');
      const solid =
        (rim && quality === 'good' ? 1 : 0) +
        (!on.segment && (metaphysis !== 'none' || cls === '1') ? 1 : 0) +
        (stem ? 1 : 0);
      if (!on.segment && !rim && solid < 2) continue;
      const perhaps = rim && quality === 'unknown' ? 1 : 0;
      const play = stem?.fixation === 'cemented' ? 8 : 0.5;
      const limit = limits?.find((l) => l.ref === stem?.ref);
      const byCanal = stem && canal !== null ? Math.max(0, canal - play - stem.diameterMm) : 0;
      const loose = limit?.looseMm ?? byCanal;
      const tilt = limit?.forcedTiltDeg;
      const conflict = [tilt?.coronal ?? 0, tilt?.sagittal ?? 0].reduce(
        (sum, deg) => sum + out(Math.abs(deg), weigh(t, 'stem-conflict')),
        0,
      );
      found.push({
        cost:
          weigh(t, 'zones').w * Math.max(0, 2 - solid - perhaps) +
          (stem ? weigh(t, 'stem').w : 0) +
          (metaphysis === 'none' ? 0 : weigh(t, metaphysis).w) +
          weigh(t, 'stem-fit').w * loose +
          (stem ? conflict : 0),
        stem: stem !== null,
        metaphysis,
        flexionDeg: on.bone === 'femur' && !on.segment ? (tilt?.sagittal ?? 0) * (stem ? 1 : 0) : 0,
      });
    }
  return found;
}
