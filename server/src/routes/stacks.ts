import { createReadStream } from 'node:fs';
import { Readable } from 'node:stream';
import type { FastifyInstance } from 'fastify';
import { Refusal, refusalFor } from '../errors.ts';
import type { Workbench } from '../workbench.ts';

/** Slices in one answer at most: some 16 MB of the usual size. */
const MOST = 32;
const PIXEL_BYTES = 2;

const wanted = {
  querystring: {
    type: 'object',
    required: ['from', 'count'],
    properties: { from: { type: 'string', pattern: '^\\d{1,5}$' }, count: { type: 'string', pattern: '^\\d{1,2}$' } },
  },
} as const;

interface Asked {
  readonly Params: { readonly id: string; readonly film: string };
  readonly Querystring: { readonly from: string; readonly count: string };
}

/** Slices of CT stacks, a run at a time, on the scale of grey that the whole stack shares. */
export function stackRoutes(app: FastifyInstance, bench: Workbench): void {
  app.get<Asked>('/api/cases/:id/films/:film/slices', { schema: wanted }, async (request, reply) => {
    const stored = await bench.store.cases.read(request.params.id);
    if (!stored) throw new Refusal('no-such-case', { field: request.params.id });
    const film = stored.case.films.find((f) => f.id === request.params.film);
    const from = Number(request.query.from);
    const count = Math.min(Number(request.query.count), MOST);
    const hashes = film?.slices?.each.slice(from, from + count).map((slice) => slice.sha256) ?? [];
    if (!film || hashes.length === 0) throw new Refusal('film-not-stored', { field: request.params.film });
    const paths = await bench.filmWork.slices({ folder: bench.folder, hashes });
    if (!paths.ok) throw refusalFor(paths.reason, 'film-refused');
    const { rows, columns } = film.scaleFacts;
    reply.header('content-length', hashes.length * rows * columns * PIXEL_BYTES);
    return reply.type('application/octet-stream').send(Readable.from(oneAfterTheOther(paths.value)));
  });
}

async function* oneAfterTheOther(paths: readonly string[]): AsyncGenerator<Uint8Array> {
  for (const path of paths) yield* createReadStream(path, { highWaterMark: 1 << 20 });
}
