import type { Weight, WeightTable } from './weights.ts';

/** Every term of the objective, spec section 5, by its id in the table of weights. */
export const TERMS = [
  'joint-line-femur',
  'joint-line-femur-far',
  'joint-line-tibia',
  'laxity-extension-medial',
  'laxity-extension-lateral',
  'laxity-flexion-medial',
  'laxity-flexion-lateral',
  'difference-extension',
  'difference-flexion',
  'flexion-extension',
  'arc',
  'femur-overhang',
  'femur-underhang',
  'tray-overhang',
  'tray-underhang',
  'bone-cut',
  'bone-replaced',
  'cement',
  'cement-deep',
  'flange-gap',
  'augment-count',
  'augment-thickness',
  'augment-thick',
  'insert-thick',
  'insert-very-thick',
  'constraint',
  'zones',
  'cone',
  'sleeve',
  'stem',
  'stem-fit',
  'stem-conflict',
  'offset-coupler',
] as const;
export type TermId = (typeof TERMS)[number];

export type Prices = Readonly<Record<TermId, Weight>>;

/** Looks every term up in the table; a term that the table does not name is a fault in the table, not a free term. */
export function pricesOf(table: WeightTable): Prices {
  const found = {} as Record<TermId, Weight>;
  for (const id of TERMS) {
    const weight = table.weights.find((w) => w.id === id);
    if (!weight) throw new Error(`The table of weights ${table.version} has no weight ${id}.`);
    found[id] = weight;
  }
  return found;
}

/** How far a value lies outside the free zone, in its own unit, >= 0. */
export const beyond = (value: number, weight: Weight): number =>
  Math.max(0, weight.free[0] - value, value - weight.free[1]);

/** What a value costs, >= 0. */
export const charge = (value: number, weight: Weight): number => weight.weight * beyond(value, weight);
