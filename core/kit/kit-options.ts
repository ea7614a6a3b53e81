import type { Catalogue } from '../catalogue/catalogue.ts';
import type { DrawnKnee } from '../forecast/drawn-knee.ts';
import type { SolverSettings } from '../gaps/construct.ts';
import { DEFAULT_SETTINGS } from '../gaps/solve.ts';
import type { WeightTable } from '../gaps/weights.ts';
import type { Reason } from '../measure/outcome.ts';
import { leastOptions } from './cover/reduce.ts';
import { GapFinder } from './gap.ts';
import { allSets, Holding } from './holding-sets.ts';
import type { KitGap, KitGroup, KitOffer, KitProblem } from './kit-problem.ts';
import { type KneeOption, kneeOptions } from './knee-options.ts';
import { type Holidays, orderBy } from './order-by.ts';
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

const KNEES_BETWEEN_REPORTS = 8;
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
  const groups = new Groups();
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

/** Knees with equal options and equal services, in the order in which the first of each came. */
class Groups {
  private readonly byKey = new Map<string, KitGroup & { weight: number; knees: number[] }>();

  add(knee: number, of: { services: readonly SetService[]; options: readonly KneeOption[]; gap: KitGap | null }): void {
    const key = [of.services.join(), of.options.map((o) => o.sets.join()).join(' '), of.gap?.words ?? ''].join('|');
    const known = this.byKey.get(key);
    if (known) {
      known.weight++;
      known.knees.push(knee);
      return;
    }
    this.byKey.set(key, {
      weight: 1,
      options: of.options.map((o) => o.sets),
      parts: of.options.map((o) => [...o.pieces.keys()]),
      services: of.services,
      knees: [knee],
      ...(of.gap ? { gap: of.gap } : {}),
    });
  }

  list(): readonly KitGroup[] {
    return [...this.byKey.values()];
  }
}

function offersOf({ setList, surgeryOn, today, holidays }: KitAsked): KitOffer[] {
  return setList.sets.map((set) => {
    const by = set.owner === 'loan' && surgeryOn ? orderBy(surgeryOn, set.leadDays, holidays) : null;
    const late = by !== null && today !== undefined && today !== null && by < today;
    return { set, cost: set.trays * setList.trayCost + set.fee, orderBy: by, late };
  });
}

function notesOn(
  { setList, catalogue, surgeryOn, holidays, always }: KitAsked,
  given: readonly SetService[],
): Reason[] {
  const refs = new Set(
    Object.values(catalogue).flatMap((v: unknown) =>
      Array.isArray(v) ? v.flatMap((p: { readonly ref?: string }) => p.ref ?? []) : [],
    ),
  );
  const strange = [...new Set(setList.sets.flatMap((s) => s.parts.map((p) => p.ref)))].filter((ref) => !refs.has(ref));
  const ungiven = (always ?? ['extraction']).filter((service) => !given.includes(service));
  return [
    ...(strange.length === 0
      ? []
      : [
          {
            code: 'KIT-9',
            message: `The sets hold parts that the catalogue ${catalogue.name} does not: ${strange.slice(0, 5).join(', ')}${strange.length > 5 ? ` and ${strange.length - 5} more` : ''}. They count for nothing.`,
            field: 'sets',
            mend: 'Correct the references, or choose the catalogue that the list belongs to.',
          },
        ]),
    ...ungiven.map((service) => ({
      code: 'KIT-4',
      message: `No set of the list gives ${SERVICE_IN_WORDS[service]}: it is taken to be in the room.`,
      field: 'sets',
      mend: 'Add the set, with its service.',
    })),
    ...(surgeryOn && !holidays
      ? [
          {
            code: 'KIT-8',
            message: 'Order-by dates count Monday to Friday; holidays are not known.',
            field: 'holidays',
          },
        ]
      : []),
    ...(surgeryOn
      ? []
      : [
          {
            code: 'KIT-8',
            message: 'The day of surgery is not set: no order-by dates, and no lot counts as expired.',
            field: 'kit.surgeryOn',
            mend: 'Enter the day of surgery.',
          },
        ]),
  ];
}
