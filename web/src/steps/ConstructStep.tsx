import type { Infeasible, SolvedConstruct, SolverAnswer } from '@gapline/core/gaps/construct.ts';
import { useEffect, useState } from 'react';
import type { CatalogueSummary } from '../../../server/src/contract.ts';
import { useDesk, useDeskState, usePlanning } from '../case/desk.tsx';
import { ConstructByHand } from '../construct/ConstructByHand.tsx';
import { ChoiceField } from '../parts/fields.tsx';
import { LEVEL_WORDS, number } from '../parts/words.ts';
import { getCatalogues } from '../wire/api.ts';
import { GapSquare } from './GapSquare.tsx';
import { partLines } from './part-lines.ts';

/** What would put the joint line back: the proposal, the gaps it leaves, what it costs and why, and the next best. */
export function ConstructStep() {
  return (
    <>
      <CatalogueField />
      <ConstructByHand />
      <Proposed />
    </>
  );
}

function CatalogueField() {
  const [all, setAll] = useState<readonly CatalogueSummary[]>([]);
  useEffect(() => {
    getCatalogues()
      .then(setAll)
      .catch(() => setAll([]));
  }, []);
  return (
    <ChoiceField
      label="Catalogue of components"
      field="/catalogue"
      none="none chosen"
      options={all.map((c) => [c.id, c.invented ? `${c.name} (invented)` : c.name])}
    />
  );
}

function Proposed() {
  const construct = usePlanning((s) => s.plan.construct);
  if (construct.kind === 'not-attempted') {
    return (
      <dl className="not-attempted">
        {construct.because.map((b) => (
          <div key={`${b.field} ${b.what}`}>
            <dt>{b.what}</dt>
            <dd>{b.wouldChange}</dd>
          </div>
        ))}
      </dl>
    );
  }
  if (construct.kind === 'infeasible') return <Clashes why={construct.why} />;
  return <Proposals answer={construct.answer} />;
}

function Proposals({ answer }: { readonly answer: SolverAnswer }) {
  const { state } = useDesk();
  const catalogue = usePlanning((s) => s.catalogue);
  const wanted = useDeskState((s) => s.construct);
  const all = [answer.best, ...answer.alternatives];
  const chosen = all[wanted] ?? answer.best;
  const invented = catalogue?.invented ?? false;
  return (
    <>
      <fieldset className="proposals">
        <legend className="unseen">Construct that is drawn</legend>
        {all.map((one, i) => (
          <label key={partKey(one)} className={`proposal${one === chosen ? ' is-chosen' : ''}`}>
            <input
              type="radio"
              name="construct"
              checked={one === chosen}
              onChange={() => state.setState({ construct: i })}
            />
            <span className="proposal-words">
              <strong>{i === 0 ? 'Best fit' : `Next best ${i}`}</strong>
              {one.differs || LEVEL_WORDS[one.construct.level]}
            </span>
            <span className="proposal-cost">{number(one.cost, '1')}</span>
          </label>
        ))}
      </fieldset>
      {wanted > 0 && (
        <p className="table-note">
          The films and the sheet's own proposal: the best fit. This one is drawn for comparison.
        </p>
      )}
      <OneConstruct chosen={chosen} />
      <p className="table-note">
        The least cost of {answer.combinations.toLocaleString('en')} combinations of{' '}
        {catalogue?.name ?? 'the catalogue'}
        {invented ? ', an invented system: no such parts can be bought' : ''}.
      </p>
    </>
  );
}

const partKey = ({ construct }: SolvedConstruct): string => JSON.stringify(construct);

function OneConstruct({ chosen }: { readonly chosen: SolvedConstruct }) {
  const { state } = useDesk();
  const catalogue = usePlanning((s) => s.catalogue);
  return (
    <>
      <table className="parts">
        <tbody>
          {partLines(chosen.construct, catalogue).map(([what, which, layer]) => (
            <tr
              key={what}
              onPointerEnter={() => state.setState({ pointedAt: layer ? { layer, landmarks: [] } : null })}
              onPointerLeave={() => state.setState({ pointedAt: null })}
            >
              <th scope="row">{what}</th>
              <td>{which}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="caution-line">
        Constraint and cement are the surgeon's decision at the table: the least constraint here follows from the
        ligaments as examined, spaces are filled as the catalogue's limits allow.
      </p>
      <h3>Gaps expected</h3>
      <GapSquare effect={chosen.effect} />
      <Ledger chosen={chosen} />
    </>
  );
}

/** What is paid for, and why. */
function Ledger({ chosen }: { readonly chosen: SolvedConstruct }) {
  const paid = chosen.ledger.filter((l) => l.cost > 0).toSorted((a, b) => b.cost - a.cost || (a.id < b.id ? -1 : 1));
  const free = chosen.ledger.length - paid.length;
  const most = Math.max(...paid.map((l) => l.cost), 1e-9);
  return (
    <>
      <h3>What it costs, and why</h3>
      {paid.length === 0 ? (
        <p>Nothing: every term lies in its free zone.</p>
      ) : (
        <ul className="ledger">
          {paid.map((l) => (
            <li key={l.id}>
              <details>
                <summary>
                  <span className="ledger-label">{l.label}</span>
                  <span className="ledger-amount">
                    {number(l.amount, l.unit === 'count' || l.unit === 'level' ? l.unit : 'mm')} {unitWord(l.unit)}
                  </span>
                  <span className="ledger-cost">{number(l.cost, '1')}</span>
                  <meter className="ledger-bar" min={0} max={most} value={l.cost} aria-label={`Share of ${l.label}`} />
                </summary>
                <p>
                  {l.reason} Weight {l.weight} a {l.unit === 'deg' ? 'degree' : l.unit}.
                </p>
              </details>
            </li>
          ))}
        </ul>
      )}
      {free > 0 && <p className="table-note">{free} more terms cost nothing here.</p>}
    </>
  );
}

const unitWord = (unit: string): string => ({ mm: 'mm', deg: '°', count: '×', level: 'level' })[unit] ?? unit;

function Clashes({ why }: { readonly why: Infeasible }) {
  return (
    <>
      <ul className="clashes">
        {why.clashes.map((c) => (
          <li key={`${c.code} ${c.message}`}>
            <strong>{c.message}</strong>
            {c.byMm !== undefined && <span> Short by {number(c.byMm)} mm.</span>} {c.mend}
          </li>
        ))}
      </ul>
      {why.nearest && (
        <>
          <h3>Nearest, but not within the limits</h3>
          <OneConstruct chosen={why.nearest} />
        </>
      )}
    </>
  );
}
