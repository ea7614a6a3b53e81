import { type TreatmentOption, VERDICT_WORDS, type Verdict } from '@gapline/core/bone/treatment/treatment-options.ts';
import type { StockOfBone } from '@gapline/core/plan/bone-stock.ts';
import {
  type AskedOfReader,
  ageAtSurgery,
  stemCallOf,
  treatmentBySurface,
} from '@gapline/core/plan/bone-stock-treatment.ts';
import { useState } from 'react';
import { usePlanning } from '../../case/desk.tsx';
import { SurpriseSection } from '../SurpriseSection.tsx';
import type { SurpriseStanding } from '../standing.ts';
import { type Defect, defectsOf } from './defects.ts';
import { OptionDetails } from './OptionDetails.tsx';

/** Ways to rebuild each defect, with thresholds, published figures and where experts differ. */
export function TreatmentSection() {
  const { femur, tibia } = usePlanning((s) => s.plan.boneStock);
  const stocks = [femur, tibia];
  const defects = defectsOf(stocks);
  return (
    <SurpriseSection id="treatment" title="Treatment by defect" standing={treatmentStanding(stocks, defects)}>
      {defects.length > 0 ? (
        <ByDefect stocks={stocks} defects={defects} />
      ) : (
        <p>No loss is entered or drawn yet: press a surface under “Bone stock”.</p>
      )}
      <StemsAsked stocks={stocks} />
    </SurpriseSection>
  );
}

function treatmentStanding(stocks: readonly StockOfBone[], defects: readonly Defect[]): SurpriseStanding {
  const [deepest] = defects;
  if (!deepest) return { is: 'open', line: 'No loss entered' };
  const stock = stocks.find((s) => s.bone === deepest.bone);
  const depth = deepest.surface.loss.depthMm;
  const words = `Deepest: ${deepest.surface.label}${depth === undefined ? '' : `, ${Math.round(10 * depth) / 10} mm`}`;
  return stock?.statedClass ? { is: 'settled', line: words } : { is: 'open', line: `${words}; class not stated` };
}

function ByDefect({
  stocks,
  defects,
}: {
  readonly stocks: readonly StockOfBone[];
  readonly defects: readonly Defect[];
}) {
  const [wanted, setWanted] = useState<string | null>(null);
  const [demand, setDemand] = useState<AskedOfReader['demand']>(undefined);
  const [failedBefore, setFailed] = useState<boolean | undefined>(undefined);
  const file = usePlanning((s) => s.of);
  const defect = defects.find((d) => d.surface.field === wanted) ?? defects[0];
  const stock = stocks.find((s) => s.bone === defect?.bone);
  if (!defect || !stock) return null;
  const asked: AskedOfReader = {
    ...(demand === undefined ? {} : { demand }),
    ...(failedBefore === undefined ? {} : { failedBefore }),
  };
  const age = ageAtSurgery(file);
  const options = treatmentBySurface(stock, file, asked).find((t) => t.field === defect.surface.field)?.options ?? [];
  const forIt = options.filter((o) => o.verdict !== 'not-for-this-defect');
  const others = options.filter((o) => o.verdict === 'not-for-this-defect');
  return (
    <>
      <fieldset className="defect-choice">
        <legend className="unseen">Defect</legend>
        {defects.map((d) => (
          <button
            key={d.surface.field}
            type="button"
            aria-pressed={d === defect}
            onClick={() => setWanted(d.surface.field)}
          >
            {d.surface.label}
            <span className="defect-size">{sizeWords(d)}</span>
          </button>
        ))}
      </fieldset>
      <p className="said-line">
        {stock.bone === 'femur' ? 'Femur' : 'Tibia'} of type <strong>{stock.statedClass ?? 'not stated'}</strong>, bone{' '}
        {stock.quality === 'unknown' ? 'of unknown quality' : stock.quality}
        {age !== null && `, ${age} years`}.
      </p>
      <div className="asked-here">
        <Answer
          label="Asked of the knee"
          value={demand}
          onChange={setDemand}
          options={[
            ['low', 'little'],
            ['high', 'much'],
          ]}
        />
        <Answer
          label="Reconstruction failed before"
          value={failedBefore === undefined ? undefined : failedBefore ? 'yes' : 'no'}
          onChange={(v) => setFailed(v === undefined ? undefined : v === 'yes')}
          options={[
            ['no', 'no'],
            ['yes', 'yes'],
          ]}
        />
        <small>For this reading only; not kept with the case.</small>
      </div>
      <OptionList options={forIt} />
      {others.length > 0 && (
        <details className="other-options">
          <summary>
            {others.length} not for this defect: {others.map((o) => o.label.toLowerCase()).join(', ')}
          </summary>
          <OptionList options={others} />
        </details>
      )}
      <p className="caution-line">
        Thresholds are published or planning defaults; the surgeon overrules any of them. Figures of different series
        stand beside each other, they do not compare.
      </p>
    </>
  );
}

