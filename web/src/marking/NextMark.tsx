import { type LandmarkId, landmark } from '@gapline/core/landmarks/landmark-table.ts';
import { SKIP_REASONS, SKIP_WORDS, type SkipReason } from '@gapline/core/landmarks/repeated-mark.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { markKey, useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { LEAST_OUTLINE, markOn } from '../case/marking.ts';
import { showWithTool } from '../film/show-with-tool.ts';
import { LandmarkSketch } from '../sketch/LandmarkSketch.tsx';
import { focusFilm } from './focus-film.ts';
import { unlocksLine, unlocksOf } from './unlocks.ts';
import { useGuide } from './use-guide.ts';

interface Props {
  readonly film: CaseFilm;
  readonly side: Side;
}

/** The head of the guided list: the landmark that is asked for now, where it lies, how it is picked, what it gives. */
export function NextMark({ film, side }: Props) {
  const { state } = useDesk();
  const next = useGuide(film, side);
  const later = useDeskState((s) => s.later);
  const placing = useDeskState((s) => s.placing);
  const underWay = placing?.film === film.id && placing.side === side ? placing.landmark : null;
  const id = underWay ?? next?.id;
  if (id) return <Asked id={id} film={film} side={side} isUnderWay={underWay !== null} />;
  return (
    <p className="next-none">
      Nothing left to ask for on this film.
      {later.size > 0 && (
        <button type="button" onClick={() => state.setState({ later: new Set() })}>
          Ask again for what was put off
        </button>
      )}
    </p>
  );
}

function Asked({ id, film, side, isUnderWay }: Props & { readonly id: LandmarkId; readonly isUnderWay: boolean }) {
  const { session, state } = useDesk();
  const file = useSession((s) => s.shown);
  const plan = usePlanning((s) => s.plan);
  const { label, pick, outline } = landmark(id);
  const name = { landmark: id, side, film: film.id };
  const points = markOn(file, name)?.points.length ?? 0;
  const gives = unlocksLine(unlocksOf(plan, id, side));
  const skip = (reason: SkipReason): void => {
    const edit: Edit = { kind: 'put-skip', skip: { ...name, reason } };
    session.commit([edit], describeEdit(edit));
    state.setState({ placing: null });
  };
  return (
    <div className="next-mark">
      <LandmarkSketch landmark={id} side={side} />
      <div>
        <h3>{label}</h3>
        <p>{pick}</p>
        {gives && <p className="unlocks">Gives: {gives}</p>}
        <div className="row">
          {outline && points >= LEAST_OUTLINE && isUnderWay ? (
            <button type="button" className="is-main" onClick={() => state.setState({ placing: null })}>
              Outline done ({points} points)
            </button>
          ) : (
            <button
              type="button"
              className="is-main"
              aria-pressed={isUnderWay}
              onClick={() => {
                state.setState({ placing: isUnderWay ? null : name, guided: !isUnderWay });
                if (!isUnderWay) focusFilm(film.id);
              }}
            >
              {isUnderWay ? 'Stop placing' : 'Place it on the film'}
            </button>
          )}
          {id === 'femoral-head' && points === 0 && (
            <button
              type="button"
              onClick={() => showWithTool(state, { is: 'point-at', film: film.id, side, looking: false, said: null })}
            >
              Fit it from one press
            </button>
          )}
          <button
            type="button"
            onClick={() => {
              state.setState((s) => ({ later: new Set([...s.later, markKey(name)]), placing: null }));
              if (isUnderWay) focusFilm(film.id);
            }}
          >
            Later
          </button>
          <label className="skip">
            <span className="unseen">Skip {label}, because</span>
            <select value="" onChange={(event) => SKIP_REASONS.filter((r) => r === event.target.value).forEach(skip)}>
              <option value="">Skip, because …</option>
              {SKIP_REASONS.map((reason) => (
                <option key={reason} value={reason}>
                  {SKIP_WORDS[reason]}
                </option>
              ))}
            </select>
          </label>
        </div>
      </div>
    </div>
  );
}
