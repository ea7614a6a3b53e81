import { type ComponentType, memo } from 'react';
import { usePlanning } from '../case/desk.tsx';
import { STANDING_WORDS, StandingShape } from '../parts/StandingShape.tsx';
import { BoneStep } from './BoneStep.tsx';
import { ConstructStep } from './ConstructStep.tsx';
import { FilmsStep } from './FilmsStep.tsx';
import { JointLineStep } from './JointLineStep.tsx';
import { MarksStep } from './MarksStep.tsx';
import { MeasurementsStep } from './MeasurementsStep.tsx';
import { PatientStep } from './PatientStep.tsx';
import { SheetStep } from './SheetStep.tsx';
import { STEPS, type Standing, type StepId, standings } from './standing.ts';

/** Each is drawn again only when what it reads itself has changed. */
const BODIES: Readonly<Record<StepId, ComponentType>> = {
  patient: memo(PatientStep),
  films: memo(FilmsStep),
  marks: memo(MarksStep),
  measurements: memo(MeasurementsStep),
  'joint-line': memo(JointLineStep),
  bone: memo(BoneStep),
  construct: memo(ConstructStep),
  sheet: memo(SheetStep),
};

/** The steps from top to bottom; each says in one line where it stands. */
export function Steps() {
  const plan = usePlanning((s) => s.plan);
  const file = usePlanning((s) => s.of);
  const all = standings(file, plan);
  return (
    <>
      <nav className="step-rail" aria-label="Steps of the case">
        {STEPS.map((step, i) => (
          <a
            key={step.id}
            href={`#step-${step.id}`}
            title={`${step.title}: ${STANDING_WORDS[all[step.id].is]}`}
            onClick={(event) => {
              // The address keeps the case; the step is only scrolled to.
              event.preventDefault();
              const section = document.getElementById(`step-${step.id}`);
              section?.scrollIntoView({ block: 'start' });
              section?.querySelector<HTMLElement>('h2')?.focus({ preventScroll: true });
            }}
          >
            <StandingShape is={all[step.id].is} />
            <span className="step-rail-number">{i + 1}</span>
            <span className="unseen">
              {step.title}, {STANDING_WORDS[all[step.id].is]}
            </span>
          </a>
        ))}
      </nav>
      {STEPS.map((step, i) => {
        const Body = BODIES[step.id];
        const standing = all[step.id];
        return (
          <section
            key={step.id}
            id={`step-${step.id}`}
            className={`step is-${standing.is}`}
            aria-labelledby={`title-${step.id}`}
          >
            <h2 id={`title-${step.id}`} tabIndex={-1}>
              <span className="step-number">{i + 1}</span> {step.title}
            </h2>
            <p className="standing">
              <StandingShape is={standing.is} />
              <span className="standing-word">{STANDING_WORDS[standing.is]}</span> {standing.line}
            </p>
            <StandingDetails standing={standing} />
            <Body />
          </section>
        );
      })}
    </>
  );
}

function StandingDetails({ standing }: { readonly standing: Standing }) {
  const { conflicts, missing } = standing;
  return (
    <>
      {(conflicts.length > 1 || conflicts.some((c) => c.mend)) && (
        <ul className="conflicts">
          {conflicts.map((c) => (
            <li key={`${c.code} ${c.field ?? ''} ${c.message}`}>
              {conflicts.length > 1 && c.message} {c.mend}
            </li>
          ))}
        </ul>
      )}
      {missing.length > 0 && (
        <details className="missing">
          <summary>
            {missing.length} not known, and what {missing.length === 1 ? 'it' : 'they'} would change
          </summary>
          <dl>
            {missing.map((m) => (
              <div key={`${m.field} ${m.what}`}>
                <dt>{m.what}</dt>
                <dd>{m.wouldChange}</dd>
              </div>
            ))}
          </dl>
        </details>
      )}
    </>
  );
}
