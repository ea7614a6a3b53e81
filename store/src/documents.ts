import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';

/** A case as the columns of its row. */
export const caseColumns = (file: CaseFile) => ({
  title: file.title,
  side: file.side,
  invented: file.invented ? 1 : 0,
  films: file.films.length,
  body: JSON.stringify(file),
});

export const parseCase = (body: string): CaseFile => JSON.parse(body) as CaseFile;

export const parseEdit = (body: string): Edit => JSON.parse(body) as Edit;
