import type { CavityVerdict } from '@gapline/core/metaphysis/fit-cavity.ts';
import type { MetaphysisOfBone } from '@gapline/core/plan/stem-plan-metaphysis.ts';
import { number, signed } from '../../parts/words.ts';
import { StandingShape } from './StemCard.tsx';

const WORDS: Readonly<Record<CavityVerdict['verdict'], string>> = {
  fits: 'fits',
  'does-not-fit': 'does not fit',
  'not-known': 'not known',
};

/** Sleeves and cones in the measured cavity, best fit first, each with its reasons. */
export function MetaphysealParts({ of }: { readonly of: MetaphysisOfBone }) {
  const { fits, chosen } = of;
  if (!fits)
    return (
      <p className="said-line">
        Sleeves and cones: the cavity is not measured. Draw it on the film or enter it under “Bone stock”, metaphysis.
      </p>
    );
  const best = fits.filter((f) => f.verdict !== 'does-not-fit');
  const rest = fits.filter((f) => f.verdict === 'does-not-fit');
  return (
    <div className="metaphyseal">
      <h4>Sleeves and cones in the cavity</h4>
      {chosen && (
        <p className="said-line">
          In the plan: {fits.find((f) => f.ref === chosen.ref)?.name ?? chosen.ref},{' '}
          {chosen.joins.verdict === 'joins'
            ? 'goes with its component and stem'
            : [...chosen.joins.against, ...chosen.joins.notKnown.map((n) => `${n} not known`)].join('; ')}
          .
        </p>
      )}
      {best.length === 0 && <p>None of the catalogue fits.</p>}
      <ul className="cavity-list">
        {best.map((fit) => (
          <OnePart key={fit.ref} fit={fit} />
        ))}
      </ul>
      {rest.length > 0 && (
        <details>
          <summary>{rest.length} that do not fit, and why</summary>
          <ul className="cavity-list">
            {rest.map((fit) => (
              <OnePart key={fit.ref} fit={fit} />
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

function OnePart({ fit }: { readonly fit: CavityVerdict }) {
  const { width, ap } = fit.overMm;
  const reasons = [...fit.against, ...fit.notKnown.map((n) => `${n}: not known`), ...fit.lies];
  return (
    <li className={`cavity-part is-${fit.verdict}`}>
      <StandingShape is={fit.verdict} />
      <span>
        <strong>{fit.name}</strong> {WORDS[fit.verdict]}
        <small> {reasons.join('; ')}</small>
      </span>
      <span className="cavity-numbers">
        {width !== null && <span>{signed(width)} mm across</span>}
        {ap !== null && <span>{signed(ap)} mm front to back</span>}
        {fit.wallLeftMm !== null && <span>wall {number(fit.wallLeftMm)} mm</span>}
      </span>
    </li>
  );
}
