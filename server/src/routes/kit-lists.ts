import type { FastifyInstance } from 'fastify';
import type { KitListRequest } from '../contract.ts';
import { Refusal, refusalFor } from '../errors.ts';
import type { Workbench } from '../workbench.ts';

const kitListWanted = {
  body: {
    type: 'object',
    additionalProperties: false,
    properties: { bring: { type: 'array', maxItems: 60, items: { type: 'string', minLength: 1, maxLength: 200 } } },
  },
} as const;

const TYPES = { pdf: 'application/pdf', csv: 'text/csv; charset=utf-8' } as const;

/** The kit of a saved case, on paper and as a table. Nothing is stored here. */
export function kitListRoutes(app: FastifyInstance, bench: Workbench): void {
  const { cases, catalogues, setLists, stock } = bench.store;
  for (const kind of ['pdf', 'csv'] as const) {
    app.post<{ Params: { id: string }; Body: KitListRequest }>(
      `/api/cases/:id/kit-list.${kind}`,
      { schema: kitListWanted },
      async (request, reply) => {
        const stored = await cases.read(request.params.id);
        if (!stored) throw new Refusal('no-such-case', { field: request.params.id });
        const { bring } = request.body;
        const file = bring ? { ...stored.case, kit: { ...stored.case.kit, bring } } : stored.case;
        const named = file.kit?.setList;
        const list = await bench.kitWork.kitList({
          kind,
          caseBody: JSON.stringify(file),
          catalogueBody: file.catalogue === undefined ? null : await catalogues.read(file.catalogue),
          setListBody: named === undefined ? null : await setLists.read(named),
          stockBody: (await stock.newest())?.body ?? null,
          madeAt: bench.now().toISOString(),
        });
        if (!list.ok) throw refusalFor(list.reason, 'kit-refused');
        reply.header('content-disposition', `inline; filename="kit.${kind}"`);
        return reply.type(TYPES[kind]).send(Buffer.from(list.value));
      },
    );
  }
}
