import { charge, type Prices } from '../price.ts';
import {
  type Choice,
  cheapestFirst,
  type Flange,
  type Pair,
  type PosteriorChoice,
  type TibialChoice,
} from './choices.ts';
import { leastAt } from './curve.ts';
import type { Load, Stance } from './holds.ts';
import type { Kind } from './kind.ts';
import type { PreparedFemur, PreparedTray, Seat } from './prepare.ts';
import type { Tables } from './tables.ts';
import type { Ties } from './ties.ts';
import type { TrayHold, TrayHolds } from './tray-holds.ts';
import { NEVER } from './whole-parts.ts';

/** One femur in one stance at one level: what is left are slope, augments, coupler and the tibia. */
export interface Stand {
  readonly femur: PreparedFemur;
  readonly stance: Stance;
  /** Level, differences that no part changes, width of the femur. */
  readonly parts: number;
  /** Pairs of distal augments, cheapest first; couplers with the gap at the flange. */
  readonly distals: readonly Choice[];
  readonly flanges: readonly Flange[];
  /** The cheapest of the distal choices, and of the posterior ones. */
  readonly leastDistal: number;
  readonly leastPosterior: number;
  /** Lower bound without the tibia and without what ties it. */
  readonly least: number;
}

/** The same at one slope, its lower bound with the least that the ties cost. */
export interface Branch extends Stand {
  readonly ties: Ties;
}

/** Tray, insert and blocks, and how they are held. */
export interface TibialCandidate {
  readonly tray: PreparedTray;
  readonly seat: Seat;
  readonly choice: TibialChoice;
  readonly hold: TrayHold;
  /** Everything that is charged on them but the place of K. */
  readonly parts: number;
  /** With the place of K at its best. */
  readonly least: number;
}

/** Sets out one femur; null where a limit excludes it or where it costs more than `room`. */
export function standOf(
  tables: Tables,
  at: Pick<Stand, 'femur' | 'stance' | 'parts'>,
  { room, kind }: { readonly room: number; readonly kind: Kind },
): Stand | null {
  const { distal } = kind;
  const all = tables.distal(at.femur);
  const distals = distal ? all.filter(({ pair }) => distal(pair)) : all;
  const leastDistal = distals[0]?.least ?? NEVER;
  const most = room - at.parts - at.stance.least - leastDistal;
  if (!((tables.condyles(at.femur)[0]?.least ?? NEVER) <= most)) return null;
  const stand = { ...at, distals, flanges: tables.flanges(at.femur, at.stance.reachMm), leastDistal };
  const [first] = posteriorCandidates(tables, stand, { room: most, kind, first: true });
  if (!first) return null;
  const least = at.parts + at.stance.least + leastDistal + first.least;
  return { ...stand, leastPosterior: first.least, least };
}

/**
 * Pairs of posterior augments with each coupler that cost no more than `room`, cheapest first; only the cheapest of
 * them where `first` is asked for.
 */
export function posteriorCandidates(
  tables: Tables,
  { femur, flanges }: Pick<Stand, 'femur' | 'flanges'>,
  asked: { readonly room: number; readonly kind: Kind; readonly first: boolean },
): PosteriorChoice[] {
  const { kind, first } = asked;
  let { room } = asked;
  let found: PosteriorChoice[] = [];
  const pairs = tables.condyles(femur);
  for (const flange of flanges) {
    for (const pair of pairs) {
      if (flange.least + pair.least > room) break;
      if (kind.posterior?.(pair, flange.coupler) === false) continue;
      const choice = tables.posterior(pair, flange);
      if (!choice || choice.least > room) continue;
      if (first) {
        room = choice.least;
        found = [];
      }
      found.push(choice);
    }
  }
  return first ? found.slice(-1) : cheapestFirst(found);
}

export const femoralLoad = (distal: Choice, posterior: PosteriorChoice): Load =>
  posterior.flange.coupler ? 'coupled' : distal.pair.augments + posterior.pair.augments > 0 ? 'augmented' : 'plain';

/** What holds a tray with this pair of blocks under it. */
export const holdUnder = (holds: TrayHolds, { augments }: Pair): TrayHold | null =>
  augments > 0 ? holds.augmented : holds.plain;

/** What an insert costs for its thickness. */
export const insertCost = ({ insert: { labelMm } }: Seat, prices: Prices): number =>
  charge(labelMm, prices['insert-thick']) + charge(labelMm, prices['insert-very-thick']);

/** Whether something costs more than its room under one of the prices. */
function tooDear<P extends PulledRoom>(pulls: readonly P[], cost: (pull: P) => number): boolean {
  for (const pull of pulls) if (cost(pull) > pull.room) return true;
  return false;
}

/** A price of K, and what the tibia may cost at most when K earns it. */
export interface PulledRoom {
  readonly price: number;
  readonly room: number;
}

/**
 * Trays, inserts and blocks that join a femur and cost no more than `room`, cheapest first; only the cheapest of
 * them where `first` is asked for.
 */
export function tibialCandidates(
  tables: Tables,
  { femur, ties: { level } }: Branch,
  asked: {
    readonly room: number;
    readonly kind: Kind;
    readonly first: boolean;
    readonly pulled: readonly PulledRoom[];
  },
): TibialCandidate[] {
  const { prices, bounds } = tables.question;
  const { kind, first, pulled } = asked;
  let { room } = asked;
  let found: TibialCandidate[] = [];
  for (const { tray, seats } of femur.bearings[level]) {
    const holds = tables.under(tray, level, kind.underTray);
    const leastHeld = Math.min(holds.plain?.cost ?? NEVER, holds.augmented?.cost ?? NEVER);
    if (!(leastHeld <= room)) continue;
    const pairs = tables.blocks(tray);
    const leastPair = pairs[0]?.least ?? NEVER;
    const pulls = pulled.map(({ price, room: most }) => {
      const bounds = pairs.map(({ curve }) => leastAt(curve, price));
      return { price, room: most, pairs: bounds, least: Math.min(...bounds) };
    });
    for (const seat of seats) {
      const { insert } = seat;
      if (insert.leastPolyethyleneMm < bounds.leastPolyethyleneMm || kind.insert?.(insert) === false) continue;
      const thick = insertCost(seat, prices);
      if (thick + leastHeld + leastPair > room) continue;
      // The joint line of the tibia left out, which can only add.
      if (tooDear(pulls, (p) => thick + leastHeld + p.least - p.price * seat.shiftMm)) continue;
      for (let n = 0; n < pairs.length; n++) {
        const pair = pairs[n] as Pair;
        if (thick + leastHeld + pair.least > room) break;
        const hold = holdUnder(holds, pair);
        if (!hold) continue;
        const parts = thick + hold.cost;
        if (parts + pair.least > room || kind.blocks?.(pair) === false) continue;
        if (tooDear(pulls, (p) => parts + (p.pairs[n] as number) - p.price * seat.shiftMm)) continue;
        const choice = tables.tibial(pair, tray, seat);
        const least = parts + choice.least;
        if (least === NEVER || least > room) continue;
        if (first) {
          room = least;
          found = [];
        }
        found.push({ tray, seat, choice, hold, parts, least });
      }
    }
  }
  return first ? found.slice(-1) : cheapestFirst(found);
}
