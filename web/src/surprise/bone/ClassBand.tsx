import type { BoneClass } from '@gapline/core/bone/bone-class.ts';
import { BONE_CLASSES } from '@gapline/core/bone/class-worse.ts';
import type { StockOfBone } from '@gapline/core/plan/bone-stock.ts';
import { useSlot } from '../../work-up/slot.ts';

const AGREEMENT_WORDS: Readonly<Record<StockOfBone['standing'], string>> = {
  'not-stated': '',
  'nothing-proposed': '',
  same: 'as the map has it',
  possible: 'possible, with what is not known',
  milder: 'milder than the map proves',
  worse: 'worse than the map allows',
};

/** The class proposed from the map beside the surgeon's own; the one never overwrites the other. */
export function ClassBand({ stock }: { readonly stock: StockOfBone }) {
  const { bone, proposal, standing } = stock;
  const own = useSlot<BoneClass>(`/bone/${bone}Class`);
  return (
    <div className="class-band">
      <div className="class-proposed">
        <span className="class-what">Proposed from the map</span>
        <strong className="class-big">{proposal.proposed ?? '?'}</strong>
        {proposal.proposed && proposal.proposed !== own.value && (
          <button type="button" className="is-main" onClick={() => own.set(proposal.proposed ?? undefined)}>
            Take {proposal.proposed} as mine
            <span className="unseen">, {bone}</span>
          </button>
        )}
      </div>
      <div className={`class-own is-${standing}`}>
        <span className="class-what">Your class, AORI</span>
        <fieldset className="taps-row">
          <legend className="unseen">Your class, {bone}</legend>
          {BONE_CLASSES.map((one) => (
            <button
              key={one}
              type="button"
              aria-pressed={own.value === one}
              onClick={() => own.set(own.value === one ? undefined : one)}
            >
              {one}
            </button>
          ))}
        </fieldset>
        <span className="class-agreement">
          {own.value === undefined ? 'not stated: the plan waits for it' : AGREEMENT_WORDS[standing]}
        </span>
      </div>
      <details className="class-why">
        <summary>{proposal.reasons.length > 0 ? `Why: ${proposal.reasons.join('; ')}` : proposal.words}</summary>
        {proposal.reasons.length > 0 && proposal.words !== proposal.proposed && <p>{proposal.words}</p>}
        {stock.oneWorse && stock.oneWorse !== (own.value ?? proposal.proposed) && (
          <p>
            Be ready for <strong>{stock.oneWorse}</strong>: one class worse.
          </p>
        )}
        {proposal.otherReading && (
          <p>
            <strong>Also read as {proposal.otherReading.boneClass}:</strong> {proposal.otherReading.why}.
          </p>
        )}
        {proposal.missing.length > 0 && (
          <dl className="missing-list">
            {proposal.missing.map((m) => (
              <div key={m.what}>
                <dt>{m.what}: not known</dt>
                <dd>{m.wouldChange}</dd>
              </div>
            ))}
          </dl>
        )}
      </details>
    </div>
  );
}
