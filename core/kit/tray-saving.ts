import type { OffsetCoupler, Stem, Tray } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Prices } from '../gaps/price.ts';
import { placeCost } from '../gaps/solver/tray-holds.ts';
import { NEVER } from '../gaps/solver/whole-parts.ts';
import type { PricedStem } from './stem-prices.ts';

/** Trays of a room with what may stand between them and a stem. */
export interface TraysOfRoom {
  readonly trays: readonly Tray[];
  readonly couplers: readonly OffsetCoupler[];
  /** Limit of overhang, mm. */
  readonly overhangMm: number;
}

/** What other tibial stems than the preferred one could spare. */
export interface TraySaving {
  /** At most; infinite where the preferred one sets a tray beyond a limit and another does not. */
  readonly most: number;
  readonly stems: readonly Stem[];
}

const SAME = 1e-9;

/** Whether the canal says where stems set the tray. */
export const traysArePlaced = ({ tibialStemLimits = [] }: BoneState): boolean =>
  tibialStemLimits.some((limit) => limit.passes && limit.offset);

/**
 * Stems that may do better under a tray than the one that the rules prefer: by their fit, and by where they set the tray
 * (GAP-31). On a tray a stem can spare no more than on the coupler where it spares most, since a straight stem is always left
 * to the preferred one.
 */
export function traySaving(
  preferred: PricedStem,
  passing: readonly PricedStem[],
  { state, prices, room }: { readonly state: BoneState; readonly prices: Prices; readonly room: TraysOfRoom },
): TraySaving {
  const couplers = [null, ...room.couplers.filter((c) => c.bone !== 'femur')];
  const on = { prices, bounds: { overhangMm: room.overhangMm } };
  const priced = ({ stem, cost }: PricedStem) =>
    room.trays.map((tray) => couplers.map((coupler) => cost + placeCost({ tray, stem: stem.ref, coupler, state }, on)));
  const now = priced(preferred);
  const spared = (costs: readonly (readonly number[])[]): number =>
    costs.reduce(
      (most, ofTray, t) =>
        ofTray.reduce((best, cost, c) => {
          const straight = now[t]?.[0] ?? NEVER;
          return cost === NEVER ? best : Math.max(best, Math.min(straight, now[t]?.[c] ?? NEVER) - cost);
        }, most),
      0,
    );
  let most = 0;
  const stems = passing.flatMap((other): Stem[] => {
    const saving = spared(priced(other));
    most = Math.max(most, saving);
    return saving > SAME ? [other.stem] : [];
  });
  return { most, stems };
}