const sizeWords = ({ surface: { loss } }: Defect): string =>
  [
    loss.depthMm === undefined ? null : `${Math.round(10 * loss.depthMm) / 10} mm`,
    loss.unsupportedPct === undefined ? null : `${Math.round(loss.unsupportedPct)} %`,
  ]
    .filter(Boolean)
    .join(', ');

function Answer<V extends string>(props: {
  readonly label: string;
  readonly value: V | undefined;
  readonly onChange: (value: V | undefined) => void;
  readonly options: readonly (readonly [V, string])[];
}) {
  return (
    <fieldset className="taps-row">
      <legend>{props.label}</legend>
      {props.options.map(([value, words]) => (
        <button
          key={value}
          type="button"
          aria-pressed={props.value === value}
          onClick={() => props.onChange(props.value === value ? undefined : value)}
        >
          {words}
        </button>
      ))}
    </fieldset>
  );
}

const OptionList = ({ options }: { readonly options: readonly TreatmentOption[] }) => (
  <ul className="option-list">
    {options.map((option) => (
      <li key={option.id} className={`option is-${option.verdict}`}>
        <details>
          <summary>
            <VerdictShape is={option.verdict} />
            <span className="option-label">{option.label}</span>
            <span className="option-verdict">{VERDICT_WORDS[option.verdict]}</span>
            <span className="option-note">{option.note}</span>
          </summary>
          <OptionDetails option={option} />
        </details>
      </li>
    ))}
  </ul>
);

/** Tick, open ring, triangle, cross, dash: readable without colour. */
export function VerdictShape({ is }: { readonly is: Verdict }) {
  return (
    <svg className={`verdict-shape is-${is}`} viewBox="0 0 16 16" aria-hidden="true">
      {is === 'offered' && <path d="M2.5 8.5 6.5 12.5 13.5 4" />}
      {is === 'depends' && <circle cx="8" cy="8" r="5" />}
      {is === 'advised-against' && <path d="M8 2 14.5 14H1.5Z" />}
      {is === 'refused' && <path d="M3.5 3.5l9 9M12.5 3.5l-9 9" />}
      {is === 'not-for-this-defect' && <path d="M3 8h10" />}
    </svg>
  );
}

const STEM_WORDS = {
  mandatory: 'a stem is mandatory',
  wanted: 'a stem is wanted',
  'may-be-omitted': 'a stem may be left out',
  depends: 'whether a stem is wanted depends on what is not known',
  'no-rule': 'no rule asks for a stem',
} as const;

/** Whether each bone takes a stem with what is built on it, and by which rule. */
function StemsAsked({ stocks }: { readonly stocks: readonly StockOfBone[] }) {
  const construct = usePlanning((s) => s.plan.construct);
  if (construct.kind !== 'solved') return null;
  const best = construct.answer.best.construct;
  return (
    <div className="stems-asked">
      {stocks.map((stock) => {
        const call = stemCallOf(stock, best);
        return (
          <details key={stock.bone}>
            <summary>
              {stock.bone === 'femur' ? 'Femur' : 'Tibia'}: {STEM_WORDS[call.verdict]}
            </summary>
            <ul>
              {call.why.map((rule) => (
                <li key={rule.id}>
                  {rule.text}{' '}
                  <small>
                    {rule.id}, {rule.source}, grade {rule.grade}
                  </small>
                </li>
              ))}
              {call.open.map((rule) => (
                <li key={rule.id}>
                  Not known: {rule.text} <small>{rule.id}</small>
                </li>
              ))}
              {call.bypass.map((b) => (
                <li key={`${b.spot.kind} ${b.spot.farEndMm}`}>
                  {b.spot.kind.replace('-', ' ')} to {b.spot.farEndMm} mm:{' '}
                  {b.tipAtLeastMm === null
                    ? 'the shaft’s diameter is not known, so the tip’s place is not either'
                    : `tip at ${Math.round(b.tipAtLeastMm)} mm from the joint line or beyond`}
                </li>
              ))}
            </ul>
          </details>
        );
      })}
    </div>
  );
}
