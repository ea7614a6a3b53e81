import { markChanges } from '@gapline/core/plan/mark-changes.ts';
import type { FastifyInstance } from 'fastify';
import type { HistoryLine } from '../contract.ts';
import { Refusal } from '../errors.ts';
import type { Workbench } from '../workbench.ts';

/** Every change of a case, oldest first: when, by whom, and what it did to which mark (LM-11). */
export function historyRoutes(app: FastifyInstance, { store: { cases } }: Workbench): void {
  app.get<{ Params: { id: string } }>('/api/cases/:id/history', async ({ params }): Promise<readonly HistoryLine[]> => {
    if (!(await cases.read(params.id))) throw new Refusal('no-such-case', { field: params.id });
    const steps = await cases.history(params.id);
    return steps.map(({ edit, inverse, ...line }) => ({ ...line, marks: markChanges(edit, inverse) }));
  });
}
