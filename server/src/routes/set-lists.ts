import type { SetList } from '@gapline/core/kit/set-list.ts';
import type { FastifyInstance } from 'fastify';
import type { SetListSummary } from '../contract.ts';
import { Refusal, refusalFor } from '../errors.ts';
import type { Workbench } from '../workbench.ts';

/** Sets that a hospital can have: the example that ships, and those that a person imports. */
export function setListRoutes(app: FastifyInstance, bench: Workbench): void {
  const { setLists } = bench.store;

  app.get('/api/set-lists', async (): Promise<readonly SetListSummary[]> => {
    const rows = await setLists.list();
    return rows.map(({ id, name, catalogue, invented }) => ({ id, name, catalogue, invented }));
  });

  app.get<{ Params: { id: string } }>('/api/set-lists/:id', async (request): Promise<SetList> => {
    const body = await setLists.read(request.params.id);
    if (body === null) throw new Refusal('no-such-set-list', { field: request.params.id });
    return JSON.parse(body) as SetList;
  });

  app.post('/api/set-lists', async (request, reply): Promise<SetListSummary> => {
    const { readSetList } = await import('@gapline/exchange/kit/read-set-list.ts');
    const read = readSetList(JSON.stringify(request.body ?? null), 'The list of sets');
    if (!read.ok) throw refusalFor(read.reason, 'set-list-refused');
    const { id, name, catalogue, invented } = read.value;
    const row = { id, name, catalogue, invented, shipped: false };
    const put = await setLists.put({ ...row, body: JSON.stringify(read.value), at: bench.now().toISOString() });
    if (!put.ok) throw refusalFor(put.reason, 'set-list-refused');
    reply.code(201);
    return { id, name, catalogue, invented };
  });
}
