import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { SKIP_WORDS } from '@gapline/core/landmarks/repeated-mark.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { useState } from 'react';
import { markKey, useDesk, useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { isMarked } from '../case/marking.ts';
import { skipOf, tourOf } from './guided.ts';
import { unlocksLine, unlocksOf } from './unlocks.ts';

interface Props {
  readonly film: CaseFilm;
  readonly side: Side;
}

/** Every landmark of the film in the order in which it is asked for, with what each missing one would unlock. */
export function MarkList({ film, side }: Props) {
  const [open, setOpen] = useState(false);
  const all = tourOf(film.view);
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
  const { session, state } = useDesk();
  const there = useSession((s) => isMarked(s.shown, name));
  const skip = useSession((s) => skipOf(s.shown, name));
  const later = useDeskState((s) => s.later.has(markKey(name)));
  const gives = usePlanning((s) => (there ? null : unlocksLine(unlocksOf(s.plan, name.landmark, name.side))));
  const word = there ? 'marked' : skip ? SKIP_WORDS[skip.reason] : later ? 'put off' : 'not marked';
  const askAgain = (): void => {
    const edit: Edit = { kind: 'remove-skip', ...name };
    session.commit([edit], describeEdit(edit));
  };
  return (
    <li>
      <button
        type="button"
        onClick={() =>
          state.setState(
            there
              ? { selected: { key: markKey(name), index: 0 }, placing: null }
              : { placing: { ...name }, guided: false, tool: null },
          )
        }
      >
        <span className={`mark-state is-${there ? 'marked' : 'open'}`} aria-hidden="true" />
        <span>
          {landmark(name.landmark).label}
          {gives && <small className="gives">Gives: {gives}</small>}
        </span>
        <small className="mark-word">{word}</small>
      </button>
      {skip && !there && (
        <button type="button" className="ask-again" onClick={askAgain}>
          Ask for it again
        </button>
      )}
    </li>
  );
}
