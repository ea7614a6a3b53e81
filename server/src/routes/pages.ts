import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { Refusal } from '../errors.ts';
import { cookieName, hasSession } from '../guard.ts';
import { makeToken, tokenHash } from '../one-time-key.ts';
import type { Workbench } from '../workbench.ts';

/** A session lasts a working day; a new one is a restart away. */
const SESSION_HOURS = 12;
const HOUR_MS = 3_600_000;

/** The pages, and the one address that signs a browser in. */
export async function pageRoutes(app: FastifyInstance, bench: Workbench): Promise<void> {
  await app.register(fastifyStatic, {
    root: bench.pages,
    index: false,
    cacheControl: false,
    // Addresses of the app itself, such as /cases/7, lead to its one page below.
    wildcard: true,
  });

  app.get<{ Querystring: { key?: string } }>('/', async (request, reply) => {
    const { key } = request.query;
    if (key === undefined) return reply.sendFile('index.html');
    if (bench.key.spend(key)) {
      reply.header('set-cookie', await signIn(bench));
    } else if (!(await hasSession(request, bench))) {
      throw new Refusal('key-not-valid');
    }
    // Takes the key out of the address bar and the history.
    return reply.redirect('/', 303);
  });
}

async function signIn(bench: Workbench): Promise<string> {
  const token = makeToken();
  const openedAt = bench.now();
  const endsAt = new Date(openedAt.getTime() + SESSION_HOURS * HOUR_MS);
  await bench.store.sessions.open({
    tokenHash: tokenHash(token),
    openedAt: openedAt.toISOString(),
    endsAt: endsAt.toISOString(),
  });
  const life = SESSION_HOURS * 3600;
  return `${cookieName(bench.port())}=${token}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${life}`;
}
