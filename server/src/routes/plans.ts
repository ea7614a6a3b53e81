import { randomUUID } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import type { PlanBody, SavedPlan } from '../contract.ts';
import { Refusal, refusalFor } from '../errors.ts';
import type { Workbench } from '../workbench.ts';

interface ById {
  Params: { id: string };
}

/** Plans: computed here from the saved case, kept for ever, printed as a sheet. */
export function planRoutes(app: FastifyInstance, bench: Workbench): void {
  const { cases, catalogues, plans } = bench.store;

  app.post<ById>('/api/cases/:id/plans', async (request, reply): Promise<SavedPlan> => {
    const stored = await cases.read(request.params.id);
    if (!stored) throw new Refusal('no-such-case', { field: request.params.id });
    const { catalogue } = stored.case;
    const catalogueBody = catalogue === undefined ? null : await catalogues.read(catalogue);
    if (catalogue !== undefined && catalogueBody === null) {
      throw new Refusal('no-such-catalogue', {
        message: `The case names the catalogue ${catalogue}, which is not here.`,
        field: 'catalogue',
      });
    }
    // Loaded at the first plan: the server starts without it.
    const { computePlan } = await import('../compute-plan.ts');
    const made = computePlan(stored.case, catalogueBody);
    const saved: SavedPlan = {
      id: randomUUID(),
      caseId: stored.case.id,
      revision: stored.revision,
      madeAt: bench.now().toISOString(),
      coreVersion: made.coreVersion,
      sha256: made.sha256,
    };
    const { body, caseBody } = made;
    await plans.append({ ...saved, body, caseBody, catalogueBody });
    reply.code(201);
    return saved;
  });

  app.get<ById>('/api/cases/:id/plans', async (request): Promise<readonly SavedPlan[]> => {
    if (!(await cases.read(request.params.id))) throw new Refusal('no-such-case', { field: request.params.id });
    return plans.list(request.params.id);
  });

  const planOf = async (id: string) => {
    const plan = await plans.read(id);
    if (!plan) throw new Refusal('no-such-plan', { field: id });
    return plan;
  };

  app.get<ById>('/api/plans/:id', async (request): Promise<PlanBody> => {
    const plan = await planOf(request.params.id);
    return JSON.parse(plan.body) as PlanBody;
  });

  app.get<ById>('/api/plans/:id/sheet.pdf', async (request, reply) => {
    const { body: planBody, caseBody, catalogueBody, madeAt, id } = await planOf(request.params.id);
    const sheet = await bench.filmWork.sheet({ folder: bench.folder, caseBody, planBody, catalogueBody, madeAt });
    if (!sheet.ok) throw refusalFor(sheet.reason, 'sheet-refused');
    reply.header('content-disposition', `inline; filename="plan-${id.slice(0, 8)}.pdf"`);
    return reply.type('application/pdf').send(Buffer.from(sheet.value));
  });
}
