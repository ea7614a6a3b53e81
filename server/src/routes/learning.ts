import type { FastifyInstance } from 'fastify';
import type { LearntCase } from '../contract.ts';
import type { Workbench } from '../workbench.ts';

/** What was forecast and found in this practice so far. */
export function learningRoutes(app: FastifyInstance, bench: Workbench): void {
  app.get('/api/learning', async (): Promise<readonly LearntCase[]> => {
    const files = await bench.store.cases.withFindings();
    return files.flatMap(({ id, title, found, keptForecast }) =>
      found ? [{ id, title, found, ...(keptForecast ? { kept: keptForecast } : {}) }] : [],
    );
  });
}
