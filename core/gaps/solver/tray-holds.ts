import type { OffsetCoupler, Tray } from '../../catalogue/catalogue.ts';
import type { BoneState } from '../bone-state.ts';
import type { Fixation } from '../fixation.ts';
import { charge, type Prices } from '../price.ts';
import { stemLimit } from '../stem-limits.ts';
import { couplerGoes, trayPlace } from '../tray-place.ts';
import type { Bounds } from './bounds.ts';
import { cheapestWay, costOfWay, type Ways } from './holds.ts';
import type { Kind } from './kind.ts';
import { SAME_COST } from './order.ts';
import type { PreparedTray } from './prepared.ts';
import type { Question } from './question.ts';
import { NEVER, widthCost } from './whole-parts.ts';

/** One way to hold a tray: what is in its bone, the coupler between tray and stem, and where both set the tray. */
export interface TrayHold {
  readonly fixation: Fixation;
  readonly coupler: OffsetCoupler | null;
  /** Fixation, coupler, width and place of the tray together. */
  readonly cost: number;
}

/** The cheapest way without blocks and with them; null = none. */
export interface TrayHolds {
  readonly plain: TrayHold | null;
  readonly augmented: TrayHold | null;
}

interface Placed {
  readonly coupler: OffsetCoupler | null;
  /** With a stem and without one: width and place of the tray, and the coupler. */
  readonly onStem: number;
  readonly bare: number;
}

/** A tray on one stem, with a coupler between or none. */
export interface TrayOnStem {
  readonly tray: Tray;
  /** Reference of the stem. */
  readonly stem: string;
  readonly coupler: OffsetCoupler | null;
  readonly state: BoneState;
}

/**
 * What width, place and coupler of a tray cost on its stem (GAP-31, GAP-32); infinite beyond the limit of overhang, or where the
 * coupler does not go there. Where the place is not known it is the width over the middle.
 */
export function placeCost(
  { tray, stem, coupler, state }: TrayOnStem,
  { prices, bounds }: { readonly prices: Prices; readonly bounds: Pick<Bounds, 'overhangMm'> },
): number {
  const limit = stemLimit(state, 'tibia', stem);
  if (coupler && !couplerGoes(coupler, tray.size, limit)) return NEVER;
  const place = trayPlace(limit, coupler);
  const width = { bone: 'tray', componentMm: tray.widthMm, boneMm: state.tibiaWidthMm } as const;
  return (
    widthCost({ prices, bounds }, width, Math.abs(place?.lateralMm ?? 0)) +
    charge(place?.anteriorMm ?? 0, prices['tray-front-back']) +
    (coupler ? charge(1, prices['offset-coupler']) : 0)
  );
}

/** The ways without a coupler first, then with the one that leaves least off the middle. */
function placesOf({ tray, segment }: PreparedTray, stem: string | null, asked: Asked): Placed[] {
  const { centredMm, question, allows } = asked;
  const { prepared, state } = question;
  const needed = stem === null || segment ? null : stemLimit(state, 'tibia', stem)?.offset;
  if (!needed || stem === null)
    return allows?.(null) === false ? [] : [{ coupler: null, onStem: centredMm, bare: centredMm }];
  const neededMm = Math.hypot(needed.lateralMm, needed.anteriorMm ?? 0);
  const leftBy = (c: OffsetCoupler | null): number => (c ? Math.round(1e6 * Math.abs(neededMm - c.offsetMm)) : -1);
  return [null, ...(prepared.trayCouplers.get(tray.size) ?? [])]
    .filter((coupler) => allows?.(coupler) !== false)
    .sort((a, b) => leftBy(a) - leftBy(b))
    .map((coupler) => ({
      coupler,
      onStem: placeCost({ tray, stem, coupler, state }, question),
      bare: coupler ? NEVER : centredMm,
    }));
}

/** What the holds of a tray hang on. */
export interface Asked {
  /** What its width costs over the middle of the bone. */
  readonly centredMm: number;
  readonly question: Question;
  /** Couplers that come into question; absent = all. */
  readonly allows?: Kind['underTray'];
}

const NO_HOLDS: TrayHolds = { plain: null, augmented: null };

const overTheMiddle = (fixation: Fixation | null, centredMm: number): TrayHold | null =>
  fixation ? { fixation, coupler: null, cost: fixation.cost + centredMm } : null;

/**
 * The cheapest ways to hold a tray at one level (GAP-31, GAP-32): each way to hold its bone with each coupler that goes there, where
 * both set the tray. Worked out once for each tray: it meets the rest of the construct through blocks alone.
 * Ties: no coupler first, then the one that leaves the tray nearest the middle, then the smaller offset, then as the ways are
 * sorted.
 */
export function trayHolds(tray: PreparedTray, ways: Ways, asked: Asked): TrayHolds {
  const { centredMm, question, allows } = asked;
  if (centredMm === NEVER) return NO_HOLDS;
  // Nothing is known of the place of any tray: the first way is the cheapest.
  if (!question.state.tibialStemLimits && !allows)
    return {
      plain: overTheMiddle(cheapestWay(ways, 'plain'), centredMm),
      augmented: overTheMiddle(cheapestWay(ways, 'augmented'), centredMm),
    };
  const stem = [...ways.under.plain, ...ways.under.augmented].find((way) => way.stem)?.stem?.stem.ref ?? null;
  const places = placesOf(tray, stem, asked);
  const cheapest = (load: 'plain' | 'augmented'): TrayHold | null => {
    let best: TrayHold | null = null;
    for (const { coupler, onStem, bare } of places)
      for (const fixation of ways.under[coupler ? 'coupled' : load]) {
        const cost = costOfWay(fixation, ways) + (fixation.stem ? onStem : bare);
        if (cost < (best?.cost ?? NEVER) - SAME_COST) best = { fixation, coupler, cost };
      }
    return best;
  };
  return { plain: cheapest('plain'), augmented: cheapest('augmented') };
}
