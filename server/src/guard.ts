import type { FastifyInstance, FastifyRequest } from 'fastify';
import { Refusal } from './errors.ts';
import { tokenHash } from './one-time-key.ts';
import type { Workbench } from './workbench.ts';

const HOSTS = ['127.0.0.1', 'localhost'];

/** Cookies know no port: its number in the name keeps two workbenches on one machine apart. */
export const cookieName = (port: number): string => `gapline-${port}`;

/**
 * Who may ask. Three checks before any route: the Host is ours (a name that was made to point here is
 * not), the page that asks is ours, and the browser holds a session. Only the address with the key
 * passes without a session.
 */
export function addGuard(app: FastifyInstance, bench: Workbench): void {
  app.addHook('onRequest', async (request) => {
    const hosts = HOSTS.map((host) => `${host}:${bench.port()}`);
    if (!hosts.includes(request.headers.host ?? '')) throw new Refusal('host-not-allowed');
    if (!comesFromOurPages(request, hosts)) throw new Refusal('origin-not-allowed');
    if (isKeyAddress(request) || (await hasSession(request, bench))) return;
    throw new Refusal('not-signed-in');
  });
}

function comesFromOurPages(request: FastifyRequest, hosts: readonly string[]): boolean {
  const { origin, 'sec-fetch-site': site } = request.headers;
  if (origin !== undefined) return hosts.some((host) => origin === `http://${host}`);
  // Browsers always tell the origin of a request that changes something.
  if (request.method !== 'GET' && request.method !== 'HEAD') return false;
  return site === undefined || site === 'same-origin' || site === 'none' || !request.url.startsWith('/api/');
}

/** `/?key=...`, whose route spends the key. */
function isKeyAddress(request: FastifyRequest): boolean {
  const { pathname, searchParams } = new URL(request.url, 'http://127.0.0.1');
  return request.method === 'GET' && pathname === '/' && searchParams.has('key');
}

export async function hasSession(request: FastifyRequest, bench: Workbench): Promise<boolean> {
  const token = request.cookies[cookieName(bench.port())];
  return token !== undefined && (await bench.store.sessions.isOpen(tokenHash(token), bench.now().toISOString()));
}
