import { randomUUID } from 'node:crypto';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { FastifyInstance } from 'fastify';
import { caseState } from '../case-state.ts';
import type { CaseState, CaseSummary, NewCase } from '../contract.ts';
import { Refusal, refusalFor } from '../errors.ts';
import { newCaseBody } from '../schemas.ts';
import { assertFilmsImported, assertSound } from '../sound-case.ts';
import type { Workbench } from '../workbench.ts';

/** The list of cases, a new case, one case. */
export function caseRoutes(app: FastifyInstance, bench: Workbench): void {
  const { cases } = bench.store;

  app.get('/api/cases', async (): Promise<readonly CaseSummary[]> => cases.list());

  app.post<{ Body: NewCase }>('/api/cases', { schema: { body: newCaseBody } }, async (request, reply) => {
    const file = newCaseFile(request.body);
    assertSound(file, 'case-refused');
    await assertFilmsImported(file, bench);
    const made = await cases.create(file, bench.now().toISOString());
    if (!made.ok) throw refusalFor(made.reason, 'case-refused');
    reply.code(201);
    return caseState(made.value);
  });

  app.get<{ Params: { id: string } }>('/api/cases/:id', async (request): Promise<CaseState> => {
    const stored = await cases.read(request.params.id);
    if (!stored) throw new Refusal('no-such-case', { field: request.params.id });
    return caseState(stored);
  });
}

function newCaseFile({ title, side, patient, films, catalogue }: NewCase): CaseFile {
  return {
    format: 'gapline-case',
    version: '1.0',
    id: randomUUID(),
    title,
    side,
    patient: patient ?? {},
    films,
    marks: [],
    ...(catalogue === undefined ? {} : { catalogue }),
  };
}
