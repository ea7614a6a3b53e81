import type { Catalogue } from '../catalogue/catalogue.ts';
import { constructChanges } from '../gaps/construct-changes.ts';
import { numberInWords, withUnit } from '../measure/number-words.ts';
import { comparePlans, type PlanChange } from './compare-plans.ts';
import type { Plan } from './plan.ts';

/**
 * What differs between two plans, in plain words, weightiest first: the construct, what is newly in conflict or missing or
 * no longer so, gaps and cost, the joint line, then the measurements that moved most against their own spread.
 * Empty where nothing that is shown differs (PLAN-19).
 *
 * @param catalogue the one that both plans were made with; null = not the same one: then parts are told by reference.
 */
export function planChangesInWords(before: Plan, after: Plan, catalogue: Catalogue | null): readonly string[] {
  const changes = comparePlans(before, after);
  const about = (what: PlanChange['about']) => changes.filter((c) => c.about === what);
  const moved = about('measurement').toSorted((a, b) => bySpread(b) - bySpread(a));
  // Of a construct that came or went there is nothing to compare.
  const cost = before.construct.kind === after.construct.kind ? about('cost') : [];
  return [
    ...constructInWords(before, after, { components: about('component'), catalogue }),
    ...about('conflict').map((c) => comesOrGoes(c, ['In conflict', 'No longer in conflict'])),
    ...about('missing').map((c) => comesOrGoes(c, ['Missing', 'No longer missing'])),
    ...gapsInWords(before, after, about('gap')),
    ...[...cost, ...about('joint-line'), ...moved].map(fromTo),
  ];
}

const NOW = {
  solved: 'A construct is proposed now',
  infeasible: 'No construct fits any more',
  'not-attempted': 'No construct can be proposed any more',
};

function constructInWords(
  before: Plan,
  after: Plan,
  { components, catalogue }: { readonly components: readonly PlanChange[]; readonly catalogue: Catalogue | null },
): readonly string[] {
  const [a, b] = [before.construct, after.construct];
  if (a.kind !== b.kind) return [NOW[b.kind]];
  if (a.kind !== 'solved' || b.kind !== 'solved') return [];
  if (!catalogue) return components.map(fromTo);
  return constructChanges(a.answer.best.construct, b.answer.best.construct, catalogue);
}

const GAPS = [
  ['extensionLaxityMm', 'Extension gap'],
  ['flexionLaxityMm', 'Flexion gap'],
] as const;

/** Both sides of a gap of which either changed, in one line. */
function gapsInWords(before: Plan, after: Plan, changed: readonly PlanChange[]): readonly string[] {
  const [a, b] = [before.construct, after.construct];
  if (a.kind !== 'solved' || b.kind !== 'solved') return [];
  return GAPS.flatMap(([gap, label]) => {
    if (!changed.some(({ field }) => field.startsWith(`effect.${gap}.`))) return [];
    const of = ({ answer }: typeof a): string => {
      const { medial, lateral } = answer.best.effect[gap];
      return `${numberInWords(medial)} / ${numberInWords(lateral)}`;
    };
    return [`${label}, medial / lateral: ${of(a)} → ${of(b)} mm`];
  });
}

const worded = (value: PlanChange['before'], unit: string): string =>
  value === null ? '–' : typeof value === 'number' ? withUnit(value, unit) : value;

const fromTo = ({ label, before, after, unit }: PlanChange): string =>
  `${label}: ${worded(before, unit)} → ${worded(after, unit)}`;

const comesOrGoes = ({ label, after }: PlanChange, [comes, goes]: readonly [string, string]): string =>
  `${after === null ? goes : comes}: ${label}`;

/** How far a measurement moved, in its own standard deviations; what came or went stands before all that moved. */
const bySpread = ({ before, after, sd }: PlanChange): number =>
  typeof before === 'number' && typeof after === 'number'
    ? Math.abs(after - before) / (sd || 1)
    : Number.POSITIVE_INFINITY;
