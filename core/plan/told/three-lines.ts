import type { Catalogue } from '../../catalogue/catalogue.ts';
import { differsInWords } from '../../forecast/differs-in-words.ts';
import type { Forecast } from '../../forecast/forecast-types.ts';
import type { Construct } from '../../gaps/construct.ts';
import type { Plan } from '../plan.ts';
import type { SurpriseAnswer, SurpriseKit } from '../surprise.ts';
import { constructWords } from './construct-words.ts';
import { counted, money, pct } from './shares.ts';

/** One of the three lines that lead the page. */
export interface LeadLine {
  readonly id: 'likely' | 'sure' | 'room';
  readonly label: string;
  /** In large type. */
  readonly head: string;
  /** The figure before it, in larger type still. */
  readonly figure?: string;
  readonly more: readonly string[];
  /** Section that opens from the line. */
  readonly opens: string;
  readonly open: boolean;
}

/** What the lines are told from; the answer is the last one that came, or none yet. */
export interface Told {
  readonly plan: Plan;
  readonly catalogue: Catalogue | null;
  readonly answer: { readonly of: SurpriseAnswer; readonly catalogue: Catalogue | null } | null;
}

/** What will most likely be done, how sure that is, and what must be in the room. */
export const threeLines = (told: Told): readonly LeadLine[] => [likely(told), sure(told), room(told)];

function likely({ plan, catalogue, answer }: Told): LeadLine {
  const line = { id: 'likely', label: 'Most likely', opens: 'becomes' } as const;
  const most = answer?.of.forecast.ok ? answer.of.forecast.value.forecast.most : null;
  if (most && answer?.catalogue) {
    const { head, parts } = constructWords(most.construct, answer.catalogue);
    const often = `the best in ${pct(most.share)} of drawn knees, more than any other`;
    return { ...line, head, more: [often, ...parts], open: false };
  }
  if (plan.construct.kind === 'solved' && catalogue) {
    const { head, parts } = constructWords(plan.construct.answer.best.construct, catalogue);
    return { ...line, head, more: ['for the bone as it is expected', ...parts], open: false };
  }
  const why =
    plan.construct.kind === 'not-attempted'
      ? plan.construct.because.map((b) => b.what)
      : plan.construct.kind === 'infeasible'
        ? plan.construct.why.clashes.map((c) => c.message)
        : [];
  const head = plan.construct.kind === 'infeasible' ? 'Nothing in the catalogue fits' : 'No construct yet';
  return { ...line, head, more: why.slice(0, 3), open: true };
}

function sure({ answer }: Told): LeadLine {
  const line = { id: 'sure', label: 'How sure', opens: 'bail-outs' } as const;
  if (!answer) return { ...line, head: 'Not reckoned yet', more: [], open: true };
  if (!answer.of.forecast.ok) {
    const { reason } = answer.of.forecast;
    const asked = answer.of.missing.map((m) => m.what);
    return { ...line, head: reason.message, more: asked.slice(0, 3), open: true, opens: 'becomes' };
  }
  const { forecast, first } = answer.of.forecast.value;
  return {
    ...line,
    figure: pct(forecast.firstHolds),
    head: 'of drawn knees keep the plan',
    more: [
      `${counted(forecast.draws, 'knee')} drawn`,
      ...wider(forecast, { first, catalogue: answer.catalogue }),
      ...events(forecast),
    ],
    open: false,
  };
}

/** Another construct that would do in more knees than the plan does. */
function wider(
  { widest, firstHolds }: Forecast,
  { first, catalogue }: { readonly first: Construct | null; readonly catalogue: Catalogue | null },
): readonly string[] {
  if (!widest || !first || !catalogue || widest.share <= firstHolds) return [];
  return [`another would do in ${pct(widest.share)}: ${differsInWords(widest.construct, first, catalogue)}`];
}

const events = (forecast: Forecast): readonly string[] =>
  (
    [
      [forecast.noConstruct, 'without any construct'],
      [forecast.fracture, 'with a fracture'],
      [forecast.infection, 'infected unexpectedly'],
    ] as const
  ).flatMap(([share, words]) => (share > 0 ? [`${pct(share)} ${words}`] : []));

function room({ answer }: Told): LeadLine {
  const line = { id: 'room', label: 'In the room', opens: 'kit' } as const;
  if (!answer) return { ...line, head: 'Not reckoned yet', more: [], open: true };
  if (!answer.of.kit.ok) {
    const { message, mend } = answer.of.kit.reason;
    return { ...line, head: message, more: mend ? [mend] : [], open: true };
  }
  const { value: kit, warnings } = answer.of.kit;
  const cautions = warnings.map(({ message }) => message.charAt(0).toLowerCase() + message.slice(1).replace(/\.$/, ''));
  const { decided } = kit;
  return {
    ...line,
    figure: String(decided.bring.length),
    head: `${decided.bring.length === 1 ? 'set' : 'sets'}, ${money(decided.cost, kit.currency)}: an answer in ${pct(decided.share)} of drawn knees`,
    more: [...lacks(kit), ...orders(kit), ...cautions, proof(kit)],
    open: !kit.isDecided && !kit.proposed.reached,
  };
}

/** Whether the construct planned can be built from the room as it stands (KIT-15). */
export const lacks = ({ planLacks }: SurpriseKit): readonly string[] =>
  planLacks.length === 0 ? [] : [`not in it, though planned: ${planLacks.map((p) => p.name).join('; ')}`];

/** What has to be ordered, and by when first. */
function orders({ decided }: SurpriseKit): readonly string[] {
  const loans = decided.sets.filter((s) => s.brought && s.owner === 'loan');
  if (loans.length === 0) return ['nothing on loan'];
  const days = loans.flatMap((s) => s.orderBy ?? []).toSorted();
  const late = loans.filter((s) => s.late).length;
  const first = days[0] ? `, the first to order by ${days[0]}` : ', no day of surgery set';
  return [`${loans.length} on loan${first}${late > 0 ? `, ${late} too late` : ''}`];
}

/** Whether a cheaper room could do as much. */
export function proof({ proposed, isDecided, decided, currency }: SurpriseKit): string {
  if (isDecided && decided.cost !== proposed.cost)
    return `decided by hand; proposed: ${money(proposed.cost, currency)}`;
  if (!proposed.reached) return `${pct(proposed.asked)} cannot be reached with these sets`;
  if (proposed.proven) return 'proven: no cheaper room answers as many';
  return `not proven yet: a room from ${money(proposed.leastCost, currency)} might do as well`;
}
