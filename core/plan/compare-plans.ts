import type { Construct } from '../gaps/construct.ts';
import type { Plan } from './plan.ts';

/** One thing that differs between two plans. Numbers in the unit given; null = not there. */
export interface PlanChange {
  readonly about: 'joint-line' | 'component' | 'gap' | 'cost' | 'measurement' | 'missing' | 'conflict';
  /** Stable name, e.g. `jointLine.femoral.shiftMm`, `construct.femur`. */
  readonly field: string;
  readonly label: string;
  readonly before: string | number | null;
  readonly after: string | number | null;
  readonly unit: string;
}

/** Smaller differences of a number are rounding, not news: half of the last digit that is shown. */
const SHOWN_STEP = 0.05;

/**
 * What a change of the case changed in the plan (PLAN-19): joint line, components, gaps, cost, measurements, and what is newly missing or in
 * conflict or no longer so; in this order, each with before and after. Empty when nothing that is shown changed.
 */
export function comparePlans(before: Plan, after: Plan): readonly PlanChange[] {
  return [
    ...numbers('joint-line', [jointLineOf(before), jointLineOf(after)]),
    ...texts([partsOf(before), partsOf(after)]),
    ...numbers('gap', [gapsOf(before), gapsOf(after)]),
    ...numbers('cost', [costOf(before), costOf(after)]),
    ...numbers('measurement', [measuredIn(before), measuredIn(after)]),
    ...words('missing', [before.missing.map((m) => m.what), after.missing.map((m) => m.what)]),
    ...words('conflict', [before.conflicts.map((c) => c.message), after.conflicts.map((c) => c.message)]),
  ];
}

interface Named<V> {
  readonly field: string;
  readonly label: string;
  readonly value: V;
  readonly unit: string;
}
type Two<T> = readonly [before: T, after: T];

const jointLineOf = ({ jointLine }: Plan): readonly Named<number>[] =>
  (['femoral', 'tibial'] as const).flatMap((bone) => {
    const estimate = jointLine[bone];
    if (!estimate.ok) return [];
    const { shiftMm: value } = estimate.value;
    return [{ field: `jointLine.${bone}.shiftMm`, label: `Joint line, ${bone}, + raised`, value, unit: 'mm' }];
  });

const best = ({ construct }: Plan) => (construct.kind === 'solved' ? construct.answer.best : null);

const SIMPLE = [
  'level',
  'femur',
  'tray',
  'insert',
  'femoralStem',
  'femoralOffset',
  'tibialStem',
  'tibialOffset',
  'femoralCone',
  'tibialCone',
  'femoralSleeve',
  'tibialSleeve',
] as const;
const PAIRS = ['distalAugments', 'posteriorAugments', 'tibialAugments'] as const;

function partsOf(plan: Plan): readonly Named<string>[] {
  const construct: Construct | undefined = best(plan)?.construct;
  if (!construct) return [];
  const named = (field: string, value: string | null | undefined): Named<string>[] =>
    value ? [{ field: `construct.${field}`, label: field, value, unit: '' }] : [];
  return [
    ...SIMPLE.flatMap((f) => named(f, construct[f])),
    ...PAIRS.flatMap((f) => [
      ...named(`${f}.medial`, construct[f].medial),
      ...named(`${f}.lateral`, construct[f].lateral),
    ]),
  ];
}

function gapsOf(plan: Plan): readonly Named<number>[] {
  const effect = best(plan)?.effect;
  if (!effect) return [];
  return (['extensionLaxityMm', 'flexionLaxityMm'] as const).flatMap((when) =>
    (['medial', 'lateral'] as const).map((side) => ({
      field: `effect.${when}.${side}`,
      label: `${when === 'extensionLaxityMm' ? 'Extension' : 'Flexion'} gap, ${side}`,
      value: effect[when][side],
      unit: 'mm',
    })),
  );
}

function costOf(plan: Plan): readonly Named<number>[] {
  const solved = best(plan);
  return solved ? [{ field: 'cost', label: 'Cost of the construct', value: solved.cost, unit: '' }] : [];
}

const measuredIn = (plan: Plan): readonly Named<number>[] =>
  plan.measurements.flatMap((m) =>
    m.value === null
      ? []
      : [
          {
            field: `measurements.${m.side}.${m.id}`,
            label: `${m.label}, ${m.side}`,
            value: m.value,
            unit: m.unit === '1' ? '' : m.unit,
          },
        ],
  );

function numbers(about: PlanChange['about'], pair: Two<readonly Named<number>[]>): PlanChange[] {
  return paired(about, pair).filter(
    ({ before, after }) => before === null || after === null || Math.abs(Number(after) - Number(before)) >= SHOWN_STEP,
  );
}

const texts = (pair: Two<readonly Named<string>[]>): PlanChange[] =>
  paired('component', pair).filter(({ before, after }) => before !== after);

/** Both lists matched by field: those of the second in its order, then those that are gone. */
function paired(about: PlanChange['about'], [first, second]: Two<readonly Named<string | number>[]>): PlanChange[] {
  const before = new Map(first.map((n) => [n.field, n]));
  const kept = second.map(({ field, label, value, unit }) => ({
    about,
    field,
    label,
    before: before.get(field)?.value ?? null,
    after: value,
    unit,
  }));
  const now = new Set(second.map((n) => n.field));
  const gone = first.filter((n) => !now.has(n.field));
  return [...kept, ...gone.map(({ value, ...n }) => ({ about, ...n, before: value, after: null }))];
}

function words(about: PlanChange['about'], [first, second]: Two<readonly string[]>): PlanChange[] {
  const change = (text: string, isNew: boolean): PlanChange => ({
    about,
    field: about,
    label: text,
    before: isNew ? null : text,
    after: isNew ? text : null,
    unit: '',
  });
  return [
    ...second.filter((t) => !first.includes(t)).map((t) => change(t, true)),
    ...first.filter((t) => !second.includes(t)).map((t) => change(t, false)),
  ];
}
