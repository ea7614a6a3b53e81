import type { Outcome } from '@gapline/core/measure/outcome.ts';
import { applyEdit } from '@gapline/core/plan/apply-edit.ts';
import type { StoredCase } from '@gapline/store/src/port.ts';
import type { FastifyInstance } from 'fastify';
import { caseState } from '../case-state.ts';
import type { CaseState, EditRequest } from '../contract.ts';
import { Refusal, refusalFor } from '../errors.ts';
import { editRequestBody, stepBody } from '../schemas.ts';
import { assertFilmsImported, assertSound } from '../sound-case.ts';
import type { Workbench } from '../workbench.ts';

interface Step {
  Params: { id: string };
  Body: Pick<EditRequest, 'baseRevision' | 'by'>;
}

/** Every change of a case. The answer is sent when the change is on the disk. */
export function editRoutes(app: FastifyInstance, bench: Workbench): void {
  const { cases } = bench.store;
  const at = () => bench.now().toISOString();

  app.post<{ Params: { id: string }; Body: EditRequest }>(
    '/api/cases/:id/edits',
    { schema: { body: editRequestBody } },
    async (request) => {
      const { id } = request.params;
      await assertOutcomeSound(id, request.body, bench);
      return answer(await cases.change(id, { ...request.body, at: at() }));
    },
  );

  app.post<Step>('/api/cases/:id/undo', { schema: { body: stepBody } }, async (request) =>
    answer(await cases.undo(request.params.id, { ...request.body, at: at() })),
  );

  app.post<Step>('/api/cases/:id/redo', { schema: { body: stepBody } }, async (request) =>
    answer(await cases.redo(request.params.id, { ...request.body, at: at() })),
  );
}

function answer(outcome: Outcome<StoredCase>): CaseState {
  if (!outcome.ok) throw refusalFor(outcome.reason, 'edit-refused');
  return caseState(outcome.value);
}

/**
 * Looks at the case as it would be before anything is stored. The revision that was looked at is the one
 * that the store will insist on, so nothing can change in between.
 */
async function assertOutcomeSound(id: string, { baseRevision, edits, label }: EditRequest, bench: Workbench) {
  const stored = await bench.store.cases.read(id);
  if (!stored) throw new Refusal('no-such-case', { field: id });
  // The store refuses another revision in its own words.
  if (stored.revision !== baseRevision) return;
  const after = applyEdit(stored.case, { kind: 'group', label, edits });
  if (!after.ok) throw refusalFor(after.reason, 'edit-refused');
  assertSound(after.value, 'edit-refused');
  if (after.value.films !== stored.case.films) await assertFilmsImported(after.value, bench);
}
