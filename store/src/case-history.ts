import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { applyEdit } from '@gapline/core/plan/apply-edit.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { describeEdit } from '@gapline/core/plan/describe-edit.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { invertEdit } from '@gapline/core/plan/invert-edit.ts';
import type { Kysely } from 'kysely';
import { caseColumns, parseCase, parseEdit } from './documents.ts';
import type { Engine } from './engine.ts';
import { historyHeads } from './history-heads.ts';
import type { Change, HistoryEntry, StoredCase } from './port.ts';
import type { Tables } from './tables.ts';

type Db = Kysely<Tables>;

interface At {
  readonly db: Db;
  readonly engine: Engine;
}

type When = Pick<Change, 'baseRevision' | 'at' | 'by'>;

/** One step that a case takes: a new edit, or one taken back or brought back. */
interface Step {
  readonly kind: 'edit' | 'undo' | 'redo';
  readonly target: number | null;
  readonly label: string;
  readonly edit: Edit;
}

/** Applies the edits as one step, undone at once. */
export function change(at: At, id: string, wanted: Change): Promise<Outcome<StoredCase>> {
  const [first] = wanted.edits;
  const edit: Edit =
    first && wanted.edits.length === 1 ? first : { kind: 'group', label: wanted.label, edits: wanted.edits };
  const label = wanted.label.trim() || describeEdit(edit);
  return advance(at, { id, ...wanted }, async () => ok({ kind: 'edit', target: null, label, edit }));
}

/** Appends the inverse of the newest edit that still stands. */
export function undo(at: At, id: string, when: When): Promise<Outcome<StoredCase>> {
  return advance(at, { id, ...when }, async (trx, revision) => {
    const row = await stepAt(trx, id, (await headsAt(trx, id, revision)).undo);
    if (!row) return cannot({ code: 'nothing-to-undo', message: 'There is nothing to undo.' });
    return ok({ kind: 'undo', target: row.revision, label: row.label, edit: parseEdit(row.inverse) });
  });
}

/** Appends again the edit that was undone last, unless another edit has come since. */
export function redo(at: At, id: string, when: When): Promise<Outcome<StoredCase>> {
  return advance(at, { id, ...when }, async (trx, revision) => {
    const row = await stepAt(trx, id, (await headsAt(trx, id, revision)).redo);
    if (!row) return cannot({ code: 'nothing-to-redo', message: 'There is nothing to redo.' });
    return ok({ kind: 'redo', target: row.revision, label: row.label, edit: parseEdit(row.edit) });
  });
}

/** Reads, applies and writes in one transaction: the step and the new case are stored together or not at all. */
function advance(
  { db, engine }: At,
  { id, baseRevision, at, by }: When & { readonly id: string },
  choose: (trx: Db, revision: number) => Promise<Outcome<Step>>,
): Promise<Outcome<StoredCase>> {
  return db.transaction().execute(async (trx): Promise<Outcome<StoredCase>> => {
    const select = trx.selectFrom('cases').select(['body', 'revision']).where('id', '=', id);
    const row = await (engine === 'postgresql' ? select.forUpdate() : select).executeTakeFirst();
    if (!row) return noSuchCase(id);
    if (row.revision !== baseRevision) return conflict(row.revision, baseRevision);
    const step = await choose(trx, row.revision);
    if (!step.ok) return step;
    const before = parseCase(row.body);
    const after = applyEdit(before, step.value.edit);
    if (!after.ok) return after;
    const revision = row.revision + 1;
    await writeStep(trx, { id, revision, at, by, before, step: step.value });
    await trx
      .updateTable('cases')
      .set({ revision, changed_at: at, ...caseColumns(after.value) })
      .where('id', '=', id)
      .execute();
    return ok({ case: after.value, revision, ...(await labelsAt(trx, id, revision)) });
  });
}

interface Written {
  readonly id: string;
  readonly revision: number;
  readonly at: string;
  readonly by: string | undefined;
  readonly before: CaseFile;
  readonly step: Step;
}

async function writeStep(trx: Db, { id, revision, at, by, before, step }: Written): Promise<void> {
  const { kind, target, label, edit } = step;
  const inverse = JSON.stringify(invertEdit(before, edit));
  await trx
    .insertInto('history')
    .values({ case_id: id, revision, kind, target, label, edit: JSON.stringify(edit), inverse, at, person: by ?? null })
    .execute();
}

const noSuchCase = (id: string) =>
  cannot({ code: 'no-such-case', message: `There is no case ${id}.`, mend: 'Go back to the list of cases.' });

const conflict = (newest: number, base: number) =>
  cannot({
    code: 'revision-conflict',
    message: `The case was changed elsewhere: it stands at revision ${newest}, this change was made on ${base}.`,
    field: 'baseRevision',
    mend: 'Reload the case and make the change again.',
  });

/** Heads of undo and redo at one revision, so that a reader never sees a step made since. */
async function headsAt(db: Db, id: string, revision: number) {
  const steps = await db
    .selectFrom('history')
    .select(['revision', 'kind', 'target'])
    .where('case_id', '=', id)
    .where('revision', '<=', revision)
    .orderBy('revision')
    .execute();
  return historyHeads(steps);
}

async function stepAt(db: Db, id: string, revision: number | null) {
  if (revision === null) return undefined;
  return db
    .selectFrom('history')
    .select(['revision', 'label', 'edit', 'inverse'])
    .where('case_id', '=', id)
    .where('revision', '=', revision)
    .executeTakeFirst();
}

/** What undo and redo would do at that revision, in words. */
export async function labelsAt(
  db: Db,
  id: string,
  revision: number,
): Promise<Pick<StoredCase, 'undoLabel' | 'redoLabel'>> {
  const heads = await headsAt(db, id, revision);
  return {
    undoLabel: (await stepAt(db, id, heads.undo))?.label ?? null,
    redoLabel: (await stepAt(db, id, heads.redo))?.label ?? null,
  };
}

/** Winds the newest case back by the stored inverses, newest first; null where there is no such revision. */
export async function readCaseAt(db: Db, id: string, revision: number): Promise<CaseFile | null> {
  const newest = await db.selectFrom('cases').select(['body', 'revision']).where('id', '=', id).executeTakeFirst();
  if (!newest || revision < 1 || revision > newest.revision) return null;
  const steps = await db
    .selectFrom('history')
    .select('inverse')
    .where('case_id', '=', id)
    .where('revision', '>', revision)
    .where('revision', '<=', newest.revision)
    .orderBy('revision', 'desc')
    .execute();
  let file = parseCase(newest.body);
  for (const step of steps) {
    const before = applyEdit(file, parseEdit(step.inverse));
    if (!before.ok) throw new Error(`history of case ${id} does not wind back: ${before.reason.message}`);
    file = before.value;
  }
  return file;
}

/** Every step of a case, oldest first. */
export async function historyOf(db: Db, id: string): Promise<readonly HistoryEntry[]> {
  const rows = await db.selectFrom('history').selectAll().where('case_id', '=', id).orderBy('revision').execute();
  return rows.map(({ revision, kind, label, edit, inverse, at, person }) => ({
    revision,
    kind,
    label,
    edit: parseEdit(edit),
    inverse: parseEdit(inverse),
    at,
    ...(person === null ? {} : { by: person }),
  }));
}
