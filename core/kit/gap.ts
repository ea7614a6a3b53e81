import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState, CavityFit, StemLimit } from '../gaps/bone-state.ts';
import { openSolver, type Solver } from '../gaps/many/open-solver.ts';
import { restrictCatalogue } from '../gaps/many/restrict.ts';
import { solve } from '../gaps/solve.ts';
import { type Addition, additionsTo } from './additions.ts';
import type { KitGap } from './kit-problem.ts';
import { partName } from './part-name.ts';
import { partsNeeded } from './parts-needed.ts';
import type { Covering } from './room-solver.ts';
import type { Pieces } from './set-contents.ts';

/** Knees that are looked into one by one; why none fits is slow to tell. */
const MOST_LOOKED_INTO = 12;

/** Tells why no set of the list covers a knee, and what would (KIT-9). Solvers are opened when first needed. */
export class GapFinder {
  private readonly covering: Covering;
  private readonly there: Pieces;
  private readonly open = new Map<string, Solver>();
  private additions: readonly Addition[] | null = null;
  private lookedInto = 0;

  constructor(covering: Covering, there: Pieces) {
    this.covering = covering;
    this.there = there;
  }

  of(state: BoneState): KitGap {
    const { catalogue } = this.covering;
    const found = this.solver('', catalogue).leastWithin(state, this.covering.acceptableCost);
    if (found) return this.notInAnySet(state, partsNeeded(found.construct));
    this.additions ??= additionsTo(catalogue);
    for (const addition of this.additions) {
      const asked = asIfTried(state, addition);
      const beyond = this.solver(addition.id, addition.catalogue).leastWithin(asked, this.covering.acceptableCost);
      if (!beyond) continue;
      const used = [...partsNeeded(beyond.construct).keys()].flatMap((ref) => addition.names.get(ref) ?? []);
      return { words: addition.lacks, addition: used.map((name) => `a ${name}`).join(' and ') };
    }
    return this.noneFits(state);
  }

  private solver(key: string, catalogue: Catalogue): Solver {
    const known = this.open.get(key);
    if (known) return known;
    const { weights, settings } = this.covering;
    const made = openSolver({ catalogue, weights, settings });
    this.open.set(key, made);
    return made;
  }

  /** The catalogue has the parts, the sets do not: the fewest of them that would do. */
  private notInAnySet(state: BoneState, needed: Pieces): KitGap {
    const { catalogue } = this.covering;
    let lacking = [...needed].filter(([ref, count]) => count > (this.there.get(ref) ?? 0)).map(([ref]) => ref);
    for (const ref of lacking.toSorted()) {
      const fewer = lacking.filter((other) => other !== ref);
      if (this.coveredWith(state, fewer)) lacking = fewer;
    }
    const names = lacking.map((ref) => partName(catalogue, ref)).join(' and ');
    return { words: `no set of the list holds ${names}`, addition: `${names} in a set` };
  }

  private coveredWith(state: BoneState, refs: readonly string[]): boolean {
    const key = `with ${refs.join(' ')}`;
    const room = restrictCatalogue(this.covering.catalogue, new Set([...this.there.keys(), ...refs]));
    const found = this.solver(key, room).leastWithin(state, this.covering.acceptableCost);
    if (!found) return false;
    return [...partsNeeded(found.construct)].every(
      ([ref, count]) => count <= (this.there.get(ref) ?? 0) || refs.includes(ref),
    );
  }

  private noneFits(state: BoneState): KitGap {
    const { catalogue, weights, settings, acceptableCost } = this.covering;
    this.lookedInto++;
    if (this.lookedInto > MOST_LOOKED_INTO)
      return { words: 'no acceptable construct of the whole catalogue', addition: null };
    const result = solve({ state, catalogue, weights, settings });
    if (result.kind === 'infeasible') {
      const message = result.why.clashes[0]?.message ?? '';
      const limit = message.split(/[;.]/)[0] ?? '';
      const words = limit === '' ? 'no construct of the whole catalogue keeps the limits' : startingSmall(limit);
      return { words, addition: null };
    }
    const { ledger } = result.answer.best;
    const worst = ledger.reduce((most, line) => (line.cost > most.cost ? line : most));
    return {
      words: `even the best construct of the whole catalogue costs more than ${acceptableCost}, most of it for: ${worst.label.toLowerCase()}`,
      addition: null,
    };
  }
}

const startingSmall = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/**
 * The knee as if the new stems and cones had been tried in its canal and its cavity, and passed: what was measured
 * speaks of parts that exist.
 */
function asIfTried(state: BoneState, { names }: Addition): BoneState {
  const stems = [...names.keys()].filter((ref) => ref.startsWith('new-stem'));
  const cones = [...names.keys()].filter((ref) => ref.startsWith('new-cone'));
  const passing = (limits: readonly StemLimit[]) => [
    ...limits,
    ...stems.map((ref) => ({
      ref,
      // The same canal carries the tray to the same place.
      offset: limits.find((limit) => limit.passes && limit.offset)?.offset ?? null,
      passes: true,
      longestPassingMm: null,
      forcedTiltDeg: { coronal: null, sagittal: null },
    })),
  ];
  const fitting = (fits: readonly CavityFit[]) => [...fits, ...cones.map((ref) => ({ ref, fits: true, reasons: [] }))];
  return {
    ...state,
    ...(state.femoralStemLimits ? { femoralStemLimits: passing(state.femoralStemLimits) } : {}),
    ...(state.tibialStemLimits ? { tibialStemLimits: passing(state.tibialStemLimits) } : {}),
    ...(state.femurCavity ? { femurCavity: fitting(state.femurCavity) } : {}),
    ...(state.tibiaCavity ? { tibiaCavity: fitting(state.tibiaCavity) } : {}),
  };
}
