import { type Landmark, type LandmarkId, landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import { useState } from 'react';
import { markKey, useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import {
  isMarked,
  LEAST_OUTLINE,
  landmarksOf,
  markOn,
  moveEdit,
  nextToMark,
  removeEdit,
  sidesOn,
  unlockedBy,
} from '../case/marking.ts';
import { tabWord } from '../film/FilmTabs.tsx';
import { Typed } from '../parts/fields.tsx';
import { sideWord } from '../parts/words.ts';
import { LandmarkSketch } from '../sketch/LandmarkSketch.tsx';

/** What to mark next, where it lies, and everything marked on the shown film. */
export function MarksStep() {
  const films = useSession((s) => s.shown.films);
  const caseSide = useSession((s) => s.shown.side);
  const [first] = useDeskState((s) => s.films);
  const film = films.find((f) => f.id === first);
  const [wanted, setWanted] = useState<Side | null>(null);
  if (!film) return <p>Marks need a film.</p>;
  const sides = sidesOn(film, caseSide);
  const side = wanted && sides.includes(wanted) ? wanted : (sides[0] ?? caseSide);
  return (
    <>
      <p className="marks-on">
        On: <strong>{tabWord(film, films)}</strong>
        {sides.length > 1 && (
          <span className="sides is-small">
            {sides.map((one) => (
              <button key={one} type="button" aria-pressed={one === side} onClick={() => setWanted(one)}>
                {sideWord(one)} leg
              </button>
            ))}
          </span>
        )}
      </p>
      <NextMark film={film} side={side} />
      <SelectedMark />
      <MarkList film={film} side={side} />
    </>
  );
}

interface OnFilm {
  readonly film: CaseFilm;
  readonly side: Side;
}

/** The guided list's head: the landmark that is asked for now. */
function NextMark({ film, side }: OnFilm) {
  const { state } = useDesk();
  const file = useSession((s) => s.shown);
  const plan = usePlanning((s) => s.plan);
  const skipped = useDeskState((s) => s.skipped);
  const placing = useDeskState((s) => s.placing);
  const underWay = placing?.film === film.id && placing.side === side ? landmark(placing.landmark) : null;
  const next = (underWay as (Landmark & { id: LandmarkId }) | null) ?? nextToMark(file, film, side, skipped);
  if (!next) {
    return (
      <p className="next-none">
        Nothing left to ask for on this film.
        {skipped.size > 0 && (
          <button type="button" onClick={() => state.setState({ skipped: new Set() })}>
            Ask again for what was skipped
          </button>
        )}
      </p>
    );
  }
  const name = { landmark: next.id, side, film: film.id };
  const points = markOn(file, name)?.points.length ?? 0;
  const unlocks = unlockedBy(plan, next.id, side);
  const done = next.outline && points >= LEAST_OUTLINE && underWay !== null;
  return (
    <div className="next-mark">
      <LandmarkSketch landmark={next.id} side={side} />
      <div>
        <h3>{next.label}</h3>
        <p>{next.pick}</p>
        {unlocks.length > 0 && <p className="unlocks">Gives: {told(unlocks)}</p>}
        <div className="row">
          {done ? (
            <button type="button" className="is-main" onClick={() => state.setState({ placing: null })}>
              Outline done ({points} points)
            </button>
          ) : (
            <button
              type="button"
              className="is-main"
              aria-pressed={underWay !== null}
              onClick={() => {
                state.setState({ placing: underWay ? null : name });
                if (!underWay) document.querySelector<HTMLElement>('.film-touch')?.focus();
              }}
            >
              {underWay ? 'Stop placing' : 'Place it on the film'}
            </button>
          )}
          <button
            type="button"
            onClick={() => state.setState({ skipped: new Set([...skipped, markKey(name)]), placing: null })}
          >
            Skip
          </button>
        </div>
      </div>
    </div>
  );
}

const told = (labels: readonly string[]): string =>
  labels.length > 4 ? `${labels.slice(0, 4).join(', ')} and ${labels.length - 4} more` : labels.join(', ');

/** The selected mark in numbers: the alternative to dragging. */
function SelectedMark() {
  const { session, state } = useDesk();
  const selected = useDeskState((s) => s.selected);
  const mark = useSession((s) => s.shown.marks.find((m) => selected && markKey(m) === selected.key));
  const point = selected && mark?.points[selected.index];
  if (!selected || !mark || !point) return null;
  const { label, outline } = landmark(mark.landmark);
  const move = (axis: 'x' | 'y', text: string): string | null => {
    const typed = Number(text.replace(',', '.'));
    if (text === '' || !Number.isFinite(typed)) return 'A plain number of pixels is wanted.';
    session.commit([moveEdit(mark, selected.index, { ...point, [axis]: typed })], `${label} moved, ${mark.side}`);
    return null;
  };
  return (
    <fieldset className="selected-mark">
      <legend>
        {label}, {mark.side}
        {outline ? `, point ${selected.index + 1} of ${mark.points.length}` : ''}
      </legend>
      <Typed label="Column" type="text" numeric unit="px" shown={String(point.x)} commit={(t) => move('x', t)} />
      <Typed label="Row" type="text" numeric unit="px" shown={String(point.y)} commit={(t) => move('y', t)} />
      <button
        type="button"
        onClick={() => {
          const edit = removeEdit(mark, selected.index);
          session.commit(
            [edit],
            outline && mark.points.length > 1 ? `${label}: one point taken away` : describeEdit(edit),
          );
          state.setState({ selected: null });
        }}
      >
        Take away
      </button>
      <small>On the film: arrow keys 1 px, with Shift 10 px, with Alt 0.1 px.</small>
    </fieldset>
  );
}

function MarkList({ film, side }: OnFilm) {
  const [open, setOpen] = useState(false);
  const all = landmarksOf(film);
  const marked = useSession(
    (s) => all.filter((l) => isMarked(s.shown, { landmark: l.id, side, film: film.id })).length,
  );
  return (
    <details className="mark-list" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        All {all.length} landmarks of this film, {marked} marked
      </summary>
      {open && (
        <ul>
          {all.map((l) => (
            <MarkLine key={l.id} name={{ landmark: l.id, side, film: film.id }} />
          ))}
        </ul>
      )}
    </details>
  );
}

/** One landmark of the list: pressed, its mark is selected; where there is none, it is to be placed. */
function MarkLine({ name }: { readonly name: Pick<Mark, 'landmark' | 'side' | 'film'> }) {
  const { state } = useDesk();
  const there = useSession((s) => isMarked(s.shown, name));
  const skipped = useDeskState((s) => s.skipped.has(markKey(name)));
  const word = there ? 'marked' : skipped ? 'skipped' : 'not marked';
  return (
    <li>
      <button
        type="button"
        onClick={() =>
          state.setState(
            there ? { selected: { key: markKey(name), index: 0 }, placing: null } : { placing: { ...name } },
          )
        }
      >
        <span className={`mark-state is-${there ? 'marked' : 'open'}`} aria-hidden="true" />
        {landmark(name.landmark).label}
        <small>{word}</small>
      </button>
    </li>
  );
}
