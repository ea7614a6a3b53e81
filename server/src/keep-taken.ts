import type { FilmRow } from '@gapline/store/src/port.ts';
import type { Taken } from './film-work.ts';
import type { Workbench } from './workbench.ts';

/** Writes a film down whose bytes are stored. Gives the film with the same picture that was there before, if any. */
export async function keepTaken({ store, now }: Workbench, taken: Taken): Promise<FilmRow | null> {
  const { films } = store;
  const earlier = (await films.read(taken.sha256)) ?? (await films.samePicture(taken.pixelsSha256));
  await films.add({
    sha256: taken.sha256,
    pixelsSha256: taken.pixelsSha256,
    file: taken.film.file,
    bytes: taken.bytes,
    importedAt: now().toISOString(),
    about: taken.about,
  });
  return earlier;
}
