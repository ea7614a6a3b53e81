import type { Kysely } from 'kysely';
import type { FilmAboutRow, FilmRow, FilmStore } from './port.ts';
import type { Tables } from './tables.ts';

const toFilm = (row: Tables['films']): FilmRow => ({
  sha256: row.sha256,
  pixelsSha256: row.pixels_sha256,
  file: row.file,
  bytes: row.bytes,
  importedAt: row.imported_at,
  about: JSON.parse(row.about) as FilmAboutRow,
});

/** What is known of the imported films; their bytes are not in the database. */
export function filmStore(db: Kysely<Tables>): FilmStore {
  return {
    async add(film) {
      await db
        .insertInto('films')
        .values({
          sha256: film.sha256,
          pixels_sha256: film.pixelsSha256,
          file: film.file,
          bytes: film.bytes,
          imported_at: film.importedAt,
          about: JSON.stringify(film.about),
        })
        .onConflict((c) => c.column('sha256').doNothing())
        .execute();
    },
    async read(sha256) {
      const row = await db.selectFrom('films').selectAll().where('sha256', '=', sha256).executeTakeFirst();
      return row ? toFilm(row) : null;
    },
    async samePicture(pixelsSha256) {
      const row = await db
        .selectFrom('films')
        .selectAll()
        .where('pixels_sha256', '=', pixelsSha256)
        .orderBy('imported_at')
        .orderBy('sha256')
        .executeTakeFirst();
      return row ? toFilm(row) : null;
    },
  };
}
