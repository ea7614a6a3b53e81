import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import { levelRank } from '../../constraint/least-constraint.ts';
import type { BoneState } from '../bone-state.ts';
import { charge, type Prices } from '../price.ts';
import { overhangMm } from '../seating.ts';
import type { Bounds } from './bounds.ts';

/** Cost of what a limit excludes. */
export const NEVER = Number.POSITIVE_INFINITY;

/** What is charged at a level whatever the parts: constraint above the least, differences that no part changes. */
export function alwaysCharged(
  { bounds, prices, state }: { readonly bounds: Bounds; readonly prices: Prices; readonly state: BoneState },
  level: ConstraintLevel,
): number {
  const { extensionLaxityMm: e, flexionLaxityMm: f } = state;
  const rank = levelRank(level);
  if (rank < bounds.leastRank) return NEVER;
  return (
    charge(rank - bounds.leastRank, prices.constraint) +
    charge(e.lateral - e.medial, prices['difference-extension']) +
    charge(f.lateral - f.medial, prices['difference-flexion'])
  );
}

/**
 * What a component's width costs on its bone; infinite beyond the limit of overhang. Widths in mm; `asideMm`: how far it
 * stands off the middle to either side, >= 0.
 */
export function widthCost(
  { bounds, prices }: { readonly bounds: Pick<Bounds, 'overhangMm'>; readonly prices: Prices },
  of: { readonly bone: 'femur' | 'tray'; readonly componentMm: number; readonly boneMm: number },
  asideMm = 0,
): number {
  const over = overhangMm(of.componentMm, of.boneMm);
  if (over + asideMm > bounds.overhangMm + 1e-9) return NEVER;
  const isFemur = of.bone === 'femur';
  return (
    charge(Math.max(0, over + asideMm), isFemur ? prices['femur-overhang'] : prices['tray-overhang']) +
    charge(Math.max(0, asideMm - over), isFemur ? prices['femur-underhang'] : prices['tray-underhang'])
  );
}
