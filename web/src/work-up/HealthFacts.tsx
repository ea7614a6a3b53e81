import { CARDIAC_EVENTS, CARDIAC_RISK_ITEMS, cardiacRisk } from '@gapline/core/host/cardiac-risk.ts';
import { CHARLSON_ITEMS, charlson } from '@gapline/core/host/charlson.ts';
import { bodyMassIndex, DRUG_ITEMS, type History } from '@gapline/core/work-up/history.ts';
import { useSession } from '../case/desk.tsx';
import { Fold, NumberLine, TextArea } from './inputs.tsx';
import { today } from './reading.tsx';
import { useSlot } from './slot.ts';
import { TriList } from './Tri.tsx';
import { yearsBetween } from './years.ts';

export function ComorbidityFacts() {
  const history = useSlot<History>('/workUp/history').value ?? {};
  const birth = useSession((s) => s.shown.patient.birthDate);
  const age = birth === undefined ? null : yearsBetween(birth, today());
  const index = charlson(history.charlson ?? {}, age);
  const cardiac = cardiacRisk(history.cardiac ?? {});
  return (
    <Fold
      title="Other illness"
      said={index.ok ? `Charlson ${range(index.value.points, index.value.pointsAtMost)}` : ''}
    >
      <TriList name="other illness" at="/workUp/history/charlson" items={CHARLSON_ITEMS} />
      <p className="said-line">
        {index.ok ? (
          <>
            Charlson index <strong>{range(index.value.points, index.value.pointsAtMost)}</strong>
            {index.value.agePoints === null
              ? '; age not known'
              : `, with age ${range(index.value.points + index.value.agePoints, index.value.pointsAtMost + index.value.agePoints)}`}
            {index.value.tenYearSurvival !== null &&
              `; ten-year survival in the cohort of 1987: ${Math.round(100 * index.value.tenYearSurvival)} %`}
            .
          </>
        ) : (
          index.reason.message
        )}
      </p>
      <h4>Heart risk at operation</h4>
      <TriList name="heart risk" at="/workUp/history/cardiac" items={CARDIAC_RISK_ITEMS} />
      <p className="said-line">
        RCRI <strong>{range(cardiac.index, cardiac.indexAtMost)}</strong>; major events by series:{' '}
        {CARDIAC_EVENTS.map((e) => `${e.percent[Math.min(3, cardiac.index)]} % (${e.source})`).join('; ')}.
      </p>
    </Fold>
  );
}

export function BodyFacts() {
  const history = useSlot<History>('/workUp/history').value ?? {};
  const asa = useSlot<1 | 2 | 3 | 4 | 5>('/workUp/history/asa');
  const bmi = bodyMassIndex(history.heightCm, history.weightKg);
  return (
    <Fold title="Body and drugs" said={bmi === null ? undefined : `BMI ${bmi.toFixed(1)}`}>
      <div className="pairs">
        <NumberLine label="Height" unit="cm" slot={useSlot('/workUp/history/heightCm')} />
        <NumberLine label="Weight" unit="kg" slot={useSlot('/workUp/history/weightKg')} />
        <NumberLine
          label="ASA class"
          hint="1 to 5"
          slot={{ value: asa.value, set: (next, how) => asa.set(next as typeof asa.value, how) }}
        />
        <p className="said-line">Body mass index {bmi === null ? 'not known' : `${bmi.toFixed(1)} kg/m²`}</p>
      </div>
      <TriList name="drugs and allergies" at="/workUp/history/drugs" items={DRUG_ITEMS} />
      <TextArea label="Drugs and allergies by name" slot={useSlot('/workUp/history/drugNotes')} />
    </Fold>
  );
}

/** One number, or what it lies between while answers are missing. */
const range = (least: number, most: number): string => (least === most ? String(least) : `${least} to ${most}`);
