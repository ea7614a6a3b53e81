import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { BoneState } from '@gapline/core/gaps/bone-state.ts';
import { DEFAULT_WEIGHTS } from '@gapline/core/gaps/default-weights.ts';
import { CELL_MM, type Cell, type NineCells } from '@gapline/core/gaps/nine-cells.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import { useEffect, useState } from 'react';
import { useDesk, useDeskState, usePlanning } from '../../case/desk.tsx';
import { number } from '../../parts/words.ts';
import { useSurprise } from '../forecast/forecasting-context.tsx';
import { SurpriseSection } from '../SurpriseSection.tsx';
import type { SurpriseStanding } from '../standing.ts';

/** If the gaps come out otherwise: flexion against extension, with real parts in every cell. */
export function NineCellsSection() {
  const bone = usePlanning((s) => s.settled.plan.bone);
  const construct = usePlanning((s) => s.settled.plan.construct);
  const catalogue = usePlanning((s) => s.catalogue);
  const standing: SurpriseStanding =
    construct.kind === 'solved'
      ? { is: 'settled', line: 'what to change when a gap is tight or loose' }
      : { is: 'open', line: 'waits for a construct' };
  return (
    <SurpriseSection id="cells" title="Nine cells" standing={standing}>
      {bone.ok && catalogue && construct.kind === 'solved' ? (
        <Cells state={bone.value.state} catalogue={catalogue} />
      ) : (
        <p>The table stands once a construct is proposed.</p>
      )}
    </SurpriseSection>
  );
}

const TOLERANCES = [2, 3, 4, 5, 6];

function Cells({ state, catalogue }: { readonly state: BoneState; readonly catalogue: Catalogue }) {
  const { forecasting } = useSurprise();
  const weights = usePlanning((s) => s.settled.of.settings?.weights ?? DEFAULT_WEIGHTS);
  const [byMm, setByMm] = useState(CELL_MM);
  const [cells, setCells] = useState<Outcome<NineCells> | null>(null);
  useEffect(() => {
    let wanted = true;
    void forecasting.cells({ state, catalogue, weights, byMm }).then((made) => wanted && made && setCells(made));
    return () => {
      wanted = false;
    };
  }, [forecasting, state, catalogue, weights, byMm]);
  return (
    <>
      <label className="cells-by">
        Tight and loose mean{' '}
        <select value={byMm} onChange={(event) => setByMm(Number(event.target.value))}>
          {TOLERANCES.map((mm) => (
            <option key={mm} value={mm}>
              {mm} mm
            </option>
          ))}
        </select>{' '}
        from what is planned, on both sides.
      </label>
      {cells === null && <p role="status">The cells are being reckoned …</p>}
      {cells && !cells.ok && (
        <p className="warning">
          {cells.reason.message} {cells.reason.mend}
        </p>
      )}
      {cells?.ok && <CellTable cells={cells.value} />}
    </>
  );
}

const nameOf = (cell: Cell): string =>
  `${FLEXION_WORDS[cell.flexion].toLowerCase()}, ${EXTENSION_WORDS[cell.extension].toLowerCase()}`;
const keyOf = (cell: Cell): string => `${cell.flexion} ${cell.extension}`;
const EXTENSION_WORDS = { tight: 'Extension tight', 'as planned': 'Extension as planned', loose: 'Extension loose' };
const FLEXION_WORDS = { tight: 'Flexion tight', 'as planned': 'Flexion as planned', loose: 'Flexion loose' };

function CellTable({ cells }: { readonly cells: NineCells }) {
  const { state } = useDesk();
  const onTrial = useDeskState((s) => s.onTrial);
  const [chosen, setChosen] = useState<string | null>(null);
  const all = cells.rows.flat();
  const open = all.find((c) => keyOf(c) === chosen) ?? null;
  const choose = (cell: Cell): void => {
    const again = keyOf(cell) === chosen;
    setChosen(again ? null : keyOf(cell));
    const { best } = cell;
    const isPlan = cell.changes.length === 0;
    const words = `What fits if found so: ${nameOf(cell)}, by ${cells.byMm} mm.`;
    state.setState({ onTrial: again || isPlan || !best ? null : { construct: best.construct, words } });
  };
  return (
    <>
      <table className="cells">
        <caption className="said-line">Tap a cell to see its construct on the film and each lever alone.</caption>
        <thead>
          <tr>
            <td />
            {cells.rows[0]?.map((c) => (
              <th key={c.extension} scope="col">
                {EXTENSION_WORDS[c.extension]}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {cells.rows.map((row) => (
            <tr key={row[0]?.flexion}>
              <th scope="row">{row[0] && FLEXION_WORDS[row[0].flexion]}</th>
              {row.map((cell) => (
                <td key={keyOf(cell)}>
                  <button
                    type="button"
                    className={`cell${cell.best ? '' : ' is-none'}${isDrawn(cell, onTrial) ? ' is-drawn' : ''}`}
                    aria-pressed={keyOf(cell) === chosen}
                    onClick={() => choose(cell)}
                  >
                    <CellWords cell={cell} />
                  </button>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {open && <Levers cell={open} />}
    </>
  );
}

const isDrawn = (cell: Cell, onTrial: { readonly construct: unknown } | null): boolean =>
  onTrial !== null && cell.best?.construct === onTrial.construct;

function CellWords({ cell }: { readonly cell: Cell }) {
  if (!cell.best) return <span>nothing fits</span>;
  if (cell.changes.length === 0)
    return (
      <span>{cell.flexion === 'as planned' && cell.extension === 'as planned' ? 'the plan' : 'the plan holds'}</span>
    );
  return (
    <ul>
      {cell.changes.map((c) => (
        <li key={c}>{c}</li>
      ))}
    </ul>
  );
}

/** Each lever pulled alone, cheapest first, against the best with every part free. */
function Levers({ cell }: { readonly cell: Cell }) {
  return (
    <div className="levers" aria-live="polite">
      <h3>
        {FLEXION_WORDS[cell.flexion]}, {EXTENSION_WORDS[cell.extension].toLowerCase()}
      </h3>
      {cell.why && (
        <ul className="conflicts">
          {cell.why.clashes.map((c) => (
            <li key={`${c.code} ${c.message}`}>
              {c.message} {c.mend}
            </li>
          ))}
        </ul>
      )}
      {cell.levers.length === 0 ? (
        <p className="said-line">
          No single lever does it{cell.best ? '; the cell above changes several at once.' : '.'}
        </p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col">One lever alone</th>
              <th scope="col">Parts</th>
              <th scope="col" className="share-number">
                Cost
              </th>
            </tr>
          </thead>
          <tbody>
            {cell.best && cell.changes.length > 0 && (
              <tr>
                <th scope="row">Every part free</th>
                <td>{cell.changes.join(', ')}</td>
                <td className="share-number">{number(cell.best.cost, '1')}</td>
              </tr>
            )}
            {cell.levers.map((lever) => (
              <tr key={lever.id}>
                <th scope="row">{lever.label}</th>
                <td>{lever.changes.join(', ')}</td>
                <td className="share-number">{number(lever.cost, '1')}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </div>
  );
}
