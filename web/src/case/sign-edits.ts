import type { Edit } from '@gapline/core/plan/edit.ts';

/** The edits with the person's name on every mark, repeat and skip that names nobody yet; without a name as they are. */
export function signed(edits: readonly Edit[], by: string | undefined): readonly Edit[] {
  return by === undefined ? edits : edits.map((edit) => signedOne(edit, by));
}

function signedOne(edit: Edit, by: string): Edit {
  switch (edit.kind) {
    case 'put-mark':
      return { ...edit, mark: { ...edit.mark, by: edit.mark.by ?? by } };
    case 'put-repeat':
      return { ...edit, repeat: { ...edit.repeat, by: edit.repeat.by ?? by } };
    case 'put-skip':
      return { ...edit, skip: { ...edit.skip, by: edit.skip.by ?? by } };
    case 'group':
      return { ...edit, edits: signed(edit.edits, by) };
    default:
      return edit;
  }
}
