import type { FastifyInstance } from 'fastify';
import type { About } from '../contract.ts';
import type { Workbench } from '../workbench.ts';

export function aboutRoutes(app: FastifyInstance, bench: Workbench): void {
  app.get('/api/about', async (): Promise<About> => ({ version: bench.version, storage: bench.store.storage }));
}
