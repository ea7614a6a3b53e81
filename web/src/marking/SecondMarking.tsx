import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { showWithTool } from '../film/show-with-tool.ts';
import { LandmarkSketch } from '../sketch/LandmarkSketch.tsx';
import { focusFilm } from './focus-film.ts';
import { toRepeat } from './guided.ts';
import { usePerson } from './person.ts';
import { askedNow, goOn, isOutlineDone, type Repeating } from './repeat-tool.ts';
import { SpreadTable } from './SpreadTable.tsx';

interface Props {
  readonly film: CaseFilm;
  readonly side: Side;
}

/** The same landmarks once more, blind to the first: how far one marking may be trusted (LM-9). */
export function SecondMarking({ film, side }: Props) {
  const desk = useDesk();
  const file = useSession((s) => s.shown);
  const marking = usePlanning((s) => s.plan.marking);
  const tool = useDeskState((s) => s.tool);
  const person = usePerson();
  const asked = toRepeat(file, film, side);
  const rounds = (file.repeats ?? []).filter((r) => r.film === film.id && r.side === side && r.why === 'repeat');
  const round = Math.max(1, ...rounds.map((r) => r.round)) + 1;
  const underWay = tool?.is === 'repeat' && tool.film === film.id ? tool : null;
  return (
    <details className="second-marking" open={underWay ? true : undefined}>
      <summary>Mark again, blind{rounds.length > 0 ? ` (${counted(round - 2)} so far)` : ''}</summary>
      <p>
        What is marked on this film is asked for once more while marks and plan are hidden. From five points placed
        twice on, the spread found stands in for the assumed one.
      </p>
      {underWay ? (
        <UnderWay tool={underWay} />
      ) : (
        <button
          type="button"
          disabled={asked.length === 0}
          onClick={() => {
            desk.state.setState({ guided: false });
            showWithTool(desk.state, { is: 'repeat', film: film.id, side, round, asked, at: 0 });
          }}
        >
          Mark {asked.length === 1 ? '1 landmark' : `${asked.length} landmarks`} again
          {person ? ` as ${person}` : ''}
        </button>
      )}
      {!person && <p className="table-note">Without a name above, placings of two people cannot be told apart.</p>}
      {marking && <SpreadTable marking={marking} />}
    </details>
  );
}

const counted = (n: number): string => (n === 1 ? '1 further set' : `${n} further sets`);

function UnderWay({ tool }: { readonly tool: Repeating }) {
  const desk = useDesk();
  const outlineDone = useSession((s) => isOutlineDone(s.shown, tool));
  const id = askedNow(tool);
  if (!id) return null;
  const { label, pick } = landmark(id);
  return (
    <div className="next-mark">
      <LandmarkSketch landmark={id} side={tool.side} />
      <div>
        <h3>{label}</h3>
        <p>{pick}</p>
        <p className="unlocks">
          {tool.at + 1} of {tool.asked.length}
        </p>
        <div className="row">
          <button
            type="button"
            className={outlineDone ? 'is-main' : ''}
            onClick={() => {
              goOn(desk);
              focusFilm(tool.film);
            }}
          >
            {outlineDone ? 'Outline done' : 'Pass over'}
          </button>
          <button type="button" onClick={() => desk.state.setState({ tool: null, selected: null })}>
            Stop
          </button>
        </div>
      </div>
    </div>
  );
}
