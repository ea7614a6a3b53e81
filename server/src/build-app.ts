import cookie from '@fastify/cookie';
import multipart from '@fastify/multipart';
import Fastify, { type FastifyInstance } from 'fastify';
import { answerErrors } from './answer-errors.ts';
import { addGuard } from './guard.ts';
import { aboutRoutes } from './routes/about.ts';
import { caseRoutes } from './routes/cases.ts';
import { catalogueRoutes } from './routes/catalogues.ts';
import { editRoutes } from './routes/edits.ts';
import { filmRoutes } from './routes/films.ts';
import { historyRoutes } from './routes/history.ts';
import { importRoutes } from './routes/imports.ts';
import { kitListRoutes } from './routes/kit-lists.ts';
import { learningRoutes } from './routes/learning.ts';
import { pageRoutes } from './routes/pages.ts';
import { planRoutes } from './routes/plans.ts';
import { setListRoutes } from './routes/set-lists.ts';
import { stackRoutes } from './routes/stacks.ts';
import { stockRoutes } from './routes/stock.ts';
import { workUpRoutes } from './routes/work-up.ts';
import { addSafeHeaders } from './safe-headers.ts';
import { sharedSchemas } from './schemas.ts';
import type { Workbench } from './workbench.ts';

/** Largest JSON body: a catalogue or a long group of edits stays far below. */
const LARGEST_BODY = 20 * 1024 * 1024;

/** Assembles the server from its parts. Listens to nothing: see `start.ts`. */
export async function buildApp(bench: Workbench): Promise<FastifyInstance> {
  const app = Fastify({
    bodyLimit: LARGEST_BODY,
    // Values are taken as they come or refused: never turned into another type, never dropped silently.
    ajv: { customOptions: { coerceTypes: false, removeAdditional: false, useDefaults: false } },
    forceCloseConnections: true,
  });
  app.removeContentTypeParser('text/plain');
  for (const schema of sharedSchemas) app.addSchema(schema);
  answerErrors(app, bench.report);
  await addSafeHeaders(app);
  await app.register(cookie);
  addGuard(app, bench);
  await app.register(multipart);
  aboutRoutes(app, bench);
  caseRoutes(app, bench);
  editRoutes(app, bench);
  historyRoutes(app, bench);
  importRoutes(app, bench);
  filmRoutes(app, bench);
  stackRoutes(app, bench);
  catalogueRoutes(app, bench);
  planRoutes(app, bench);
  workUpRoutes(app, bench);
  setListRoutes(app, bench);
  stockRoutes(app, bench);
  kitListRoutes(app, bench);
  learningRoutes(app, bench);
  await pageRoutes(app, bench);
  return app;
}
