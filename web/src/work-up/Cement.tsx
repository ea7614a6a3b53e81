import { CEMENT_AGENTS, NOT_IN_CEMENT, SALT_PER_BASE } from '@gapline/core/infection/cement/agents.ts';
import { candidateAgents, type Sensitivity } from '@gapline/core/infection/cement/candidate-agents.ts';
import { type CementDrug, cementLoad } from '@gapline/core/infection/cement/cement-load.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import { NumberLine, Pick } from './inputs.tsx';
import { useRecord } from './reading.tsx';
import { fieldOf, itemOf, type Slot, useSlot } from './slot.ts';

type Cement = NonNullable<WorkUp['cement']>;

const AGENTS = [
  ...CEMENT_AGENTS.map((a) => [a.id, a.label] as const),
  ...Object.keys(NOT_IN_CEMENT).map(
    (id) => [id, `${id.charAt(0).toUpperCase()}${id.slice(1)} (not in cement)`] as const,
  ),
];
const USES = [
  ['fixation', 'fixation'],
  ['spacer', 'spacer'],
] as const;
const WEIGHED = [
  ['base', 'as base'],
  ['sulfate', 'as sulfate'],
] as const;
const WITHIN = {
  below: 'below the reported range',
  within: 'within the reported range',
  above: 'above the reported range',
};

/** Organisms found, and what a mix would hold against reported ranges. Local microbiology and pharmacy decide. */
export function CementBlock() {
  const record = useRecord();
  const slot = useSlot<Cement>('/workUp/cement');
  const cement = slot.value;
  const organisms = [
    ...new Set((record.infection?.cultures ?? []).flatMap((c) => (c.organisms ?? []).map((o) => o.name))),
  ].filter((name) => name !== '');
  return (
    <details className="fold block">
      <summary>
        <h3>Cement with antibiotics</h3>
        <span className="fold-said">
          {cement ? `${cement.drugs.length} drugs, ${cement.batches} batches` : 'not planned'}
        </span>
      </summary>
      <p className="said-line">
        Local microbiology and pharmacy decide. Reported ranges, not a prescription.{' '}
        {organisms.length > 0 ? `Grown: ${organisms.join(', ')}.` : 'No organism is named yet.'}
      </p>
      {organisms.length > 0 ? <Sensitivities organisms={organisms} /> : null}
      {cement ? (
        <Mix slot={slot} cement={cement} />
      ) : (
        <button type="button" onClick={() => slot.set({ use: 'spacer', batches: 1, drugs: [] })}>
          Plan a mix
        </button>
      )}
    </details>
  );
}

