import type { LoadedFilm } from './film-shelf.ts';

const seen = new WeakSet<LoadedFilm>();

/** Notes in the browser's own timeline how long a film took from its last byte in memory to being painted, once a film. */
export function noteFirstSight(film: LoadedFilm): void {
  if (seen.has(film)) return;
  seen.add(film);
  performance.measure('film: bytes to first sight', { start: Math.max(film.bytesAt - performance.timeOrigin, 0) });
}
