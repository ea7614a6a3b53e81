// Runs in a thread of its own: draws the sheet of a kept plan.
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { toGrey8, toPicture } from '@gapline/film/picture.ts';
import { readFilm } from '@gapline/film/read-film.ts';
import { filmsForSheet } from '@gapline/sheet/src/film-panel.ts';
import type { SheetPicture } from '@gapline/sheet/src/film-picture.ts';
import { planSheet } from '@gapline/sheet/src/plan-sheet.ts';
import { filmFilesIn } from '@gapline/store/src/film-files.ts';
import type { SheetWanted } from './film-work.ts';

/** The sheet as it would have been printed when the plan was made: from the case and catalogue kept with the plan. */
export async function sheet(wanted: SheetWanted): Promise<Outcome<Uint8Array>> {
  const file = JSON.parse(wanted.caseBody) as CaseFile;
  const plan = JSON.parse(wanted.planBody) as Plan;
  const catalogue = wanted.catalogueBody === null ? null : (JSON.parse(wanted.catalogueBody) as Catalogue);
  const pictures = new Map<string, SheetPicture>();
  // Only what goes on the sheet is decoded.
  const drawn = new Set(filmsForSheet(plan, pictures).map(({ film }) => film.id));
  for (const film of file.films) {
    if (film.sha256 === undefined || !drawn.has(film.id)) continue;
    const picture = await printPicture(wanted.folder, film.sha256, film.file);
    if (!picture.ok) return picture;
    pictures.set(film.id, picture.value);
  }
  return ok(await planSheet({ case: file, plan, catalogue, pictures, madeAt: wanted.madeAt }));
}

async function printPicture(folder: string, sha256: string, name: string): Promise<Outcome<SheetPicture>> {
  const bytes = await filmFilesIn(folder).read(sha256);
  if (!bytes.ok) return bytes;
  const film = readFilm(bytes.value, name);
  if (!film.ok) return film;
  const picture = toPicture(film.value);
  return ok({ rows: picture.rows, columns: picture.columns, grey: toGrey8(picture) });
}
