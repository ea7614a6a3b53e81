import type { StockItem } from '@gapline/core/kit/set-list.ts';
import type { FastifyInstance } from 'fastify';
import type { StockBody, StockImport } from '../contract.ts';
import { refusalFor } from '../errors.ts';
import type { Workbench } from '../workbench.ts';

const LONGEST_CSV = 10_000_000;

const stockWanted = {
  body: {
    type: 'object',
    required: ['name', 'csv'],
    additionalProperties: false,
    properties: {
      name: { type: 'string', minLength: 1, maxLength: 200 },
      csv: { type: 'string', maxLength: LONGEST_CSV },
    },
  },
} as const;

/** What lies on the shelf. An import stands in for the one before; a refused one changes nothing. */
export function stockRoutes(app: FastifyInstance, bench: Workbench): void {
  app.get('/api/stock', async (_, reply) => {
    const row = await bench.store.stock.newest();
    // Fastify answers `null` with nothing at all; the page asks for JSON.
    if (!row) return reply.type('application/json').send('null');
    const items = JSON.parse(row.body) as readonly StockItem[];
    return { items, from: row.file, importedAt: row.importedAt } satisfies StockBody;
  });

  app.post<{ Body: StockImport }>('/api/stock', { schema: stockWanted }, async (request, reply): Promise<StockBody> => {
    const { name, csv } = request.body;
    const { readStockCsv } = await import('@gapline/exchange/kit/read-stock-csv.ts');
    const read = readStockCsv(csv, name);
    if (!read.ok) throw refusalFor(read.reason, 'stock-refused');
    const importedAt = bench.now().toISOString();
    await bench.store.stock.put({ file: name, importedAt, body: JSON.stringify(read.value) });
    reply.code(201);
    return { items: read.value, from: name, importedAt };
  });
}
