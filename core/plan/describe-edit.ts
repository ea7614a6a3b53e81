import { LANDMARKS } from '../landmarks/landmark-table.ts';
import { SKIP_WORDS } from '../landmarks/repeated-mark.ts';
import type { Edit } from './edit.ts';
import { editableField } from './editable-fields.ts';

/** One line in the trade's words for what an edit changes, for undo and for the history. */
export function describeEdit(edit: Edit): string {
  switch (edit.kind) {
    case 'put-mark':
      return `${landmarkLabel(edit.mark.landmark)} placed, ${edit.mark.side}`;
    case 'remove-mark':
      return `${landmarkLabel(edit.landmark)} taken away, ${edit.side}`;
    case 'put-repeat':
      return edit.repeat.why === 'conflict'
        ? `${landmarkLabel(edit.repeat.landmark)}: second place kept, ${edit.repeat.side}`
        : `${landmarkLabel(edit.repeat.landmark)} placed again (${edit.repeat.round}), ${edit.repeat.side}`;
    case 'remove-repeat':
      return `${landmarkLabel(edit.landmark)}: placing ${edit.round} taken away, ${edit.side}`;
    case 'put-skip':
      return `${landmarkLabel(edit.skip.landmark)} passed over, ${edit.skip.side}: ${SKIP_WORDS[edit.skip.reason]}`;
    case 'remove-skip':
      return `${landmarkLabel(edit.landmark)} asked for again, ${edit.side}`;
    case 'put-film':
      return `Film ${edit.film.file}`;
    case 'remove-film':
      return `Film ${edit.film} taken out`;
    case 'set': {
      const label = editableField(edit.field)?.label ?? edit.field;
      return edit.value === null ? `${label} cleared` : `${label} set${shortValue(edit.value)}`;
    }
    case 'group':
      return edit.label;
  }
}

const landmarkLabel = (id: string): string => LANDMARKS.find((l) => l.id === id)?.label ?? id;

/** Words and numbers are told; free text and whole sections are too long for a label. */
const shortValue = (value: unknown): string =>
  typeof value === 'number' || (typeof value === 'string' && value.length <= 24) ? ` to ${value}` : '';
