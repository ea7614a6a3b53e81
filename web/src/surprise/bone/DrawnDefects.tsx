import type { DrawnDefect } from '@gapline/core/bone/bone-map.ts';
import type { Quantity } from '@gapline/core/measure/quantity.ts';
import type { StockOfBone } from '@gapline/core/plan/bone-stock.ts';
import type { DrawnOnSide } from '@gapline/core/plan/bone-stock-drawn.ts';
import { defectWords, removeDefect } from '../../case/defect-edits.ts';
import { useDesk, useSession } from '../../case/desk.tsx';
import { showWithTool } from '../../film/show-with-tool.ts';
import { tabWord } from '../../film/tab-word.ts';
import { number, spread } from '../../parts/words.ts';

/** Defects of this bone that were drawn on films, with what they measure. */
export function DrawnDefects({ stock }: { readonly stock: StockOfBone }) {
  const drawn = [...new Set(stock.drawn.map((d) => d.drawn))];
  const apart = stock.both.filter((b) => b.apart);
  if (drawn.length === 0) return null;
  return (
    <div className="drawn-defects">
      <ul className="drawn-list">
        {drawn.map((defect) => (
          <OneDrawn key={defect.id} defect={defect} sides={stock.drawn.filter((d) => d.drawn.id === defect.id)} />
        ))}
      </ul>
      {apart.length > 0 && (
        <ul className="conflicts">
          {apart.map((b) => (
            <li key={b.field}>
              {fieldWords(b.field)}: {number(b.entered)} entered, {number(b.drawn.value)} drawn. What was entered holds.
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** The end of a field's path in words: `bone.tibiaMap.plateau.medial.depthMm` is "plateau medial, depth". */
const fieldWords = (field: string): string => {
  const [, , ...steps] = field.split('.');
  const what = steps.pop()?.replace(/(Mm|Pct)$/, '') ?? '';
  return `${steps.join(' ')}, ${what === 'unsupported' ? 'share without support' : what}`;
};

function OneDrawn({ defect, sides }: { readonly defect: DrawnDefect; readonly sides: readonly DrawnOnSide[] }) {
  const { session, state } = useDesk();
  const films = useSession((s) => s.shown.films);
  const film = films.find((f) => f.id === defect.film);
  const words = defectWords(defect);
  return (
    <li data-drawn={defect.id}>
      <span>
        <strong>{words}</strong>
        <small> drawn on {film ? tabWord(film, films) : 'a film that is gone'}</small>
      </span>
      <span className="buttons">
        <button type="button" onClick={() => showWithTool(state, { is: 'adjust', film: defect.film })}>
          Move corners
          <span className="unseen"> of {words}</span>
        </button>
        <button
          type="button"
          className="remove"
          aria-label={`Take away: ${words}`}
          onClick={() => {
            session.commit([removeDefect(session.store.getState().shown, defect.id)], `${words}: outline taken away`);
            state.setState({ tool: null });
          }}
        >
          ×
        </button>
      </span>
      {sides.map((side) => (
        <Measured key={side.compartment} side={side} named={sides.length > 1} />
      ))}
    </li>
  );
}

/** What one side of a drawing measures, or why it cannot be measured. */
function Measured({ side, named }: { readonly side: DrawnOnSide; readonly named: boolean }) {
  const { size, compartment } = side;
  if (!size.ok)
    return (
      <p className="field-fault drawn-numbers">
        {named && `${compartment}: `}
        {size.reason.message} {size.reason.mend}
      </p>
    );
  const { depthMm, widthMm, heightMm, unsupportedPct, plane } = size.value;
  return (
    <p className="drawn-numbers">
      {named && <strong>{compartment}</strong>}
      <Measure what="deep" unit="mm" of={depthMm} />
      <Measure what="wide" unit="mm" of={widthMm} />
      {compartment === 'both' && <Measure what="high" unit="mm" of={heightMm} />}
      <Measure what="without support" unit="%" of={unsupportedPct} />
      <small>from: {plane}</small>
    </p>
  );
}

function Measure({ what, unit, of }: { readonly what: string; readonly unit: string; readonly of: Quantity | null }) {
  if (!of) return null;
  return (
    <span>
      <span className="big-number">{number(of.value, unit)}</span> {unit} {what} <small>{spread(of.sd, unit)}</small>
    </span>
  );
}
