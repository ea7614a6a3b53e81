import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { readCatalogue } from '@gapline/exchange/catalogue/read-catalogue.ts';
import { findShipped, readNamed } from './find-named.ts';

/** The catalogue that a case names: the file given by the caller, else the shipped one of that id. `null` = none named. */
export function findCatalogue(id: string | undefined, path: string | undefined): Outcome<Catalogue | null> {
  if (path !== undefined)
    return readNamed(path, { read: readCatalogue, field: '--catalogue', mend: 'Name a catalogue in JSON.' });
  if (id === undefined) return ok(null);
  return findShipped(id, {
    folder: 'catalogues',
    read: readCatalogue,
    unknown: (known) => ({
      code: 'unknown-catalogue',
      message: `There is no catalogue called “${id}”.`,
      file: 'case.json',
      field: 'catalogue',
      mend: `Use one of: ${known.join(', ')}; or give its file with --catalogue FILE.`,
    }),
  });
}
