import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { DEFAULT_WEIGHTS } from './default-weights.ts';
import { newerThan, TERMS, type TermId } from './price.ts';
import type { WeightTable } from './weights.ts';

/** Terms over a sum: a free zone above zero would tie the tables of the solver together (docs/decisions/solver.md). */
const FROM_ZERO: readonly TermId[] = ['augment-count', 'augment-thickness'];
/** Terms of amounts that are never negative: their free zone begins at zero. */
const NEVER_NEGATIVE: readonly TermId[] = [
  ...FROM_ZERO,
  'femur-overhang',
  'femur-underhang',
  'tray-overhang',
  'tray-underhang',
  'bone-cut',
  'bone-replaced',
  'cement',
  'cement-deep',
  'flange-gap',
  'augment-thick',
  'constraint',
  'zones',
  'cone',
  'sleeve',
  'stem',
  'stem-fit',
  'stem-conflict',
  'offset-coupler',
];

/**
 * Checks a table of weights before it is used: every term once, weights finite and not negative, free zones in
 * order, and of the kind that the solver's proof allows. `cannot` names the weight at fault and the mend; terms that came
 * after the table are warned of, and their defaults taken.
 */
export function checkWeights(table: WeightTable): Outcome<WeightTable> {
  const refuse = (id: string, what: string, mend: string): Outcome<WeightTable> =>
    cannot({ code: 'weights', message: `The weight ${id} ${what}.`, field: `weights.${id}`, mend });
  const newer = newerThan(table);
  for (const id of TERMS) {
    if (newer.includes(id)) continue;
    const all = table.weights.filter((w) => w.id === id);
    const [weight] = all;
    if (!weight || all.length !== 1)
      return refuse(id, all.length === 0 ? 'is missing' : 'stands twice', 'Give every weight once.');
    const [low, high] = weight.free;
    if (!Number.isFinite(weight.weight) || weight.weight < 0)
      return refuse(id, `is ${weight.weight}`, 'Give a number, 0 or more.');
    if (!Number.isFinite(low) || !Number.isFinite(high) || low > high)
      return refuse(id, `has the free zone ${low} to ${high}`, 'Give the lower end first, both as plain numbers.');
    if (NEVER_NEGATIVE.includes(id) && (low !== 0 || (FROM_ZERO.includes(id) && high !== 0)))
      return refuse(
        id,
        `has the free zone ${low} to ${high}`,
        FROM_ZERO.includes(id) ? 'This one is charged from zero: give 0 to 0.' : 'Let the free zone begin at 0.',
      );
  }
  const stranger = table.weights.find((w) => !(TERMS as readonly string[]).includes(w.id));
  if (stranger) return refuse(stranger.id, 'belongs to no term', 'Remove it.');
  return ok(
    table,
    newer.map((id) => ({
      code: 'weight-newer',
      message: `The table of weights ${table.version} is older than the weight ${id}: its default of version ${DEFAULT_WEIGHTS.version} is taken.`,
      field: `weights.${id}`,
      mend: 'Add the weight to the table, at 0 to leave it out.',
    })),
  );
}
