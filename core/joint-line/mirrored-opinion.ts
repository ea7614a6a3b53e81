import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { JointLineOpinion } from './estimate-types.ts';
import { type Level, type Measured, meanDistance, usable } from './level.ts';

/** Another film that shows where the joint line belongs: the native other knee, or this knee before its first replacement. */
export interface Comparison<F extends LimbFrame> {
  readonly present: Level<F>;
  readonly other: Level<F>;
  /** Landmarks that may serve, the same on both films. */
  readonly landmarks: readonly LandmarkId[];
  /** +1 for the femur, whose landmarks lie proximal to the line; -1 for the tibia. */
  readonly proximal: 1 | -1;
  /** Factor from the other film's mm to the present one's, where both show one bone; else 1. */
  readonly sameBone: { readonly factor: Measured; readonly widthMm: Measured } | null;
  readonly opinion: Pick<JointLineOpinion, 'id' | 'label' | 'group' | 'personSdMm' | 'rule' | 'source'>;
}

/**
 * Opinion from the same landmarks on another film: mean distance there against mean distance here (JL-6, JL-7).
 * Null when no landmark is marked on both.
 */
export function mirroredOpinion<F extends LimbFrame>(c: Comparison<F>): JointLineOpinion | null {
  const shared = c.landmarks.filter((id) => usable(c.present.film, [id]) && usable(c.other.film, [id]));
  if (shared.length === 0) return null;
  const here = meanDistance(c.present, shared);
  const there = meanDistance(c.other, shared);
  if (!here.ok || !there.ok) return null;
  const [scaleHere, scaleThere] = [c.present.film.scale, c.other.film.scale];
  if (!scaleHere || !scaleThere) return null;
  const factor = c.sameBone?.factor ?? { value: 1, sd: 0 };
  const belongs = there.value.value * factor.value;
  // One film, one scale: its error multiplies the difference alone. Two films: each has its own.
  const oneScale = c.present.film.film.id === c.other.film.film.id && scaleHere === scaleThere;
  const ownScale = oneScale || c.sameBone ? 0 : scaleThere.relativeSd * there.value.value;
  return {
    ...c.opinion,
    heightMm: c.proximal * (here.value.value - belongs),
    markingSdMm: Math.hypot(here.value.sd, there.value.sd * factor.value, there.value.value * factor.sd, ownScale),
    distanceMm: here.value.value,
    ...(oneScale ? { scaledLengthMm: here.value.value - belongs } : {}),
    widthRatio: c.sameBone ? belongs / c.sameBone.widthMm.value : 0,
    widthSdMm: c.sameBone?.widthMm.sd ?? 0,
    film: c.present.film.film.id,
    scaleRelativeSd: scaleHere.relativeSd,
  };
}
