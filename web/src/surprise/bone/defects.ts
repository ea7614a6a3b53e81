import { type MappedSurface, SIDES, surfacesOf } from '@gapline/core/bone/map-of-bone.ts';
import type { StockOfBone } from '@gapline/core/plan/bone-stock.ts';

/** One surface of a bone on which something is lost. */
export interface Defect {
  readonly bone: 'femur' | 'tibia';
  readonly surface: MappedSurface;
}

/** Every surface with a loss on it, the deepest first; of equals the map's order. */
export function defectsOf(stocks: readonly StockOfBone[]): readonly Defect[] {
  const all = stocks.flatMap(({ bone, map }) =>
    SIDES.flatMap((side) => surfacesOf(map, side)).map((surface) => ({ bone, surface })),
  );
  return all
    .filter(({ surface: { loss } }) => (loss.depthMm ?? 0) > 0 || (loss.unsupportedPct ?? 0) > 0)
    .toSorted((a, b) => (b.surface.loss.depthMm ?? 0) - (a.surface.loss.depthMm ?? 0));
}
