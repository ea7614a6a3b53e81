import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { SKIP_WORDS, sameLandmark } from '@gapline/core/landmarks/repeated-mark.ts';
import type { MarkChange } from '@gapline/core/plan/mark-changes.ts';
import { useEffect, useState } from 'react';
import type { HistoryLine } from '../../../server/src/contract.ts';
import { useDesk, useSession } from '../case/desk.tsx';
import { faultText } from '../parts/fault-text.ts';
import { instant, number } from '../parts/words.ts';
import { getHistory } from '../wire/api.ts';
import { putBack } from './put-back.ts';
import { showMark } from './show-mark.ts';

/** So many changes are listed at once; more on request. */
const AT_ONCE = 30;
const KIND_WORDS: Readonly<Record<HistoryLine['kind'], string>> = { edit: '', undo: 'Undone: ', redo: 'Done again: ' };

/** Every change of a mark: when, by whom, before and after; shown on the film, and put back one by one (LM-11). */
export function MarksHistory() {
  const [open, setOpen] = useState(false);
  return (
    <details className="marks-history" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>History of marks</summary>
      {open && <Lines />}
    </details>
  );
}

function Lines() {
  const id = useSession((s) => s.confirmed.case.id);
  const revision = useSession((s) => s.confirmed.revision);
  const [lines, setLines] = useState<readonly HistoryLine[] | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [shown, setShown] = useState(AT_ONCE);
  useEffect(() => {
    let wanted = true;
    getHistory(id)
      .then((all) => wanted && setLines(upTo(revision, all)))
      .catch((reason: unknown) => wanted && setFault(faultText(reason)));
    return () => {
      wanted = false;
    };
  }, [id, revision]);
  if (fault) return <p className="field-fault">{fault}</p>;
  if (!lines) return <p role="status">The history is being read …</p>;
  if (lines.length === 0) return <p>No mark was changed yet.</p>;
  return (
    <>
      <ol>
        {lines.slice(0, shown).map((line) => (
          <li key={line.revision}>
            <p>
              {KIND_WORDS[line.kind]}
              {line.label}
              <small>
                {instant(line.at)}
                {line.by ? `, ${line.by}` : ''}
              </small>
            </p>
            <ul>
              {line.marks.map((change) => (
                <Change key={`${change.is} ${keyOf(change)}`} change={change} />
              ))}
            </ul>
          </li>
        ))}
      </ol>
      {lines.length > shown && (
        <button type="button" onClick={() => setShown(shown + AT_ONCE)}>
          Earlier changes ({lines.length - shown})
        </button>
      )}
    </>
  );
}

/** Changes of marks up to what this page shows, newest first. */
const upTo = (revision: number, all: readonly HistoryLine[]): readonly HistoryLine[] =>
  all.filter((l) => l.marks.length > 0 && l.revision <= revision).toReversed();

const nameOf = (change: MarkChange): Pick<Mark, 'landmark' | 'side' | 'film'> => {
  const name = change.after ?? change.before;
  if (!name) throw new Error('a change of nothing');
  return name;
};
const keyOf = (change: MarkChange): string => {
  const { landmark: id, side, film } = nameOf(change);
  return `${id} ${side} ${film}`;
};

function Change({ change }: { readonly change: MarkChange }) {
  const desk = useDesk();
  const name = nameOf(change);
  const file = useSession((s) => s.shown);
  const { label } = landmark(name.landmark);
  const back = change.is === 'mark' ? putBack(file, change.before, name) : null;
  const isThere = file.marks.some((m) => sameLandmark(m, name));
  return (
    <li>
      <span>
        {label}, {name.side}: {places(change)}
      </span>
      {isThere && (
        <button type="button" onClick={() => showMark(desk, name)}>
          Show<span className="unseen"> {label}</span>
        </button>
      )}
      {back && (
        <button
          type="button"
          title={change.before ? 'Puts this mark back to where it was before' : 'Takes this mark away again'}
          onClick={() => desk.session.commit([back], `${label} put back, ${name.side}`)}
        >
          Put back<span className="unseen"> {label}</span>
        </button>
      )}
    </li>
  );
}

function places(change: MarkChange): string {
  if (change.is === 'skip') return change.after ? `passed over, ${SKIP_WORDS[change.after.reason]}` : 'asked for again';
  const { before, after } = change;
  const again = change.is === 'repeat' ? `placing ${(change.after ?? change.before)?.round}, ` : '';
  if (!after) return `${again}taken away from ${placeOf(before)}`;
  const how = after.how === 'proposed-and-accepted' ? ', proposed and accepted' : '';
  return before ? `${again}${placeOf(before)} to ${placeOf(after)}${how}` : `${again}placed at ${placeOf(after)}${how}`;
}

/** Where it lies, as column and row; of an outline how many points. */
function placeOf(mark: Pick<Mark, 'points'> | null): string {
  const [first] = mark?.points ?? [];
  if (!mark || !first) return 'nowhere';
  if (mark.points.length > 1) return `${mark.points.length} points`;
  return `${number(first.x, 'mm')} / ${number(first.y, 'mm')}`;
}
