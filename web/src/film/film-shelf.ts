import type { FilmAbout } from '../../../server/src/contract.ts';
import { filmPixelsAddress, getFilmAbout } from '../wire/api.ts';
import { keeper } from './keeper.ts';
import type { Level } from './pyramid.ts';
import type { PyramidAnswer, PyramidRequest } from './pyramid.worker.ts';

export interface LoadedFilm {
  readonly about: FilmAbout;
  readonly levels: readonly Level[];
  /** When its last byte was in memory, ms since 1970. */
  readonly bytesAt: number;
}

/** Films that nobody shows and that are kept for a return; a long-leg film takes some 56 MB. */
const SPARE = 2;

const shelf = keeper<Promise<LoadedFilm>>(SPARE);

/** The film's pixels with its pyramid, loaded once and let go of when it has not been asked for lately. */
export const loadFilm = (sha256: string): Promise<LoadedFilm> => {
  const film = shelf.take(sha256, () => fetchFilm(sha256));
  film.catch(() => shelf.drop(sha256));
  return film;
};

/** Keeps a film for as long as it is shown; gives what lets go of it. */
export const holdFilm = (sha256: string): (() => void) => shelf.hold(sha256);

async function fetchFilm(sha256: string): Promise<LoadedFilm> {
  const about = await getFilmAbout(sha256);
  const made = await inWorker({ address: filmPixelsAddress(sha256), columns: about.columns, rows: about.rows });
  return { about, ...made };
}

function inWorker(request: PyramidRequest): Promise<Pick<LoadedFilm, 'levels' | 'bytesAt'>> {
  const worker = new Worker(new URL('pyramid.worker.js', document.baseURI), { type: 'module' });
  return new Promise<Pick<LoadedFilm, 'levels' | 'bytesAt'>>((done, failed) => {
    worker.addEventListener('message', (event: MessageEvent<PyramidAnswer>) => {
      const answer = event.data;
      if (answer.ok) done({ levels: answer.levels, bytesAt: answer.bytesAt });
      else failed(new Error(answer.message));
    });
    worker.addEventListener('error', () => failed(new Error('The film viewer could not start. Reload the page.')));
    worker.postMessage({ ...request, address: new URL(request.address, document.baseURI).href });
  }).finally(() => worker.terminate());
}
