import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { BoneState } from '@gapline/core/gaps/bone-state.ts';
import type { Construct } from '@gapline/core/gaps/construct.ts';
import { distalLadder, insertLadder, withDistalAugments, withInsert } from '@gapline/core/gaps/swap-part.ts';
import type { MidFlexionExcess } from '@gapline/core/gaps/through-the-arc.ts';
import { useMemo } from 'react';
import { useDesk, useDeskState, usePlanning } from '../../case/desk.tsx';
import { number, signed } from '../../parts/words.ts';
import { SurpriseSection } from '../SurpriseSection.tsx';
import type { SurpriseStanding } from '../standing.ts';
import { ArcChart, arcRange } from './ArcChart.tsx';
import { type ArcReading, costChanges, readArc } from './arc-reading.ts';
import { Stepper } from './Stepper.tsx';

/** Laxity from 0 to 120 degrees, and what another insert or augment would make of it. */
export function ArcSection() {
  const construct = usePlanning((s) => s.plan.construct);
  const bone = usePlanning((s) => s.plan.bone);
  const catalogue = usePlanning((s) => s.catalogue);
  const weights = usePlanning((s) => s.of.settings?.weights);
  const best = construct.kind === 'solved' ? construct.answer.best.construct : null;
  const state = bone.ok ? bone.value.state : null;
  const plan = useMemo(
    () => (best && state && catalogue ? readArc(best, { state, catalogue, weights }) : null),
    [best, state, catalogue, weights],
  );
  return (
    <SurpriseSection id="arc" title="Arc of motion" standing={arcStanding(plan)}>
      {best && state && catalogue && plan ? (
        <Arc {...{ best, state, catalogue, plan }} />
      ) : (
        <p>The arc is drawn once a construct is proposed.</p>
      )}
    </SurpriseSection>
  );
}

function arcStanding(plan: ArcReading | null): SurpriseStanding {
  if (!plan) return { is: 'open', line: 'No construct yet' };
  const { excess, worst } = plan.curve;
  const words = excessWords(excess);
  return worst.beyondMm >= SHOWN_MM
    ? {
        is: 'conflict',
        line: `${words}; ${worst.side} ${number(worst.beyondMm)} mm outside its band at ${worst.flexionDeg}°`,
      }
    : { is: 'settled', line: `${words}; within its bands` };
}

/** Less than this is shown as nothing. */
const SHOWN_MM = 0.05;

const excessWords = ({ excessMm, flexionDeg }: MidFlexionExcess): string =>
  excessMm < SHOWN_MM ? 'No mid-flexion excess' : `Mid-flexion excess ${number(excessMm)} mm at ${flexionDeg}°`;

interface ArcProps {
  readonly best: Construct;
  readonly state: BoneState;
  readonly catalogue: Catalogue;
  readonly plan: ArcReading;
}

