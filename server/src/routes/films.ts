import { createReadStream } from 'node:fs';
import type { FastifyInstance } from 'fastify';
import type { FilmAbout } from '../contract.ts';
import { Refusal, refusalFor } from '../errors.ts';
import type { Workbench } from '../workbench.ts';

/** Bytes of one pixel as delivered. */
const PIXEL_BYTES = 2;

/** Read from the disk at once; a long-leg film has some 40 MB. */
const CHUNK = 1 << 20;

const byHash = {
  params: {
    type: 'object',
    required: ['sha256'],
    properties: { sha256: { type: 'string', pattern: '^[0-9a-f]{64}$' } },
  },
} as const;

/** Pictures of imported films, decoded. */
export function filmRoutes(app: FastifyInstance, bench: Workbench): void {
  const aboutOf = async (sha256: string): Promise<FilmAbout> => {
    const film = await bench.store.films.read(sha256);
    if (!film) throw new Refusal('film-not-stored', { field: sha256 });
    return film.about;
  };

  app.get<{ Params: { sha256: string } }>('/api/films/:sha256/about', { schema: byHash }, async (request) =>
    aboutOf(request.params.sha256),
  );

  app.get<{ Params: { sha256: string } }>('/api/films/:sha256/pixels', { schema: byHash }, async (request, reply) => {
    const { sha256 } = request.params;
    const { rows, columns } = await aboutOf(sha256);
    reply.header('etag', `"${sha256}"`);
    if (request.headers['if-none-match'] === `"${sha256}"`) return reply.code(304).send();
    const picture = await bench.filmWork.pixels({ folder: bench.folder, sha256 });
    if (!picture.ok) throw refusalFor(picture.reason, 'film-refused');
    reply.header('content-length', rows * columns * PIXEL_BYTES);
    return reply.type('application/octet-stream').send(createReadStream(picture.value, { highWaterMark: CHUNK }));
  });
}
