import { type HostFactor, type HostFactorId, type HostFinding, hostFindings } from '@gapline/core/host/optimise.ts';
import { bodyMassIndex, type History } from '@gapline/core/work-up/history.ts';
import { DayLine, NumberLine } from './inputs.tsx';
import { useSlot } from './slot.ts';

const BODY_MASS = ['bmi-high', 'bmi-low'] as const;
const isBodyMass = (id: string): boolean => BODY_MASS.some((b) => b === id);

/** What can be made better before the operation: thresholds against the patient's values. */
export function HostBlock() {
  const history = useSlot<History>('/workUp/history').value ?? {};
  const bmi = bodyMassIndex(history.heightCm, history.weightKg);
  const values = { ...(bmi === null ? {} : { 'bmi-high': bmi, 'bmi-low': bmi }), ...history.hostValues };
  const findings = hostFindings(values, history.surgeryOn ?? null);
  const act = findings.filter((f) => f.standing === 'act').length;
  const unknown = findings.filter((f) => f.standing === 'not-known').length;
  return (
    <details className="fold block">
      <summary>
        <h3>Make the patient fitter first</h3>
        <span className="fold-said">
          {act} to act on, {unknown} not known
        </span>
      </summary>
      <div className="pairs">
        <DayLine label="Day of surgery, if booked" slot={useSlot('/workUp/history/surgeryOn')} />
      </div>
      <div className="host-list">
        {findings.map((f) => (
          <HostLine key={f.factor.id} finding={f} />
        ))}
      </div>
    </details>
  );
}

function HostLine({ finding: { factor, standing, value, beginBy } }: { readonly finding: HostFinding }) {
  const slot = useSlot<number>(`/workUp/history/hostValues/${factor.id as HostFactorId}`);
  return (
    <div className={`host-line is-${standing}`}>
      {isBodyMass(factor.id) ? (
        <p className="host-derived">
          {factor.label}: {value === null ? 'height and weight not known' : `${value.toFixed(1)} ${factor.unit}`}
        </p>
      ) : (
        <NumberLine label={factor.label} unit={factor.unit} slot={slot} />
      )}
      <p>
        {standing === 'act' && (
          <>
            <strong>Act:</strong> {factor.correct}
            {beginBy && ` Begin by ${beginBy}.`}
          </>
        )}
        {standing === 'fine' && 'Fine.'}
        {standing === 'not-known' && `Not known; acts ${limitOf(factor)}.`}
        <small>
          {' '}
          Limit: {limitOf(factor)}. {factor.source}
        </small>
      </p>
    </div>
  );
}

const limitOf = (f: HostFactor): string => `${f.actWhen === 'at-least' ? 'from' : 'below'} ${f.limit} ${f.unit}`;