function Mix({ slot, cement }: { readonly slot: Slot<Cement>; readonly cement: Cement }) {
  const history = useRecord().history ?? {};
  const load = cementLoad(cement, {
    kidneyDisease: history.charlson?.['kidney-moderate-severe'] ?? 'unknown',
    betaLactamAllergy: history.drugs?.['allergy-penicillin'] ?? 'unknown',
  });
  const put = (at: number, next: CementDrug, how?: 'draft' | 'take'): string | null =>
    slot.set({ ...cement, drugs: cement.drugs.with(at, next) }, how);
  return (
    <>
      <div className="pairs">
        <Pick label="Use" none={null} options={USES} slot={fieldOf(slot, 'use')} />
        <NumberLine label="Batches of 40 g" slot={fieldOf(slot, 'batches')} />
      </div>
      {cement.drugs
        .map((drug, place) => ({ drug, place }))
        .map(({ drug, place }) => {
          const one: Slot<CementDrug> = {
            value: drug,
            set: (next, how) => (next === undefined ? null : put(place, next, how)),
          };
          return (
            <div className="row is-drug" key={place}>
              <Pick label="Drug" none={null} options={AGENTS} slot={fieldOf(one, 'agent')} />
              <NumberLine label="In each batch" unit="g" slot={fieldOf(one, 'gramsPerBatch')} />
              <Pick
                label="Weighed"
                none={null}
                options={SALT_PER_BASE[drug.agent] === undefined ? WEIGHED.slice(0, 1) : WEIGHED}
                slot={fieldOf(one, 'weighedAs')}
              />
              <button
                type="button"
                className="remove"
                onClick={() => slot.set({ ...cement, drugs: cement.drugs.filter((_, k) => k !== place) })}
              >
                <span aria-hidden="true">×</span>
                <span className="unseen">Take away {drug.agent}</span>
              </button>
            </div>
          );
        })}
      <div className="buttons">
        <button
          type="button"
          onClick={() =>
            slot.set({
              ...cement,
              drugs: [...cement.drugs, { agent: 'vancomycin', gramsPerBatch: 1, weighedAs: 'base' }],
            })
          }
        >
          Add drug
        </button>
        <button type="button" className="as-link" onClick={() => slot.set(undefined)}>
          No mix
        </button>
      </div>
      {load.ok ? (
        <>
          <ul className="test-list">
            {load.value.drugs.map((d) => (
              <li key={d.agent}>
                {d.label}: <strong>{d.baseGramsPerBatch.toFixed(2)} g</strong> base in 40 g,{' '}
                <strong>{d.baseGramsTotal.toFixed(2)} g</strong> in all; {WITHIN[d.within]} ({d.reportedPer40g[0]} to{' '}
                {d.reportedPer40g[1]} g)
              </li>
            ))}
          </ul>
          <p className="said-line">Antibiotic powder {load.value.powderPercent.toFixed(1)} % by weight.</p>
          <ul className="cautions">
            {load.warnings.map((w) => (
              <li key={w.code + w.message}>{w.message}</li>
            ))}
          </ul>
        </>
      ) : (
        <p className="field-fault">
          {load.reason.message} {load.reason.mend}
        </p>
      )}
    </>
  );
}

const RESULTS = [
  ['sensitive', 'sensitive'],
  ['intermediate', 'intermediate'],
  ['resistant', 'resistant'],
] as const;

/** The antibiogram as reported, and which drugs reported in cement it leaves as candidates. */
function Sensitivities({ organisms }: { readonly organisms: readonly string[] }) {
  const slot = useSlot<readonly Sensitivity[]>('/workUp/sensitivities');
  const all = slot.value ?? [];
  const read = candidateAgents(organisms, all);
  const names = (standing: (typeof read)[number]['standing']) =>
    read.filter((c) => c.standing === standing).map((c) => c.agent.label);
  const candidates = names('candidate');
  const against = read
    .filter((c) => c.standing === 'against')
    .map((c) => `${c.agent.label} (${c.resistant.join(', ')} resistant)`);
  const first = organisms[0] ?? '';
  return (
    <>
      {all.map((line) => {
        const one = itemOf(slot, line.id);
        return (
          <div className="row is-drug" key={line.id}>
            <Pick
              label="Organism"
              none={null}
              options={organisms.map((o) => [o, o] as const)}
              slot={fieldOf(one, 'organism')}
            />
            <Pick
              label="Tested against"
              none={null}
              options={CEMENT_AGENTS.map((a) => [a.id, a.label] as const)}
              slot={fieldOf(one, 'agent')}
            />
            <Pick label="Result" none={null} options={RESULTS} slot={fieldOf(one, 'result')} />
            <button type="button" className="remove" onClick={() => one.set(undefined)}>
              <span aria-hidden="true">×</span>
              <span className="unseen">Take away this result</span>
            </button>
          </div>
        );
      })}
      <div className="buttons">
        <button
          type="button"
          onClick={() =>
            slot.set([...all, { id: nextId(all), organism: first, agent: 'vancomycin', result: 'sensitive' }])
          }
        >
          Add sensitivity
        </button>
      </div>
      <p className="said-line">
        {candidates.length > 0
          ? `All organisms found are sensitive to: ${candidates.join(', ')}.`
          : 'No drug is known to cover all organisms found.'}
        {against.length > 0 ? ` Against: ${against.join('; ')}.` : ''} Untested is not sensitive.
      </p>
    </>
  );
}

const nextId = (all: readonly Sensitivity[]): string => {
  const taken = new Set(all.map((s) => s.id));
  let n = all.length + 1;
  while (taken.has(`s${n}`)) n += 1;
  return `s${n}`;
};
