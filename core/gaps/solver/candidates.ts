import type { Insert } from '../../catalogue/catalogue.ts';
import { charge } from '../price.ts';
import { type Choice, cheapestFirst, type Flange, type PosteriorChoice, type TibialChoice } from './choices.ts';
import { highOf, lowOf } from './curve.ts';
import type { Load, Stance } from './holds.ts';
import type { Kind } from './kind.ts';
import type { PreparedFemur, PreparedTray } from './prepare.ts';
import { NEVER, type Tables } from './tables.ts';
import type { Ties } from './ties.ts';
import { leastOfTwo } from './two-curves.ts';

/** One femur in one stance at one level and slope: what is left are augments, coupler and the tibia. */
export interface Branch {
  readonly ties: Ties;
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
  /** Lower bound without the tibia. */
  readonly least: number;
}

/** Tray, insert and blocks. */
export interface TibialCandidate {
  readonly tray: PreparedTray;
  readonly insert: Insert;
  readonly choice: TibialChoice;
  /** Everything that is charged on them but the place of K. */
  readonly parts: number;
  /** With the place of K at its best. */
  readonly least: number;
}

/** Sets out one femur; null where a limit excludes it or where it costs more than `room`. */
export function branchOf(
  tables: Tables,
  at: { readonly ties: Ties; readonly femur: PreparedFemur; readonly stance: Stance; readonly parts: number },
  { room, kind }: { readonly room: number; readonly kind: Kind },
): Branch | null {
  const { distal } = kind;
  const all = tables.distal(at.femur);
  const distals = distal ? all.filter(({ pair }) => distal(pair)) : all;
  const leastDistal = distals[0]?.least ?? NEVER;
  const most = room - at.parts - at.ties.least - at.stance.least - leastDistal;
  // Couplers hang on the femur alone: both slopes share them, but they are few and quick to set out.
  const flanges =
    (tables.condyles(at.femur)[0]?.least ?? NEVER) > most ? [] : tables.flanges(at.femur, at.stance.reachMm);
  const branch = { ...at, distals, flanges, leastDistal, leastPosterior: 0, least: 0 };
  const [first] = posteriorCandidates(tables, branch, { room: most, kind, first: true });
  if (!first) return null;
  const least = at.parts + at.ties.least + at.stance.least + leastDistal + first.least;
  return { ...branch, leastPosterior: first.least, least };
}

/**
 * Pairs of posterior augments with each coupler that cost no more than `room`, cheapest first; only the cheapest of
 * them where `first` is asked for.
 */
export function posteriorCandidates(
  tables: Tables,
  { femur, flanges }: Branch,
  asked: { readonly room: number; readonly kind: Kind; readonly first: boolean },
): PosteriorChoice[] {
  const { kind, first } = asked;
  let { room } = asked;
  let found: PosteriorChoice[] = [];
  const pairs = tables.condyles(femur);
  for (const flange of flanges) {
    const from = lowOf(flange.curve);
    const to = highOf(flange.curve);
    for (const pair of pairs) {
      if (flange.least + pair.least > room) break;
      const least = leastOfTwo({ own: flange.curve, moved: pair.curve, shift: 0 }, 0);
      if (least === NEVER || least > room || kind.posterior?.(pair, flange.coupler) === false) continue;
      const low = Math.max(lowOf(pair.curve), from);
      const high = Math.min(highOf(pair.curve), to);
      if (first) {
        room = least;
        found = [];
      }
      found.push({ pair, flange, low, high, least, curve: null });
    }
  }
  return first ? found.slice(-1) : cheapestFirst(found);
}

export const femoralLoad = (distal: Choice, posterior: PosteriorChoice): Load =>
  posterior.flange.coupler ? 'coupled' : distal.pair.augments + posterior.pair.augments > 0 ? 'augmented' : 'plain';

export const tibialLoad = (choice: TibialChoice): Load => (choice.pair.augments > 0 ? 'augmented' : 'plain');

/**
 * Trays, inserts and blocks that join a femur and cost no more than `room`, cheapest first; only the cheapest of
 * them where `first` is asked for.
 */
export function tibialCandidates(
  tables: Tables,
  { femur, ties: { level } }: Branch,
  asked: { readonly room: number; readonly kind: Kind; readonly first: boolean },
): TibialCandidate[] {
  const { prices, bounds } = tables.question;
  const { kind, first } = asked;
  let { room } = asked;
  let found: TibialCandidate[] = [];
  for (const { tray, seats } of femur.bearings[level]) {
    const width = tables.trayWidth(tray);
    if (width > room) continue;
    const { plain, augmented } = tables.held(tray, level);
    const held = { plain: plain?.cost ?? NEVER, augmented: augmented?.cost ?? NEVER };
    const leastHeld = Math.min(held.plain, held.augmented);
    const pairs = tables.blocks(tray);
    const leastPair = pairs[0]?.least ?? NEVER;
    for (const seat of seats) {
      const { insert } = seat;
      if (insert.leastPolyethyleneMm < bounds.leastPolyethyleneMm || kind.insert?.(insert) === false) continue;
      const thick =
        width + charge(insert.labelMm, prices['insert-thick']) + charge(insert.labelMm, prices['insert-very-thick']);
      if (thick + leastHeld + leastPair > room) continue;
      for (const pair of pairs) {
        if (thick + leastHeld + pair.least > room) break;
        const parts = thick + (pair.augments > 0 ? held.augmented : held.plain);
        if (parts + pair.least > room || kind.blocks?.(pair) === false) continue;
        const choice = tables.tibial(pair, tray, seat);
        const least = parts + choice.least;
        if (least === NEVER || least > room) continue;
        if (first) {
          room = least;
          found = [];
        }
        found.push({ tray, insert, choice, parts, least });
      }
    }
  }
  return first ? found.slice(-1) : cheapestFirst(found);
}
