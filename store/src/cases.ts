import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Kysely } from 'kysely';
import { change, historyOf, labelsAt, readCaseAt, redo, undo } from './case-history.ts';
import { caseColumns, parseCase } from './documents.ts';
import type { Engine } from './engine.ts';
import type { CaseRow, CaseStore, StoredCase } from './port.ts';
import type { Tables } from './tables.ts';

type Db = Kysely<Tables>;

/** Cases with their whole history, over either engine. */
export function caseStore(db: Db, engine: Engine): CaseStore {
  const at = { db, engine };
  return {
    list: () => listCases(db),
    create: (file, when) => createCase(db, file, when),
    read: (id) => readCase(db, id),
    readAt: (id, revision) => readCaseAt(db, id, revision),
    change: (id, wanted) => change(at, id, wanted),
    undo: (id, wanted) => undo(at, id, wanted),
    redo: (id, wanted) => redo(at, id, wanted),
    withFindings: () => casesWithFindings(db),
    history: (id) => historyOf(db, id),
  };
}

async function listCases(db: Db): Promise<readonly CaseRow[]> {
  const rows = await db
    .selectFrom('cases')
    .select(['id', 'title', 'side', 'invented', 'films', 'revision', 'changed_at'])
    .select((q) =>
      q
        .selectFrom('plans')
        .select((p) => p.fn.max('made_at').as('last'))
        .whereRef('plans.case_id', '=', 'cases.id')
        .as('last_plan_at'),
    )
    .orderBy('changed_at', 'desc')
    .orderBy('id')
    .execute();
  return rows.map(({ invented, changed_at, last_plan_at, ...row }) => ({
    ...row,
    invented: invented === 1,
    changedAt: changed_at,
    lastPlanAt: last_plan_at,
  }));
}

/** The text of a case tells quickly that nothing was found; the case itself decides. */
async function casesWithFindings(db: Db): Promise<readonly CaseFile[]> {
  const rows = await db.selectFrom('cases').select('body').where('body', 'like', '%"found":{%').orderBy('id').execute();
  return rows.map((row) => parseCase(row.body)).filter((file) => file.found !== undefined);
}

async function createCase(db: Db, file: CaseFile, at: string): Promise<Outcome<StoredCase>> {
  const made = await db
    .insertInto('cases')
    .values({ id: file.id, revision: 1, changed_at: at, ...caseColumns(file) })
    .onConflict((c) => c.column('id').doNothing())
    .returning('id')
    .executeTakeFirst();
  if (made) return ok({ case: file, revision: 1, undoLabel: null, redoLabel: null });
  return cannot({
    code: 'case-exists',
    message: `A case ${file.id} is already there.`,
    field: 'id',
    mend: 'Open the case that is there, or give the new one another id.',
  });
}

async function readCase(db: Db, id: string): Promise<StoredCase | null> {
  const row = await db.selectFrom('cases').select(['body', 'revision']).where('id', '=', id).executeTakeFirst();
  return row ? { case: parseCase(row.body), revision: row.revision, ...(await labelsAt(db, id, row.revision)) } : null;
}
