import type { Construct } from '../gaps/construct.ts';
import { halfShown } from '../measure/number-words.ts';
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
  /** Standard deviation of what was measured, in the same unit; the newer one where both are known. */
  readonly sd?: number;
}

/**
 * What a change of the case changed in the plan (PLAN-19): joint line, components, gaps, cost, measurements, and what is newly missing or in
 * conflict or no longer so; in this order, each with before and after. Empty when nothing that is shown changed; what is
 * smaller than half of the last digit shown is rounding.
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
  readonly sd?: number;
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
  ['level', 'Constraint'],
  ['femur', 'Femoral component'],
  ['tray', 'Tray'],
  ['insert', 'Insert'],
  ['femoralStem', 'Femoral stem'],
  ['femoralOffset', 'Femoral offset coupler'],
  ['tibialStem', 'Tibial stem'],
  ['tibialOffset', 'Tibial offset coupler'],
  ['femoralCone', 'Femoral cone'],
  ['tibialCone', 'Tibial cone'],
  ['femoralSleeve', 'Femoral sleeve'],
  ['tibialSleeve', 'Tibial sleeve'],
] as const;
const PAIRS = [
  ['distalAugments', 'Distal augment'],
  ['posteriorAugments', 'Posterior augment'],
  ['tibialAugments', 'Tibial block'],
] as const;

function partsOf(plan: Plan): readonly Named<string>[] {
  const construct: Construct | undefined = best(plan)?.construct;
  if (!construct) return [];
  const named = (field: string, label: string, value: string | null | undefined): Named<string>[] =>
    value ? [{ field: `construct.${field}`, label, value, unit: '' }] : [];
  return [
    ...SIMPLE.flatMap(([f, label]) => named(f, label, construct[f])),
    ...PAIRS.flatMap(([f, label]) => [
      ...named(`${f}.medial`, `${label}, medial`, construct[f].medial),
      ...named(`${f}.lateral`, `${label}, lateral`, construct[f].lateral),
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
  return solved ? [{ field: 'cost', label: 'Cost of the construct', value: solved.cost, unit: 'cost' }] : [];
}

const measuredIn = (plan: Plan): readonly Named<number>[] =>
  plan.measurements.flatMap((m) =>
    m.value === null
      ? []
      : [
          {
            field: `measurements.${[m.side, m.id, ...(m.film ? [m.film] : [])].join('.')}`,
            label: `${m.label}, ${m.side}`,
            value: m.value,
            unit: m.unit,
            ...(m.sd === null ? {} : { sd: m.sd }),
          },
        ],
  );

function numbers(about: PlanChange['about'], pair: Two<readonly Named<number>[]>): PlanChange[] {
  return paired(about, pair).filter(
    ({ before, after, unit }) =>
      before === null || after === null || Math.abs(Number(after) - Number(before)) >= halfShown(unit),
  );
}

const texts = (pair: Two<readonly Named<string>[]>): PlanChange[] =>
  paired('component', pair).filter(({ before, after }) => before !== after);

/** Both lists matched by field: those of the second in its order, then those that are gone. */
function paired(about: PlanChange['about'], [first, second]: Two<readonly Named<string | number>[]>): PlanChange[] {
  const before = new Map(first.map((n) => [n.field, n]));
  const kept = second.map(({ value, ...n }) => ({
    about,
    ...n,
    before: before.get(n.field)?.value ?? null,
    after: value,
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
