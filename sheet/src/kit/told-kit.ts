import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { bailOutWords } from '@gapline/core/forecast/bail-out-words.ts';
import type { KitAnswer, KitWorth, Uncovered } from '@gapline/core/kit/kit-answer.ts';
import type { SetList } from '@gapline/core/kit/set-list.ts';
import type { Outcome, Reason } from '@gapline/core/measure/outcome.ts';
import { cannot, ok } from '@gapline/core/measure/outcome.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { PlanLack } from '@gapline/core/plan/plan-lacks.ts';
import type { SurpriseAnswer, SurpriseKit } from '@gapline/core/plan/surprise.ts';
import { counted, money, pct } from '@gapline/core/plan/told/shares.ts';
import { threeLines } from '@gapline/core/plan/told/three-lines.ts';
import type { KitListContent, KitListRow } from './kit-list-content.ts';

export interface ToldFrom {
  readonly file: CaseFile;
  readonly answer: SurpriseAnswer;
  readonly catalogue: Catalogue;
  readonly setList: SetList;
}

/**
 * What the kit list of a case says, in words. Refused where forecast or kit could not be made: a paper without a
 * reckoning would be taken for one.
 */
export function toldKit({ file, answer, catalogue, setList }: ToldFrom): Outcome<KitListContent> {
  const { kit, forecast } = answer;
  if (!kit.ok) return cannot(kit.reason);
  if (!forecast.ok) return cannot(forecast.reason);
  const { decided, proposed, without, currency } = kit.value;
  const { seed, draws, notStated, bailOuts } = forecast.value.forecast;
  const brought = decided.sets.filter((s) => s.brought);
  return ok({
    hospital: setList.name,
    invented: setList.invented,
    surgeryOn: file.kit?.surgeryOn ?? null,
    lead: threeLines({ plan: answer.plan, catalogue, answer: { of: answer, catalogue } }).map(
      ({ label, figure, head, more }) =>
        `${label}: ${[figure, head].filter(Boolean).join(' ')}${more.length > 0 ? ` (${more.join('; ')})` : ''}`,
    ),
    sets: brought.map((set) => rowOf(set, currency)),
    left: leftOut(decided.sets, proposed),
    uncovered: decided.uncovered.map(uncoveredWords),
    bailOuts: bailOutWords(bailOuts).map(
      ({ when, doing, share }) => `${when === '' ? 'Always' : capital(when)}: ${doing} (${pct(share)})`,
    ),
    missing: without.filter((w) => brought.some((s) => s.ref === w.ref && s.owner === 'loan')).map((w) => w.words),
    cautions: [
      ...kit.value.planLacks.map(lackWords),
      ...reasonsOf(kit.value, kit.warnings),
      ...notStated.map((n) => `${n.what}.`),
    ],
    reckoned: `Shares are of ${counted(draws, 'knee')} drawn from the stated spreads, and no forecast was checked against operations. Seed ${seed}; sets of ${setList.id}; core ${answer.plan.versions.core}.`,
  });
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function rowOf(set: KitWorth, currency: string): KitListRow {
  return {
    ref: set.ref,
    name: set.name,
    owner: set.owner === 'loan' ? 'loan' : 'own shelf',
    trays: set.trays,
    cost: money(set.cost, currency),
    orderBy: set.orderBy ?? '',
    late: set.late,
    adds: pct(set.adds),
  };
}

/** Sets that are left, those that would add most first; sets that add nothing are only counted. */
function leftOut(sets: readonly KitWorth[], proposed: KitAnswer): readonly string[] {
  const left = sets.filter((s) => !s.brought);
  const telling = left.filter((s) => s.adds > 0).toSorted((a, b) => b.adds - a.adds || (a.ref < b.ref ? -1 : 1));
  const wanted = new Set(proposed.bring);
  const lines = telling.map(
    (s) => `${s.name} (${s.ref}) would add ${pct(s.adds)}${wanted.has(s.ref) ? ', and is proposed' : ''}.`,
  );
  const idle = left.length - telling.length;
  return idle > 0 ? [...lines, `${counted(idle, 'set')} of the list would add nothing.`] : lines;
}

const lackWords = ({ name, sets }: PlanLack): string =>
  `Planned, and not in this room: ${name}${sets.length > 0 ? ` (in ${sets.join(' or ')})` : ' (in no set of the list)'}.`;

const uncoveredWords = ({ share, words, addition }: Uncovered): string =>
  `${pct(share)}: ${words}${addition && !words.includes(addition) ? `. It would take ${addition}` : ''}.`;

const reasonsOf = ({ proposed }: SurpriseKit, warnings: readonly Reason[]): readonly string[] =>
  [...proposed.notes, ...warnings].map(({ message, mend }) => [message, mend].filter(Boolean).join(' '));
