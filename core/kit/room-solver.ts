import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { SolverSettings } from '../gaps/construct.ts';
import { type LeastConstruct, openSolver, type Solver } from '../gaps/many/open-solver.ts';
import { restrictCatalogue } from '../gaps/many/restrict.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { SAME_COST } from './cover/local-search.ts';
import { partsNeeded } from './parts-needed.ts';
import type { Pieces } from './set-contents.ts';
import { withSingleParts } from './single-parts.ts';
import { type RoomStems, roomStems, StemPrices } from './stem-prices.ts';
import { Swaps } from './swaps.ts';

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
  /**
   * Pieces of acceptable constructs; the first lie in the room, the others may lie elsewhere. None = the room does
   * not cover the knee.
   */
  readonly build: (state: BoneState) => readonly Pieces[];
}

interface Opened {
  readonly room: Catalogue;
  readonly pieces: Pieces;
  readonly solver: Solver;
  readonly stems: RoomStems;
}

/** Opens rooms; what is known of one knee's stems serves in every room. */
export class Rooms {
  private readonly covering: Covering;
  private readonly stems: StemPrices;
  private readonly swaps: Swaps;

  /** @param whereIs the sets that hold a part, as a text; empty = none does. */
  constructor(covering: Covering, whereIs: (ref: string) => string) {
    this.covering = covering;
    this.stems = new StemPrices(covering.catalogue, covering.weights);
    this.swaps = new Swaps(covering, this.stems, whereIs);
  }

  /**
   * Opens the solver on what lies in a room. A knee is covered when some construct from the pieces costs no more than
   * is acceptable (KIT-1); nothing that lies there has to be used (KIT-2), and a piece is used once (KIT-3).
   */
  open(pieces: Pieces): RoomSolver {
    const room = restrictCatalogue(this.covering.catalogue, new Set(pieces.keys()));
    if (room.femurs.length + (room.segments?.length ?? 0) === 0) return { build: () => [] };
    const opened: Opened = { room, pieces, solver: this.solver(room), stems: roomStems(room) };
    return { build: (state) => this.build(opened, state) };
  }

  private solver(catalogue: Catalogue): Solver {
    const { weights, settings } = this.covering;
    return openSolver({ catalogue, weights, settings });
  }

  private build(opened: Opened, state: BoneState): readonly Pieces[] {
    const { acceptableCost } = this.covering;
    // Any construct will do; the least is sought only where that one's pieces are not all there.
    const any = opened.solver.anyWithin(state, acceptableCost);
    const built = any && this.builtFrom(any, opened, state);
    if (built) return built;
    const saving = this.stems.savingIn(opened.stems, state);
    if (!any && saving.most <= 0) return [];
    // Dearer than this, and no other stem would bring it down to what is acceptable.
    const ceiling = acceptableCost + (saving.most > 0 ? saving.most + SAME_COST : 0);
    const found = opened.solver.leastWithin(state, ceiling);
    // Another stem may be within a limit that the preferred one breaks.
    if (!found && Number.isFinite(saving.most)) return [];
    const least = found && this.builtFrom(found, opened, state);
    if (least) return least;
    const once = found && found.cost <= acceptableCost ? this.usedOnce(opened, state) : null;
    if (once) return [once];
    for (const stems of saving.instead) {
      const other = this.withStems({ ...opened, room: { ...opened.room, stems } }, state);
      if (other) return [other];
    }
    return [];
  }

  /** The pieces of a construct and of those that differ by its stems and cones, one that lies in the room first; null = none does. */
  private builtFrom(found: LeastConstruct, { pieces }: Opened, state: BoneState): readonly Pieces[] | null {
    const built = this.swaps.within(this.covering.acceptableCost, found, state);
    const inRoom = built.find((needed) => isThere(needed, pieces));
    return inRoom ? [inRoom, ...built.filter((needed) => needed !== inRoom)] : null;
  }

  /** With these stems alone: they cost less by their fit than the preferred ones. */
  private withStems(opened: Pick<Opened, 'room' | 'pieces'>, state: BoneState): Pieces | null {
    const found = this.solver(opened.room).leastWithin(state, this.covering.acceptableCost);
    if (!found) return null;
    const needed = partsNeeded(found.construct);
    return isThere(needed, opened.pieces) ? needed : this.usedOnce(opened, state);
  }

  private usedOnce({ room, pieces }: Pick<Opened, 'room' | 'pieces'>, state: BoneState): Pieces | null {
    return withSingleParts({ covering: this.covering, pieces, room }, state);
  }
}

const isThere = (needed: Pieces, pieces: Pieces): boolean =>
  [...needed].every(([ref, count]) => count <= (pieces.get(ref) ?? 0));
