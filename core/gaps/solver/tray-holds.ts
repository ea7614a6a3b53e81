import type { OffsetCoupler } from '../../catalogue/catalogue.ts';
import type { Fixation } from '../fixation.ts';
import { charge } from '../price.ts';
import { stemLimit } from '../stem-limits.ts';
import { couplerGoes, trayPlace } from '../tray-place.ts';
import type { Ways } from './holds.ts';
import type { Kind } from './kind.ts';
import type { PreparedTray } from './prepare.ts';
import type { Question } from './tables.ts';
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

/** Costs closer than this are equal: the earlier way is kept. */
const SAME = 1e-9;

interface Placed {
  readonly coupler: OffsetCoupler | null;
  /** With a stem and without one: width and place of the tray, and the coupler. */
  readonly onStem: number;
  readonly bare: number;
}

/** What width, place and coupler cost: without a coupler first, then the one that leaves least off the middle. */
function placesOf(tray: PreparedTray, stem: string | null, { centredMm, question, allows }: Asked): Placed[] {
  const { prepared, state, prices } = question;
  const limit = stem === null || tray.segment ? null : stemLimit(state, 'tibia', stem);
  const cost = (coupler: OffsetCoupler | null): number => {
    const place = trayPlace(limit, coupler);
    if (!place) return coupler ? NEVER : centredMm;
    const { size, widthMm } = tray.tray;
    const width = { bone: 'tray', componentMm: widthMm, boneMm: state.tibiaWidthMm } as const;
    return coupler && !couplerGoes(coupler, size, limit)
      ? NEVER
      : widthCost(question, width, Math.abs(place.lateralMm)) +
          charge(place.anteriorMm ?? 0, prices['tray-front-back']) +
          (coupler ? charge(1, prices['offset-coupler']) : 0);
  };
  const straight: Placed[] = allows?.(null) === false ? [] : [{ coupler: null, onStem: cost(null), bare: centredMm }];
  if (!limit?.offset) return straight;
  const neededMm = Math.hypot(limit.offset.lateralMm, limit.offset.anteriorMm ?? 0);
  const leftBy = (c: OffsetCoupler): number => Math.round(1e6 * Math.abs(neededMm - c.offsetMm));
  const couplers = (prepared.trayCouplers.get(tray.tray.size) ?? [])
    .filter((c) => allows?.(c) !== false)
    .sort((a, b) => leftBy(a) - leftBy(b));
  return [...straight, ...couplers.map((coupler) => ({ coupler, onStem: cost(coupler), bare: NEVER }))];
}

/** What the holds of a tray hang on. */
export interface Asked {
  /** What its width costs over the middle of the bone. */
  readonly centredMm: number;
  readonly question: Question;
  /** Couplers that come into question; absent = all. */
  readonly allows?: Kind['underTray'];
}

/**
 * The cheapest ways to hold a tray at one level (GAP-31, GAP-32): each way to hold its bone with each coupler that goes there, where
 * both set the tray. Worked out once for each tray: it meets the rest of the construct through blocks alone.
 * Ties: no coupler first, then the one that leaves the tray nearest the middle, then the smaller offset, then as the ways are
 * sorted.
 */
export function trayHolds(tray: PreparedTray, ways: Ways, asked: Asked): TrayHolds {
  if (asked.centredMm === NEVER) return { plain: null, augmented: null };
  const stem = [...ways.plain, ...ways.augmented].find((way) => way.stem)?.stem?.stem.ref ?? null;
  const places = placesOf(tray, stem, asked);
  const cheapest = (load: 'plain' | 'augmented'): TrayHold | null => {
    let best: TrayHold | null = null;
    for (const { coupler, onStem, bare } of places)
      for (const fixation of ways[coupler ? 'coupled' : load]) {
        const cost = fixation.cost + (fixation.stem ? onStem : bare);
        if (cost < (best?.cost ?? NEVER) - SAME) best = { fixation, coupler, cost };
      }
    return best;
  };
  return { plain: cheapest('plain'), augmented: cheapest('augmented') };
}
