import type { Catalogue } from '../catalogue/catalogue.ts';
import type { DrawnKnee } from '../forecast/drawn-knee.ts';
import type { SolverSettings } from '../gaps/construct.ts';
import { DEFAULT_SETTINGS } from '../gaps/solve.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { leastOptions } from './cover/reduce.ts';
import { GapFinder } from './gap.ts';
import { allSets, Holding } from './holding-sets.ts';
import { notesOn } from './kit-notes.ts';
import type { KitGap, KitProblem } from './kit-problem.ts';
import { KneeGroups } from './knee-groups.ts';
import { type KneeOption, kneeOptions } from './knee-options.ts';
import { offersOf } from './offers.ts';
import type { Holidays } from './order-by.ts';
import { type Covering, type RoomSolver, Rooms } from './room-solver.ts';
import { needsOf, SERVICE_IN_WORDS, setsForServices } from './services-needed.ts';
import { contentsOf } from './set-contents.ts';
import type { SetList, SetService, StockItem } from './set-list.ts';
import { MOST_SETS, type SetMask, union } from './set-mask.ts';

/** Cost of a construct up to which a knee counts as covered, where nothing else is asked (KIT-1). */
export const ACCEPTABLE_COST = 25;

export interface KitAsked {
  readonly knees: readonly DrawnKnee[];
  readonly catalogue: Catalogue;
  readonly weights: WeightTable;
  readonly settings?: SolverSettings;
  readonly setList: SetList;
  /** Absent or null = not told: the sets are taken to hold what the list says. */
  readonly stock?: readonly StockItem[] | null;
  /** Day of surgery and the present day, YYYY-MM-DD; without both nothing is late, without the first nothing expires. */
  readonly surgeryOn?: string | null;
  readonly today?: string | null;
  readonly holidays?: Holidays;
  readonly acceptableCost?: number;
  /** Services that every opening needs; default: instruments for removal (KIT-4). */
  readonly always?: readonly SetService[];
}

export interface KitOptionsProgress {
  /** Knees done, of all. */
  readonly done: number;
  readonly of: number;
}

const KNEES_BETWEEN_REPORTS = 2;
/** Solvers kept open at a time. */
const MOST_ROOMS = 600;

/**
 * For every drawn knee the least combinations of sets that cover it, equal ones merged (KIT-1 to KIT-4). The oracle is the
 * exact construct solver, opened on what lies in a room. Yields progress after every few knees; the caller may stop
 * there.
 *
 * @returns the problem that `chooseKit` chooses from. Costs in the list's currency; weights are numbers of knees.
 */
export function* kitOptions(asked: KitAsked): Generator<KitOptionsProgress, KitProblem> {
  const { knees, setList, catalogue } = asked;
  if (setList.sets.length > MOST_SETS) throw new Error(`A list holds at most ${MOST_SETS} sets.`);
  const contents = contentsOf({ setList, stock: asked.stock ?? null, usedOn: asked.surgeryOn ?? null });
  const given = (asked.always ?? ['extraction']).filter((s) => setsForServices([s], setList.sets).length > 0);
  const covering: Covering = {
    catalogue,
    weights: asked.weights,
    settings: { ...(asked.settings ?? DEFAULT_SETTINGS), alternatives: 0 },
    acceptableCost: asked.acceptableCost ?? ACCEPTABLE_COST,
  };
  const holding = new Holding(contents);
  const all = allSets(setList.sets.length);
  const roomOf = roomsOf(covering, holding);
  const gaps = new GapFinder(covering, holding.piecesIn(all));
  const groups = new KneeGroups();
  for (const [i, knee] of knees.entries()) {
    const needs = needsOf(knee, given);
    const services = setsForServices(needs.services, setList.sets);
    const missing = needs.services.find((s) => setsForServices([s], setList.sets).length === 0);
    const built: readonly KneeOption[] = !needs.construct
      ? [{ sets: [0, 0], pieces: new Map() }]
      : missing
        ? []
        : kneeOptions(knee.state, { holding, all, roomOf });
    const gap = missing ? noService(missing) : built.length === 0 ? gaps.of(knee.state) : null;
    groups.add(i, { services: needs.services, options: joined(built, services), gap });
    if ((i + 1) % KNEES_BETWEEN_REPORTS === 0) yield { done: i + 1, of: knees.length };
  }
  return {
    sets: offersOf(asked),
    groups: groups.list(),
    knees,
    catalogue,
    currency: setList.currency,
    acceptableCost: covering.acceptableCost,
    notes: [...contents.notes, ...notesOn(asked, given)],
  };
}

/** Options of the bone with those of the services: every union, the least of them. */
function joined(built: readonly KneeOption[], services: readonly SetMask[]): readonly KneeOption[] {
  const both = built.flatMap(({ sets, pieces }) => services.map((s) => ({ sets: union(sets, s), pieces })));
  return leastOptions(both.map((o) => o.sets)).map((sets) => both.find((o) => o.sets === sets) as KneeOption);
}

const noService = (service: SetService): KitGap => ({
  words: `no set of the list gives ${SERVICE_IN_WORDS[service]}`,
  addition: `a set that gives ${SERVICE_IN_WORDS[service]}`,
  service,
});

/** Rooms by what lies in them; the oldest ones are closed when there are many. */
function roomsOf(covering: Covering, holding: Holding): (sets: SetMask) => RoomSolver {
  const open = new Map<string, RoomSolver>();
  const rooms = new Rooms(covering, holding.whereIs);
  return (sets) => {
    const key = `${sets[0]},${sets[1]}`;
    const known = open.get(key);
    if (known) return known;
    if (open.size >= MOST_ROOMS) open.delete(open.keys().next().value as string);
    const made = rooms.open(holding.piecesIn(sets));
    open.set(key, made);
    return made;
  };
}
