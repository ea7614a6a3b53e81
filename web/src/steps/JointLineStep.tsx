import type { JointLineEstimate, RuleOfThumb } from '@gapline/core/joint-line/estimate-types.ts';
import { isLandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Ok, Outcome, Warning } from '@gapline/core/measure/outcome.ts';
import { useDesk, usePlanning } from '../case/desk.tsx';
import { ChoiceField, NumberField } from '../parts/fields.tsx';
import { number, signed, spread } from '../parts/words.ts';
import { OpinionChart } from './OpinionChart.tsx';

/** Where the joint line belongs: femoral and tibial estimate apart, every landmark's opinion, rules of thumb beside. */
export function JointLineStep() {
  const { femoral, tibial, rulesOfThumb } = usePlanning((s) => s.plan.jointLine);
  const alignment = usePlanning((s) => s.plan.alignment);
  return (
    <>
      <Estimate title="By the femur" outcome={femoral} />
      <Estimate title="By the tibia" outcome={tibial} />
      <RulesOfThumb rules={rulesOfThumb} />
      <details className="alignment">
        <summary>Alignment aimed at: {alignment.find((a) => a.chosen)?.label ?? 'none chosen'}</summary>
        <div className="fields">
          <ChoiceField
            label="Alignment"
            field="/settings/targetAlignment"
            none="not chosen: neutral"
            options={alignment.map((a) => [a.id, a.label])}
          />
          <NumberField label="Tibial slope" field="/settings/targetSlopeDeg" unit="°" hint="posterior down +" />
          <ChoiceField
            label="Ratios of the landmarks from"
            field="/settings/population"
            none="not chosen: all together"
            options={[
              ['pooled', 'all together'],
              ['european', 'European series'],
              ['chinese', 'Chinese series'],
            ]}
          />
        </div>
        <ul>
          {alignment.map((a) => (
            <li key={a.id}>
              <strong>{a.label}</strong>
              {a.chosen ? ' (chosen)' : ''}: {a.note} <small>{a.source}</small>
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}

function Estimate({ title, outcome }: { readonly title: string; readonly outcome: Outcome<JointLineEstimate> }) {
  if (!outcome.ok) {
    return (
      <div className="estimate is-none">
        <h3>{title}</h3>
        <p>
          {outcome.reason.message} {outcome.reason.mend}
        </p>
      </div>
    );
  }
  const e = outcome.value;
  const disagree = e.agreement?.disagree ?? false;
  return (
    <div className={`estimate${disagree ? ' disagrees' : ''}`}>
      <h3>{title}</h3>
      <p className="big-number">
        <span className="big">{number(Math.abs(e.shiftMm))}</span> mm {shiftWord(e.shiftMm)}
        <span className="big-spread">{spread(e.sdMm)} mm</span>
      </p>
      {warningsOf(outcome).map((w) => (
        <p key={w.message} className={w.code === 'landmarks-disagree' ? 'warning' : 'caution-line'}>
          {w.message} {w.mend}
          {w.code === 'landmarks-disagree' && e.agreement && ` (p = ${e.agreement.p.toFixed(3)})`}
        </p>
      ))}
      <OpinionChart estimate={e} />
      <Opinions estimate={e} />
    </div>
  );
}

/** The warnings of an estimate, each once. */
function warningsOf(outcome: Ok<JointLineEstimate>): readonly Warning[] {
  const all = [...outcome.value.warnings, ...outcome.warnings];
  return all.filter((w, i) => all.findIndex((other) => other.message === w.message) === i);
}

const shiftWord = (shift: number): string =>
  Math.abs(shift) < 0.05 ? 'off: it stands where it belongs' : shift > 0 ? 'too high (proximal)' : 'too low (distal)';

/** Each landmark's opinion as a row: what it says alone, its weight, and the estimate without it. */
function Opinions({ estimate }: { readonly estimate: JointLineEstimate }) {
  const { state } = useDesk();
  return (
    <details className="opinions">
      <summary>What each landmark says</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">Landmark</th>
            <th scope="col">Line belongs</th>
            <th scope="col">Weight</th>
            <th scope="col">Without it</th>
          </tr>
        </thead>
        <tbody>
          {estimate.opinions.map((o) => (
            <tr
              key={`${o.id} ${o.film}`}
              onPointerEnter={() =>
                state.setState({ pointedAt: { layer: null, landmarks: isLandmarkId(o.id) ? [o.id] : [] } })
              }
              onPointerLeave={() => state.setState({ pointedAt: null })}
            >
              <th scope="row">
                {o.label}
                <small>
                  {o.rule}; {o.source}
                </small>
              </th>
              <td>{signed(o.heightMm)} mm</td>
              <td>{number(100 * o.weight, '%')} %</td>
              <td>{o.leaveOneOutMm === null ? 'alone' : `${signed(o.leaveOneOutMm)} mm`}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="table-note">
        Heights over the present line, + = proximal. Landmarks err together: correlation{' '}
        {estimate.correlations.withinFemur} within the femur, {estimate.correlations.withinTibia} within the tibia,{' '}
        {estimate.correlations.across} across; an assumption, not a measurement.
      </p>
    </details>
  );
}

function RulesOfThumb({ rules }: { readonly rules: readonly RuleOfThumb[] }) {
  if (rules.length === 0) return null;
  return (
    <details className="thumb">
      <summary>Rules of thumb, for comparison</summary>
      <ul>
        {rules.map((r) => (
          <li key={r.id}>
            <strong>{r.label}</strong>
            <span>
              {r.heightMm === null ? (r.cannot?.message ?? 'not known') : `line belongs ${signed(r.heightMm)} mm`}
            </span>
          </li>
        ))}
      </ul>
      <p className="table-note">Common practice, no source. Shown beside the estimate, never weighted in it.</p>
    </details>
  );
}