function Arc({ best, state, catalogue, plan }: ArcProps) {
  const desk = useDesk();
  const onTrial = useDeskState((s) => s.onTrial);
  const weights = usePlanning((s) => s.of.settings?.weights);
  const shown = onTrial?.construct ?? best;
  const now = useMemo(
    () => (shown === best ? plan : readArc(shown, { state, catalogue, weights })),
    [shown, best, plan, state, catalogue, weights],
  );
  const inserts = useMemo(() => insertLadder(shown, catalogue), [shown, catalogue]);
  const augments = useMemo(() => distalLadder(shown, catalogue), [shown, catalogue]);
  const tryOut = (construct: Construct): void => {
    const differs = inWords(best, construct, catalogue);
    desk.state.setState({ onTrial: differs === '' ? null : { construct, words: `Tried: ${differs}` } });
  };
  const { excess } = now.curve;
  const before = shown === best ? null : plan.curve;
  const range = useMemo(() => arcRange([now.curve, before]), [now.curve, before]);
  const at = inserts.findIndex((i) => i.ref === shown.insert);
  const under = augments.findIndex((s) => s.byMm === 0);
  const insertStep = (by: number) => {
    const next = inserts[at + by];
    return at >= 0 && next ? () => tryOut(withInsert(shown, next.ref)) : null;
  };
  const augmentStep = (by: number) => {
    const next = augments[under + by];
    return under >= 0 && next ? () => tryOut(withDistalAugments(shown, next)) : null;
  };
  return (
    <>
      <div className="arc-lead">
        <p className="arc-number">
          <strong className="class-big">{number(excess.excessMm)}</strong> mm of mid-flexion excess
          <small>
            {excess.excessMm >= SHOWN_MM && `at ${excess.flexionDeg}°, `}
            beyond the straight line from 0° to 90°: what a raised joint line leaves slack
          </small>
        </p>
        <Stepper
          label="Insert"
          words={['thinner', 'thicker']}
          value={`${inserts[at]?.labelMm ?? '?'} mm`}
          less={insertStep(-1)}
          more={insertStep(1)}
        />
        <Stepper
          label="Distal augments, both sides"
          words={['thinner', 'thicker']}
          value={augmentWords(augments[under]?.thicknessMm)}
          less={augmentStep(-1)}
          more={augmentStep(1)}
        />
      </div>
      <div className="arc-charts">
        <ArcChart side="medial" now={now.curve} plan={before} range={range} />
        <ArcChart side="lateral" now={now.curve} plan={before} range={range} />
      </div>
      <p className="arc-key">
        <span className="is-construct">with the construct</span>
        {shown !== best && <span className="is-plan">the plan</span>}
        <span className="is-target">surfaces on target</span>
        <span className="is-band">free of cost</span>
        <span className="is-excess">mid-flexion excess</span>
      </p>
      {shown !== best && (
        <TrialLine
          {...{ now, plan }}
          noStem={shown.femoralStem === null}
          onBack={() => desk.state.setState({ onTrial: null })}
        />
      )}
      <p className="table-note">
        Between 0° and 90° the slack on target is taken to run straight, and beyond 90° to stay (assumption).
      </p>
    </>
  );
}

const augmentWords = (mm: { readonly medial: number; readonly lateral: number } | undefined): string =>
  !mm
    ? 'none'
    : mm.medial === mm.lateral
      ? mm.medial === 0
        ? 'none'
        : `${mm.medial} mm`
      : `${mm.medial} / ${mm.lateral} mm`;

/** What is tried, in parts, against the plan; empty = nothing. */
function inWords(best: Construct, tried: Construct, catalogue: Catalogue): string {
  const insert = (c: Construct) => catalogue.inserts.find((i) => i.ref === c.insert)?.labelMm ?? c.insert;
  const distal = (c: Construct) => augmentWords(distalLadder(c, catalogue).find((s) => s.byMm === 0)?.thicknessMm);
  return [
    insert(best) === insert(tried) ? '' : `insert ${insert(tried)} instead of ${insert(best)} mm`,
    distal(best) === distal(tried) ? '' : `distal augments ${distal(tried)} instead of ${distal(best)}`,
  ]
    .filter(Boolean)
    .join(', ');
}

/** What the trial costs against the plan, and the way back. */
function TrialLine(props: {
  readonly now: ArcReading;
  readonly plan: ArcReading;
  readonly noStem: boolean;
  readonly onBack: () => void;
}) {
  const { now, plan, noStem, onBack } = props;
  const changes = costChanges(plan, now);
  return (
    <div className="trial-line" role="status">
      <p>
        <strong>A trial, not the plan.</strong> Cost {number(now.cost, '1')} against {number(plan.cost, '1')} of the
        plan ({signed(now.cost - plan.cost, '1')}).
        {changes.length > 0 && (
          <>
            {' '}
            {changes
              .slice(0, 3)
              .map((c) => `${c.label} ${signed(c.by, '1')}`)
              .join('; ')}
            .
          </>
        )}
        {noStem && ' An augment takes a stem with it: not counted here.'}
      </p>
      <button type="button" onClick={onBack}>
        Back to plan
      </button>
    </div>
  );
}
