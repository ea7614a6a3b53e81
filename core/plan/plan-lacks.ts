import type { Catalogue } from '../catalogue/catalogue.ts';
import type { Construct } from '../gaps/construct.ts';
import { partName } from '../kit/part-name.ts';
import { partsNeeded } from '../kit/parts-needed.ts';
import type { KitSet } from '../kit/set-list.ts';

/** A part of the planned construct that no set in the room holds. */
export interface PlanLack {
  readonly ref: string;
  readonly name: string;
  /** Sets of the list that hold it, by ref, in the order of the list; empty = none does. */
  readonly sets: readonly string[];
}

/**
 * What the planned construct needs and the room does not hold (KIT-15). The cheapest room may answer with other parts
 * than those planned, such as another kind of stem, at a cost that is acceptable: whoever packs must see it.
 *
 * @param bring sets in the room, by ref. @returns empty where the plan can be built as it stands.
 * Pieces are counted: two equal augments want two. Stock that is expired or short is not looked at here.
 */
export function planLacks(
  construct: Construct,
  {
    catalogue,
    sets,
    bring,
  }: { readonly catalogue: Catalogue; readonly sets: readonly KitSet[]; readonly bring: readonly string[] },
): readonly PlanLack[] {
  const pieces = (set: KitSet, ref: string): number =>
    set.parts.reduce((sum, part) => sum + (part.ref === ref ? part.count : 0), 0);
  const inRoom = sets.filter((set) => bring.includes(set.ref));
  return [...partsNeeded(construct)]
    .filter(([ref, amount]) => inRoom.reduce((sum, set) => sum + pieces(set, ref), 0) < amount)
    .map(([ref]) => ({
      ref,
      name: partName(catalogue, ref),
      sets: sets.filter((set) => !bring.includes(set.ref) && pieces(set, ref) > 0).map((set) => set.ref),
    }));
}
