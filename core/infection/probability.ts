import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { AT, CELLS, isOpen, type Observation } from './cells.ts';
import { ACCURACY, type Accuracy, type DependenceGroup } from './likelihood-ratios.ts';
import { TEST_IDS, type TestId } from './tests.ts';

export interface Probability {
  /** 0 to 1. */
  readonly value: number;
  /** From the least favourable to the most favourable end of every ratio used; null where one has no interval. */
  readonly interval: readonly [number, number] | null;
}

export interface Estimate {
  readonly pretest: number;
  /** One test at a time, each on the pre-test probability alone. */
  readonly single: readonly {
    readonly test: TestId;
    readonly result: 'positive' | 'negative';
    readonly after: Probability;
    readonly accuracy: Accuracy;
  }[];
  /** One test a group, multiplied across groups. Null while no test with a ratio is known. */
  readonly combined: Probability | null;
  readonly usedInCombined: readonly TestId[];
  /** Known tests left out of the product, with why. */
  readonly leftOut: readonly {
    readonly test: TestId;
    readonly why: 'same group as a test already used' | 'no pooled ratio';
  }[];
  readonly label: string;
}

/** Stands beside every estimate. */
export const ESTIMATE_LABEL =
  'An estimate that no definition uses. Tests of one group are never multiplied; even across groups they are not fully independent, so the product overstates certainty.';

/** Odds form of Bayes: probability 0 to 1, ratio above 0; result 0 to 1, the same where the ratio is 1. */
export function afterTest(pretest: number, ratio: number): number {
  const odds = (pretest / (1 - pretest)) * ratio;
  return odds / (1 + odds);
}

/**
 * INF-14: probability of infection from published likelihood ratios. `pretest` 0 to 1 without its ends, chosen by the
 * reader. Within a group (serum, synovial, culture, histology, imaging) only the first row of the table whose test is known
 * moves the product, whatever its result. Refuses a pre-test value that is not between 0 and 1.
 */
export function estimate(
  known: Observation,
  options: { readonly pretest: number; readonly defensinMethod?: 'laboratory' | 'lateral-flow' },
): Outcome<Estimate> {
  const { pretest } = options;
  if (!(pretest > 0 && pretest < 1))
    return cannot({
      code: 'pretest-out-of-range',
      message: `A pre-test probability lies between 0 and 1; given ${pretest}.`,
      field: 'pretest',
      mend: 'Give a share such as 0.2.',
    });
  const method = options.defensinMethod ?? 'lateral-flow';
  const rows = ACCURACY.filter((a) => a.method === null || a.method === method);
  const single = rows.flatMap((accuracy) => {
    const result = signOf(accuracy.test, known);
    return result === null
      ? []
      : [{ test: accuracy.test, result, after: apply(pretest, [{ accuracy, result }]), accuracy }];
  });
  const used = new Map<DependenceGroup, (typeof single)[number]>();
  for (const s of single) if (!used.has(s.accuracy.group)) used.set(s.accuracy.group, s);
  const product = [...used.values()];
  return ok({
    pretest,
    single,
    combined: product.length === 0 ? null : apply(pretest, product),
    usedInCombined: product.map((p) => p.test),
    leftOut: leftOut(known, { rows, used: product.map((p) => p.test) }),
    label: ESTIMATE_LABEL,
  });
}

function leftOut(
  known: Observation,
  at: { readonly rows: readonly Accuracy[]; readonly used: readonly TestId[] },
): Estimate['leftOut'] {
  return TEST_IDS.filter((id) => id !== 'phase' && !isOpen(known[AT[id]]!) && !at.used.includes(id)).map((test) => ({
    test,
    why: at.rows.some((r) => r.test === test && signOf(test, known) !== null)
      ? 'same group as a test already used'
      : 'no pooled ratio',
  }));
}

interface Applied {
  readonly accuracy: Accuracy;
  readonly result: 'positive' | 'negative';
}

function apply(pretest: number, tests: readonly Applied[]): Probability {
  let [ratio, low, high] = [1, 1, 1];
  let bounded = true;
  for (const { accuracy, result } of tests) {
    const interval = result === 'positive' ? accuracy.positiveInterval : accuracy.negativeInterval;
    ratio *= result === 'positive' ? accuracy.positive : accuracy.negative;
    if (interval === null) bounded = false;
    else {
      low *= interval[0];
      high *= interval[1];
    }
  }
  const value = afterTest(pretest, ratio);
  return { value, interval: bounded ? [afterTest(pretest, low), afterTest(pretest, high)] : null };
}

/** Cell from which a result counts as positive for its ratio; two by default, the limits of the definitions. */
const POSITIVE_FROM: Readonly<Partial<Record<TestId, number>>> = { histology: 3, sonication: 2 };

function signOf(test: TestId, known: Observation): 'positive' | 'negative' | null {
  const mask = known[AT[test]]!;
  const positive = ((1 << CELLS[test].length) - 1) & ~((1 << (POSITIVE_FROM[test] ?? 1)) - 1);
  if ((mask & positive) === 0) return 'negative';
  return (mask & ~positive) === 0 ? 'positive' : null;
}
