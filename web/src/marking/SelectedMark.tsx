import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import { markKey, useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { moveEdit, removeEdit } from '../case/marking.ts';
import { Typed } from '../parts/fields.tsx';

const HOW_WORDS: Readonly<Record<Mark['how'], string>> = {
  'by-hand': 'Marked by hand',
  'proposed-and-accepted': 'Proposed and accepted',
  'model-truth': 'Known from the model',
};

/** The selected mark in numbers: the alternative to dragging. */
export function SelectedMark() {
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
      <small>
        {HOW_WORDS[mark.how]}
        {mark.by ? ` by ${mark.by}` : ''}. On the film: arrow keys 1 px, with Shift 10 px, with Alt 0.1 px.
      </small>
    </fieldset>
  );
}
