import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import type { FastifyInstance } from 'fastify';
import type { CatalogueSummary } from '../contract.ts';
import { Refusal, refusalFor } from '../errors.ts';
import type { Workbench } from '../workbench.ts';

/** Implant catalogues: the example that ships, and those that a person imports. */
export function catalogueRoutes(app: FastifyInstance, bench: Workbench): void {
  const { catalogues } = bench.store;

  app.get('/api/catalogues', async (): Promise<readonly CatalogueSummary[]> => {
    const rows = await catalogues.list();
    return rows.map(({ id, name, invented }) => ({ id, name, invented }));
  });

  app.get<{ Params: { id: string } }>('/api/catalogues/:id', async (request): Promise<Catalogue> => {
    const body = await catalogues.read(request.params.id);
    if (body === null) throw new Refusal('no-such-catalogue', { field: request.params.id });
    return JSON.parse(body) as Catalogue;
  });

  app.post('/api/catalogues', async (request, reply): Promise<CatalogueSummary> => {
    const read = await readBody(request.body);
    if (!read.ok) throw refusalFor(read.reason, 'catalogue-refused');
    const { id, name, invented } = read.value;
    const put = await catalogues.put({
      id,
      name,
      invented,
      shipped: false,
      body: JSON.stringify(read.value),
      at: bench.now().toISOString(),
    });
    if (!put.ok) throw refusalFor(put.reason, 'catalogue-refused');
    reply.code(201);
    return { id, name, invented };
  });
}

/** A catalogue as JSON, or as the texts of its CSV tables under their file names. */
async function readBody(body: unknown): Promise<Outcome<Catalogue>> {
  const tables = csvTables(body);
  if (tables) {
    const { readCatalogueCsv } = await import('@gapline/exchange/catalogue/read-catalogue-csv.ts');
    return readCatalogueCsv(tables);
  }
  const { readCatalogue } = await import('@gapline/exchange/catalogue/read-catalogue.ts');
  return readCatalogue(JSON.stringify(body ?? null), 'The catalogue');
}

function csvTables(body: unknown): Readonly<Record<string, string>> | null {
  if (typeof body !== 'object' || body === null || !('csv' in body)) return null;
  const { csv } = body;
  if (typeof csv !== 'object' || csv === null) return null;
  const entries = Object.entries(csv);
  if (!entries.every((entry): entry is [string, string] => typeof entry[1] === 'string')) return null;
  return Object.fromEntries(entries);
}
