import { levelInSentence } from '../../constraint/level-words.ts';
import type { BoneState } from '../bone-state.ts';
import type { SolvedConstruct } from '../construct.ts';
import type { Kind } from './kind.ts';
import type { Found } from './order.ts';
import { Search } from './search.ts';
import type { Tables } from './tables.ts';
import { constructOf, judge } from './to-construct.ts';

interface NamedKind {
  readonly words: (found: Found) => string;
  readonly kind: Kind;
}

const mm = (x: number): string => `${Number(x.toFixed(1))} mm`;

/** Inserts within this of the best are the same kind of insert, mm. */
const SAME_INSERT_MM = 1;

/** The ways in which a construct can differ in kind from the best one, in the order in which they are named (GAP-21). */
function kindsBeside(best: Found, state: BoneState): NamedKind[] {
  const size = best.femur.femur.size;
  const kinds: NamedKind[] = [
    {
      words: (f) => `${f.femur.femur.size > size ? 'larger' : 'smaller'} femur, size ${f.femur.femur.size}`,
      kind: { femur: (f) => f.femur.size !== size },
    },
    {
      words: (f) => levelInSentence(f.level),
      kind: { level: (level) => level !== best.level },
    },
    {
      words: (f) => `${f.insert.labelMm > best.insert.labelMm ? 'thicker' : 'thinner'} insert, ${mm(f.insert.labelMm)}`,
      kind: { insert: (i) => Math.abs(i.labelMm - best.insert.labelMm) > SAME_INSERT_MM },
    },
    best.distal.pair.augments > 0
      ? { words: () => 'no distal augments', kind: { distal: (c) => c.augments === 0 } }
      : { words: () => 'with distal augments', kind: { distal: (c) => c.augments > 0 } },
    best.posterior.pair.augments > 0
      ? { words: () => 'no posterior augments', kind: { posterior: (pair) => pair.augments === 0 } }
      : { words: () => 'with posterior augments', kind: { posterior: (pair) => pair.augments > 0 } },
    best.tibial.pair.augments > 0
      ? { words: () => 'no tibial blocks', kind: { blocks: (c) => c.augments === 0 } }
      : { words: () => 'with tibial blocks', kind: { blocks: (c) => c.augments > 0 } },
    best.posterior.flange.coupler
      ? { words: () => 'no femoral offset coupler', kind: { posterior: (_, coupler) => coupler === null } }
      : {
          words: (f) => `femoral offset coupler of ${mm(f.posterior.flange.coupler?.offsetMm ?? 0)}`,
          kind: { posterior: (_, coupler) => coupler !== null },
        },
    ...underTray(best, state),
  ];
  return kinds;
}

/** With or without a tibial coupler, where one can be judged (GAP-32). */
function underTray({ hold }: Found, { tibialStemLimits = [] }: BoneState): NamedKind[] {
  if (hold.coupler)
    return [{ words: () => 'no tibial offset coupler', kind: { underTray: (coupler) => coupler === null } }];
  return tibialStemLimits.some((limit) => limit.passes && limit.offset)
    ? [
        {
          words: (f) => `tibial offset coupler of ${mm(f.hold.coupler?.offsetMm ?? 0)}`,
          kind: { underTray: (coupler) => coupler !== null },
        },
      ]
    : [];
}

/**
 * The next best constructs that differ in kind from the best: for each kind the exact least, cheapest first; a
 * construct that answers to several kinds is named once, with all of them.
 */
export function alternativesTo(best: Found, tables: Tables, most: number): SolvedConstruct[] {
  if (most <= 0) return [];
  const { prepared, state, prices } = tables.question;
  const before: Found[] = [];
  const named = new Map<string, { found: Found; words: string[] }>();
  for (const { words, kind } of kindsBeside(best, state)) {
    // Only the cheapest few are given: what is dearer than the last of them need not be found exactly.
    const ceiling = [...named.values()].map((n) => n.found.cost).sort((a, b) => a - b)[most - 1];
    const found = new Search(tables, kind, { found: before, ...(ceiling === undefined ? {} : { ceiling }) }).run();
    if (!found) continue;
    before.push(found);
    const key = JSON.stringify(constructOf(found, tables));
    const known = named.get(key);
    if (known) known.words.push(words(found));
    else named.set(key, { found, words: [words(found)] });
  }
  return [...named.values()]
    .sort((a, b) => a.found.cost - b.found.cost)
    .slice(0, most)
    .map(({ found, words }) =>
      judge(
        constructOf(found, tables),
        { state, catalogue: prepared.catalogue },
        { prices, differs: words.join('; ') },
      ),
    );
}
