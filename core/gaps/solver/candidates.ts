import { charge, type Prices } from '../price.ts';
import type { ArcTerm } from './arc-term.ts';
import { type Behind, type Choice, cheapestFirst, type Flange, type Pair, type PosteriorChoice } from './choices.ts';
import type { Load, Stance } from './holds.ts';
import type { Kind } from './kind.ts';
import { leastPosterior } from './least-posterior.ts';
import type { PreparedFemur, PreparedTray, Seat } from './prepared.ts';
import type { BranchPull, PairBounds } from './pull.ts';
import type { Tables } from './tables.ts';
import type { Ties } from './ties.ts';
import type { TrayHold, TrayHolds } from './tray-holds.ts';
import { leastOfTwo } from './two-curves.ts';
import { NEVER } from './whole-parts.ts';

/** One femur in one stance at one level: what is left are slope, augments, coupler and the tibia. */
export interface Stand {
  readonly femur: PreparedFemur;
  readonly stance: Stance;
  /** Level, differences that no part changes, width of the femur. */
  readonly parts: number;
  /** Pairs of distal augments, cheapest first. */
  readonly distals: readonly Choice[];
  /** Pairs of posterior augments; couplers with the gap at the flange. */
  readonly behind: Behind;
  /** The cheapest of the posterior choices. */
  readonly leastPosterior: number;
  /** Lower bound without the tibia and without what ties it. */
  readonly least: number;
}

/** The same at one slope, its lower bound with the least that the ties cost. */
export interface Branch extends Stand {
  readonly ties: Ties;
  readonly arc: ArcTerm | null;
}

/** Tray, insert and blocks, and how they are held. */
export interface TibialCandidate {
  readonly tray: PreparedTray;
  readonly seat: Seat;
  readonly pair: Pair;
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
  const { distal, posterior } = kind;
  const all = tables.femur.distal(at.femur);
  const distals = distal ? all.filter(({ pair }) => distal(pair)) : all;
  const bare = at.parts + at.stance.least + (distals[0]?.least ?? NEVER);
  const condyles = tables.femur.condyles(at.femur);
  if (!(bare + (condyles[0]?.least ?? NEVER) <= room)) return null;
  const behind = tables.femur.behind(at.femur, at.stance);
  const leastBehind = posterior ? leastPosterior(behind, 0, posterior) : tables.femur.leastBehind(behind);
  const least = bare + leastBehind;
  if (!(least < NEVER && least <= room)) return null;
  return { ...at, distals, behind, leastPosterior: leastBehind, least };
}

/** What a search asks of the choices for one branch. */
export interface Asked {
  /** What they may cost at most. */
  readonly room: number;
  readonly kind: Kind;
  /** Whether only the cheapest is wanted. */
  readonly first?: boolean;
  /** The branch under each tension in use, and what all of it may cost. */
  readonly pulls: readonly BranchPull[];
  readonly most: number;
}

/** Whether posterior augments with a coupler are too dear under one of the tensions. */
function isTooDearBehind({ pulls, most }: Asked, flange: Flange, pair: Pair): boolean {
  for (const { pull, least, posterior } of pulls)
    if (least - posterior + leastOfTwo(flange.curve, pair.curve, 0, pull.earns.q) > most) return true;
  return false;
}

/** Pairs of posterior augments with each coupler that are not too dear, cheapest first. */
export function posteriorCandidates(tables: Tables, { behind }: Stand, asked: Asked): PosteriorChoice[] {
  const { kind, first } = asked;
  let { room } = asked;
  const found: PosteriorChoice[] = [];
  for (const flange of behind.flanges) {
    for (const pair of behind.condyles) {
      if (flange.least + pair.least > room) break;
      if (kind.posterior?.(pair, flange.coupler) === false) continue;
      const choice = tables.femur.posterior(pair, flange);
      if (!choice || choice.least > room) continue;
      if (isTooDearBehind(asked, flange, pair)) continue;
      found.push(choice);
      if (first) room = choice.least;
    }
  }
  return cheapestFirst(found);
}

export const femoralLoad = (distal: Choice, posterior: PosteriorChoice): Load =>
  posterior.flange.coupler ? 'coupled' : distal.pair.augments + posterior.pair.augments > 0 ? 'augmented' : 'plain';

/** What holds a tray with this pair of blocks under it. */
export const holdUnder = (holds: TrayHolds, { augments }: Pair): TrayHold | null =>
  augments > 0 ? holds.augmented : holds.plain;

/** What an insert costs for its thickness. */
export const insertCost = ({ insert: { labelMm } }: Seat, prices: Prices): number =>
  charge(labelMm, prices['insert-thick']) + charge(labelMm, prices['insert-very-thick']);

/** Blocks under one tray at one tension. */
interface UnderTray {
  readonly blocks: PairBounds;
  /** What one mm of K earns. */
  readonly price: number;
  /** What tray, insert and blocks may cost together. */
  readonly room: number;
}

/**
 * Whether a tray is too dear under one of the tensions, with the blocks at a place or the cheapest. The joint line of the tibia
 * is left out, which can only add.
 */
function isTooDear(under: readonly UnderTray[], parts: number, shiftMm: number, place: number | null): boolean {
  for (let i = 0; i < under.length; i++) {
    const { blocks, price, room } = under[i] as UnderTray;
    const pair = place === null ? blocks.least : (blocks.each[place] as number);
    if (parts + pair - price * shiftMm > room) return true;
  }
  return false;
}

/** Trays, inserts and blocks that join a femur and are not too dear, cheapest first. */
export function tibialCandidates(tables: Tables, { femur, ties: { level } }: Branch, asked: Asked): TibialCandidate[] {
  const { kind, pulls, most, first } = asked;
  let { room } = asked;
  const found: TibialCandidate[] = [];
  for (const bearing of tables.tibia.bearings(femur, level)) {
    const { tray, seats } = bearing;
    if (tables.tibia.width(tray) > room) continue;
    const holds = tables.under(tray, level, kind.underTray);
    const leastHeld = Math.min(holds.plain?.cost ?? NEVER, holds.augmented?.cost ?? NEVER);
    if (!(leastHeld <= room)) continue;
    const pairs = tables.tibia.blocks(tray);
    const leastPair = pairs[0]?.least ?? NEVER;
    if (leastHeld + leastPair > room) continue;
    const under: UnderTray[] = [];
    for (const { pull, least, tibial } of pulls)
      under.push({ blocks: pull.blocks(tray), price: pull.earns.k, room: most - least + tibial });
    const costs = tables.tibia.insertCosts(bearing);
    for (let s = 0; s < seats.length; s++) {
      const seat = seats[s] as Seat;
      const { shiftMm } = seat;
      const thick = costs[s] as number;
      if (thick + leastHeld + leastPair > room || isTooDear(under, thick + leastHeld, shiftMm, null)) continue;
      if (kind.insert?.(seat.insert) === false) continue;
      for (const pair of pairs) {
        if (thick + leastHeld + pair.least > room) break;
        const hold = holdUnder(holds, pair);
        if (!hold) continue;
        const parts = thick + hold.cost;
        if (parts + pair.least > room || kind.blocks?.(pair) === false) continue;
        if (isTooDear(under, parts, shiftMm, pair.place)) continue;
        const least = parts + tables.tibia.leastOf(pair, tray, seat);
        if (!(least < NEVER && least <= room)) continue;
        found.push({ tray, seat, pair, hold, parts, least });
        if (first) room = least;
      }
    }
  }
  return cheapestFirst(found);
}
