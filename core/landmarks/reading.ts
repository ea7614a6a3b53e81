import type { Perturbation } from '../measure/propagate.ts';
import type { Point } from '../plane/point.ts';
import type { LimbFrame } from './film-to-limb.ts';
import type { LandmarkId } from './landmark-table.ts';
import type { LimbFilm } from './limb-film.ts';

/** Where formulas read from: the landmarks as they stand or, while a spread is propagated, a little moved. */
export interface Reading<F extends LimbFrame> {
  /** The landmark's point. Ask only for landmarks that stand among the stated inputs. */
  readonly at: (id: LandmarkId) => Point<F>;
  readonly mmPerUnit: number | null;
  /** Thickness of the radiolucent insert, mm; null when unknown. */
  readonly insertMm: number | null;
}

/** A reading that can be shaken: one perturbation for every independent input. */
export interface ShakableReading<F extends LimbFrame> {
  readonly reading: Reading<F>;
  /** All of them: marks, scale and insert. */
  readonly perturbations: readonly Perturbation[];
  /** Without the scale: marks and insert alone. */
  readonly unscaled: readonly Perturbation[];
  /** True when every input has a known spread. */
  readonly complete: boolean;
}

/** Spread of a labelled insert thickness as it is found: wear and the choice of where it is measured (from memory). */
const INSERT_SD_MM = 0.5;

/** Reading of some landmarks of a film, with everything that may err: each mark, the scale, the insert. */
export function shakable<F extends LimbFrame>(
  film: LimbFilm<F>,
  inputs: readonly LandmarkId[],
  insertMm: number | null = null,
): ShakableReading<F> {
  const moved = new Map<LandmarkId, { frame: F; x: number; y: number }>();
  const unscaled: Perturbation[] = [];
  let complete = film.scale !== null;
  for (const id of inputs) {
    const p = film.placed.get(id);
    if (!p) throw new Error(`${id} is not marked on film ${film.film.id}`);
    const now = { ...p.at };
    moved.set(id, now);
    complete &&= p.spread !== null;
    for (const [i, v] of (p.spread ?? []).entries())
      unscaled.push({
        cause: `${film.film.id}: ${id}, ${i + 1}`,
        move: (times) => {
          now.x = p.at.x + v.x * times;
          now.y = p.at.y + v.y * times;
        },
      });
  }
  const reading = {
    at: (id: LandmarkId): Point<F> => {
      const p = moved.get(id);
      if (!p) throw new Error(`${id} is not among the stated inputs`);
      return p;
    },
    mmPerUnit: film.mmPerUnit,
    insertMm,
  };
  if (insertMm !== null)
    unscaled.push({
      cause: 'insert',
      move: (times) => {
        reading.insertMm = insertMm + times * INSERT_SD_MM;
      },
    });
  const { scale, mmPerUnit } = film;
  const perturbations = [...unscaled];
  if (scale && mmPerUnit !== null)
    perturbations.push({
      cause: `${film.film.id}: scale`,
      move: (times) => {
        reading.mmPerUnit = mmPerUnit * (1 + times * scale.relativeSd);
      },
    });
  return { reading, perturbations, unscaled, complete };
}
