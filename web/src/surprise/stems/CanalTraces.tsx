import { stemViewOf } from '@gapline/core/plan/canal-on-film.ts';
import type { StemsOfBone } from '@gapline/core/plan/stem-plan.ts';
import type { CanalTrace } from '@gapline/core/stems/canal-trace.ts';
import { useState } from 'react';
import { removeLevel, traceOf } from '../../case/canal-edits.ts';
import { useDesk, useDeskState, useSession } from '../../case/desk.tsx';
import { showWithTool } from '../../film/show-with-tool.ts';
import { tabWord } from '../../film/tab-word.ts';
import { number, spread } from '../../parts/words.ts';

/** The canals of one bone: which film they are traced on, the width at each level, and what could not be used. */
export function CanalTraces({
  stems,
  bone,
}: {
  readonly stems: StemsOfBone | null;
  readonly bone: CanalTrace['bone'];
}) {
  const films = useSession((s) => s.shown.films);
  const fitting = films.filter((f) => f.role === 'present' && stemViewOf(f.view) !== null);
  const [outer, setOuter] = useState(false);
  if (fitting.length === 0) return <p className="said-line">No film of this knee shows the canal.</p>;
  return (
    <div className="canals">
      <div className="buttons">
        {fitting.map((film) => (
          <TraceButton key={film.id} bone={bone} film={film.id} words={tabWord(film, films)} outer={outer} />
        ))}
        <label className="choice">
          <input type="checkbox" checked={outer} onChange={(event) => setOuter(event.target.checked)} />
          outer walls too
        </label>
      </div>
      {stems?.refused.map((reason) => (
        <p key={`${reason.code} ${reason.message}`} className="field-fault">
          {reason.message} {reason.mend}
        </p>
      ))}
      <div className="canal-tables">
        {fitting.map((film) => (
          <Levels key={film.id} bone={bone} film={film.id} words={tabWord(film, films)} stems={stems} />
        ))}
      </div>
    </div>
  );
}

interface OnFilm {
  readonly bone: CanalTrace['bone'];
  readonly film: string;
  readonly words: string;
}

function TraceButton({ bone, film, words, outer }: OnFilm & { readonly outer: boolean }) {
  const { state } = useDesk();
  const tool = useDeskState((s) => s.tool);
  const levels = useSession((s) => traceOf(s.shown, { bone, film })?.levels.length ?? 0);
  const inHand = tool?.is === 'trace' && tool.film === film && tool.tracing.bone === bone;
  return (
    <button
      type="button"
      aria-pressed={inHand}
      onClick={() =>
        inHand
          ? state.setState({ tool: null, selected: null })
          : showWithTool(state, { is: 'trace', film, tracing: { bone, outer, presses: [] } })
      }
    >
      {inHand ? 'Done' : levels > 0 ? `Trace on: ${words}` : `Trace: ${words}`}
      <span className="unseen">, {bone}</span>
    </button>
  );
}

/** Levels from the joint outwards with their widths, each to be taken away. */
function Levels({ bone, film, words, stems }: OnFilm & { readonly stems: StemsOfBone | null }) {
  const { session } = useDesk();
  const trace = useSession((s) => traceOf(s.shown, { bone, film }));
  if (!trace) return null;
  const reading = [stems?.ap, stems?.lateral].find((r) => r?.film === film);
  return (
    <details className="canal-levels">
      <summary>
        {words}: {trace.levels.length} {trace.levels.length === 1 ? 'level' : 'levels'}
        {reading && reading.widths.length > 0
          ? `, ${rangeWords(reading.widths.map((w) => w.widthMm))}`
          : stems && ', not used: another trace of this view reaches further, or this one is refused'}
      </summary>
      <table>
        <thead>
          <tr>
            <th scope="col">Level</th>
            {reading && (
              <>
                <th scope="col">From the joint line</th>
                <th scope="col">Inner width</th>
                <th scope="col">Outer width</th>
              </>
            )}
            <td />
          </tr>
        </thead>
        <tbody>
          {trace.levels.map((level, i) => {
            const width = reading?.widths[i];
            return (
              <tr key={`${level.innerA.x} ${level.innerA.y} ${level.innerB.x} ${level.innerB.y}`}>
                <th scope="row">{i + 1}</th>
                {reading && (
                  <>
                    <td>{width ? `${number(width.zMm)} mm` : 'not known'}</td>
                    <td>{width ? `${number(width.widthMm)} mm ${spread(width.sdMm)}` : 'not known'}</td>
                    <td>{width?.outerMm == null ? 'not traced' : `${number(width.outerMm)} mm`}</td>
                  </>
                )}
                <td>
                  <button
                    type="button"
                    className="remove"
                    aria-label={`Take away level ${i + 1} of the ${bone} on ${words}`}
                    onClick={() =>
                      session.commit(
                        [removeLevel(session.store.getState().shown, { bone, film }, i)],
                        `${bone === 'femur' ? 'Femoral' : 'Tibial'} canal: one level taken away`,
                      )
                    }
                  >
                    ×
                  </button>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {reading?.bow?.radiusMm != null && (
        <p className="said-line">
          Bowed: radius {Math.round(reading.bow.radiusMm)} mm, {number(Math.abs(reading.bow.sagittaMm))} mm deep over
          the length traced.
        </p>
      )}
    </details>
  );
}

const rangeWords = (widths: readonly number[]): string =>
  `${number(Math.min(...widths))} to ${number(Math.max(...widths))} mm wide`;
