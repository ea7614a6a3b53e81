import { DEFAULT_WEIGHTS } from './default-weights.ts';
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
  'tray-front-back',
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

/** Terms that came with versions 1.1 and 1.2 of the table: a table of a practice from before may lack them. */
export const SINCE_1_1: readonly TermId[] = ['arc', 'bone-replaced', 'sleeve', 'stem-conflict'];
export const SINCE_1_2: readonly TermId[] = ['tray-front-back'];

/** Terms that an older table lacks; their defaults are taken, which is said wherever the table is checked. */
export const newerThan = (table: WeightTable): readonly TermId[] =>
  [...SINCE_1_1, ...SINCE_1_2].filter((id) => !table.weights.some((w) => w.id === id));

/**
 * Looks every term up in the table. A term that the table does not name is a fault in the table, not a free term;
 * only those that came later (`newerThan`) are taken from the default table.
 */
export function pricesOf(table: WeightTable): Prices {
  const found = {} as Record<TermId, Weight>;
  const newer = newerThan(table);
  for (const id of TERMS) {
    const { weights } = newer.includes(id) ? DEFAULT_WEIGHTS : table;
    const weight = weights.find((w) => w.id === id);
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
