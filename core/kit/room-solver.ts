import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { SolverSettings } from '../gaps/construct.ts';
import { openSolver, type Solver } from '../gaps/many/open-solver.ts';
import { restrictCatalogue } from '../gaps/many/restrict.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { bestStems } from './best-stems.ts';
import { partsNeeded } from './parts-needed.ts';
import type { Pieces } from './set-contents.ts';
import { withSingleParts } from './single-parts.ts';

/** What decides whether a knee is covered. */
export interface Covering {
  readonly catalogue: Catalogue;
  readonly weights: WeightTable;
  readonly settings: SolverSettings;
  /** Cost of a construct up to which a knee counts as covered (KIT-1). */
  readonly acceptableCost: number;
}

/** Answers for one content of the room. */
export interface RoomSolver {
  /** Pieces of an acceptable construct that the room holds; null = the room does not cover the knee. */
  readonly build: (state: BoneState) => Pieces | null;
}

/**
 * Opens the solver on what lies in a room. A knee is covered when some construct from the pieces costs no more than
 * is acceptable (KIT-1); nothing that lies there has to be used (KIT-2), and a piece is used once (KIT-3).
 */
export function openRoom(covering: Covering, pieces: Pieces): RoomSolver {
  const { catalogue, weights, settings, acceptableCost } = covering;
  const room = restrictCatalogue(catalogue, new Set(pieces.keys()));
  if (room.femurs.length + (room.segments?.length ?? 0) === 0) return { build: () => null };
  const open = (of: Catalogue): Solver => openSolver({ catalogue: of, weights, settings });
  const solver = open(room);
  const short = (needed: Pieces): boolean => [...needed].some(([ref, count]) => count > (pieces.get(ref) ?? 0));
  const from = (given: Solver, state: BoneState): Pieces | null => {
    const found = given.leastWithin(state, acceptableCost);
    if (!found) return null;
    const needed = partsNeeded(found.construct);
    return short(needed) ? withSingleParts({ covering, pieces, room }, state) : needed;
  };
  return {
    build: (state) => {
      const usual = from(solver, state);
      if (usual) return usual;
      for (const stems of bestStems(room, state, weights)) {
        const other = from(open({ ...room, stems }), state);
        if (other) return other;
      }
      return null;
    },
  };
}
