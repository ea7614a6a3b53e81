import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { type Reading, shakable } from '../landmarks/reading.ts';
import type { Outcome, Warning } from '../measure/outcome.ts';
import { propagatedSd } from '../measure/propagate.ts';

/** A joint line on one film: how far any landmark of that bone stands from it, along the bone's axis. */
export interface Level<F extends LimbFrame> {
  readonly film: LimbFilm<F>;
  readonly insertMm: number | null;
  /** Landmarks that line and axis hang on. */
  readonly inputs: readonly LandmarkId[];
  /** Distance from landmark to joint line, mm, + = landmark on its bone's side (proximal for the femur, distal for the tibia). */
  readonly distance: (r: Reading<F>, landmark: LandmarkId) => Outcome<number>;
  /** How the axis was found, in words. */
  readonly axis: string;
  /** Spread of the axis' direction beyond its marks, deg, and the distance across the limb on which it acts. */
  readonly turnSdDeg: number;
  readonly warnings: readonly Warning[];
}

export interface Measured {
  readonly value: number;
  /** From marks and insert alone, without the scale. */
  readonly sd: number;
}

/** Mean distance of some landmarks to the joint line of one film, mm, and what marking contributes to its spread. */
export function meanDistance<F extends LimbFrame>(
  level: Level<F>,
  landmarks: readonly LandmarkId[],
): Outcome<Measured> {
  const mean = (r: Reading<F>): Outcome<number> => {
    let sum = 0;
    for (const id of landmarks) {
      const d = level.distance(r, id);
      if (!d.ok) return d;
      sum += d.value;
    }
    return { ok: true, value: sum / landmarks.length, warnings: [] };
  };
  const inputs = [...new Set([...level.inputs, ...landmarks])];
  return measuredOn(level.film, inputs, { insertMm: level.insertMm, of: mean });
}

/** Any formula on one film with its marking spread, mm. */
export function measuredOn<F extends LimbFrame>(
  film: LimbFilm<F>,
  inputs: readonly LandmarkId[],
  formula: { readonly insertMm: number | null; readonly of: (r: Reading<F>) => Outcome<number> },
): Outcome<Measured> {
  const { reading, unscaled } = shakable(film, inputs, formula.insertMm);
  const of = () => formula.of(reading);
  const value = of();
  if (!value.ok) return value;
  const sd = propagatedSd(of, unscaled);
  return { ok: true, value: { value: value.value, sd: sd ?? 0 }, warnings: [] };
}

export const usable = <F extends LimbFrame>(film: LimbFilm<F>, ids: readonly LandmarkId[]): boolean =>
  ids.every((id) => film.placed.has(id) && !film.faults.has(id));
