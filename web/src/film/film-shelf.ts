import type { FilmAbout } from '../../../server/src/contract.ts';
import { filmPixelsAddress, getFilmAbout } from '../wire/api.ts';
import type { Level } from './pyramid.ts';
import type { PyramidAnswer, PyramidRequest } from './pyramid.worker.ts';

export interface LoadedFilm {
  readonly about: FilmAbout;
  readonly levels: readonly Level[];
}

/** Films kept in memory; a long-leg film takes some 56 MB. */
const KEPT = 4;

const shelf = new Map<string, Promise<LoadedFilm>>();

/** The film's pixels with its pyramid; loaded once, the least recently asked for is let go. */
export function loadFilm(sha256: string): Promise<LoadedFilm> {
  const there = shelf.get(sha256);
  shelf.delete(sha256);
  const film = there ?? fetchFilm(sha256);
  shelf.set(sha256, film);
  if (!there) film.catch(() => shelf.delete(sha256));
  for (const oldest of shelf.keys()) {
    if (shelf.size <= KEPT) break;
    shelf.delete(oldest);
  }
  return film;
}

async function fetchFilm(sha256: string): Promise<LoadedFilm> {
  const about = await getFilmAbout(sha256);
  const levels = await inWorker({ address: filmPixelsAddress(sha256), columns: about.columns, rows: about.rows });
  return { about, levels };
}

function inWorker(request: PyramidRequest): Promise<readonly Level[]> {
  const worker = new Worker(new URL('pyramid.worker.js', document.baseURI), { type: 'module' });
  return new Promise<readonly Level[]>((done, failed) => {
    worker.addEventListener('message', (event: MessageEvent<PyramidAnswer>) => {
      if (event.data.ok) done(event.data.levels);
      else failed(new Error(event.data.message));
    });
    worker.addEventListener('error', () => failed(new Error('The film viewer could not start. Reload the page.')));
    worker.postMessage({ ...request, address: new URL(request.address, document.baseURI).href });
  }).finally(() => worker.terminate());
}
