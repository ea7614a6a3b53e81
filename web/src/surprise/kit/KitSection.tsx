import type { SurpriseKit } from '@gapline/core/plan/surprise.ts';
import { counted, money, pct } from '@gapline/core/plan/told/shares.ts';
import { proof } from '@gapline/core/plan/told/three-lines.ts';
import { useSession } from '../../case/desk.tsx';
import { useSlot } from '../../work-up/slot.ts';
import { useForecasting, useRoom } from '../forecast/forecasting-context.tsx';
import { SurpriseSection } from '../SurpriseSection.tsx';
import { CoverageCurve, sameRoom } from './CoverageCurve.tsx';
import { KitChoices } from './KitChoices.tsx';
import { KitOutput } from './KitOutput.tsx';
import { kitStanding } from './kit-standing.ts';
import { SetTable } from './SetTable.tsx';
import { StockBox } from './StockBox.tsx';
import { UncoveredStates } from './Uncovered.tsx';
import { WithoutSets } from './WithoutSets.tsx';

/** Which sets must be in the room: what is proposed, what each adds, what stays without an answer. */
export function KitSection() {
  const kit = useForecasting((s) => s.answer?.kit ?? null);
  const fault = useRoom((s) => s.fault);
  return (
    <SurpriseSection id="kit" title="Kit" standing={kitStanding(kit)}>
      <KitChoices />
      {fault && <p className="warning">{fault}</p>}
      {kit && !kit.ok && kit.reason.code !== 'being-weighed' && (
        <p className="warning">
          {kit.reason.message} {kit.reason.mend}
        </p>
      )}
      {(kit === null || (!kit.ok && kit.reason.code === 'being-weighed')) && (
        <p role="status">The sets are being weighed …</p>
      )}
      {kit?.ok &&
        kit.warnings.map((w) => (
          <p key={w.code} className="caution-line">
            {w.message} {w.mend}
          </p>
        ))}
      {kit?.ok && <Kit kit={kit.value} />}
      <StockBox />
    </SurpriseSection>
  );
}

function Kit({ kit }: { readonly kit: SurpriseKit }) {
  const bring = useSlot<readonly string[]>('/kit/bring');
  const missing = useSlot<readonly string[]>('/kit/missing');
  const { proposed, decided, without, currency } = kit;
  // What is ticked shows at once; what it does follows with the next answer.
  const brought = bring.value ?? proposed.bring;
  const names = new Map(proposed.sets.map((s) => [s.ref, s.name]));
  const nameOf = (ref: string): string => names.get(ref) ?? ref;
  const decide = (next: readonly string[]): void => {
    bring.set(sameRoom(next, proposed.bring) ? undefined : inListOrder(next, kit));
  };
  const gone = new Set(missing.value ?? []);
  return (
    <>
      <Summary kit={kit} byHand={bring.value !== undefined} onPropose={() => bring.set(undefined)} />
      <PlanLacks kit={kit} onBring={(sets) => decide([...new Set([...brought, ...sets])])} />
      <CoverageCurve
        curve={proposed.curve}
        chosen={decided}
        asked={proposed.asked}
        currency={currency}
        nameOf={nameOf}
        onChoose={(step) => decide(step.bring)}
      />
      <h3>Sets</h3>
      <SetTable
        sets={decided.sets}
        brought={new Set(brought)}
        missing={gone}
        currency={currency}
        onBring={(ref, yes) => decide(yes ? [...brought, ref] : brought.filter((b) => b !== ref))}
        onMissing={(ref, yes) => {
          const next = yes ? [...gone, ref] : [...gone].filter((m) => m !== ref);
          missing.set(next.length === 0 ? undefined : next);
        }}
      />
      <KitOutput bring={brought} />
      <h3>Without an answer in this room</h3>
      <UncoveredStates
        uncovered={decided.uncovered}
        nameOf={nameOf}
        onBring={(refs) => decide([...brought, ...refs.filter((r) => !brought.includes(r))])}
      />
      {without.length > 0 && <h3>If a set does not arrive</h3>}
      <WithoutSets without={without} currency={currency} nameOf={nameOf} />
      <p className="caution-line">
        The shares come from drawn knees and stated spreads. They order the sets; the surgeon decides what is brought.
      </p>
    </>
  );
}

/** What the planned construct needs and the room does not hold, with a press that brings it (KIT-15). */
function PlanLacks({
  kit,
  onBring,
}: {
  readonly kit: SurpriseKit;
  readonly onBring: (sets: readonly string[]) => void;
}) {
  const { planLacks } = kit;
  if (planLacks.length === 0) return null;
  const sets = [...new Set(planLacks.flatMap((lack) => lack.sets[0] ?? []))];
  return (
    <p className="warning">
      Planned, and not in this room: {planLacks.map((lack) => lack.name).join('; ')}. The room answers with other parts.{' '}
      {sets.length > 0 && (
        <button type="button" onClick={() => onBring(sets)}>
          Bring what the plan needs ({sets.join(', ')})
        </button>
      )}
    </p>
  );
}

const inListOrder = (refs: readonly string[], { proposed }: SurpriseKit): readonly string[] =>
  proposed.sets.map((s) => s.ref).filter((ref) => refs.includes(ref));

interface SummaryProps {
  readonly kit: SurpriseKit;
  readonly byHand: boolean;
  readonly onPropose: () => void;
}

function Summary({ kit, byHand, onPropose }: SummaryProps) {
  const { proposed, decided, currency } = kit;
  const draws = useForecasting((s) => (s.answer?.forecast.ok ? s.answer.forecast.value.forecast.draws : 0));
  const day = useSession((s) => s.shown.kit?.surgeryOn);
  return (
    <div className="kit-summary">
      <p>
        <strong className="big">{pct(decided.share)}</strong> of {counted(draws, 'drawn knee')} have an answer with{' '}
        {counted(decided.bring.length, 'set')} for {money(decided.cost, currency)}. {upper(proof(kit))}.
      </p>
      {byHand && (
        <p className="by-hand">
          <strong>Decided by hand.</strong> Proposed for {pct(proposed.asked)}: {counted(proposed.bring.length, 'set')},{' '}
          {money(proposed.cost, currency)}, an answer in {pct(proposed.share)}.{' '}
          <button type="button" onClick={onPropose}>
            Take the proposal
          </button>
        </p>
      )}
      {proposed.notes.map((note) => (
        // The share that cannot be reached is the one note that wants an answer.
        <p
          key={`${note.code} ${note.message}`}
          className={!proposed.reached && note.field === 'kit.sharePct' ? 'warning' : 'caution-line'}
        >
          {note.message} {note.mend}
        </p>
      ))}
      {day === undefined && <p className="caution-line">No day of surgery: order-by dates are not told.</p>}
    </div>
  );
}

const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
