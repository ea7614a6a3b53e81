import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { readCatalogue } from '@gapline/exchange/catalogue/read-catalogue.ts';

const SHIPPED = fileURLToPath(new URL('../../catalogues/', import.meta.url));

/** The catalogue that a case names: the file given by the caller, else the shipped one of that id. `null` = none named. */
export function findCatalogue(id: string | undefined, path: string | undefined): Outcome<Catalogue | null> {
  if (path !== undefined) {
    if (existsSync(path)) return readCatalogue(readFileSync(path, 'utf8'), path);
    return cannot({
      code: 'no-catalogue-file',
      message: `${path} does not exist.`,
      file: path,
      field: '--catalogue',
      mend: 'Name a catalogue in JSON.',
    });
  }
  if (id === undefined) return ok(null);
  const known: string[] = [];
  for (const name of readdirSync(SHIPPED)
    .filter((n) => n.endsWith('.json') && !n.endsWith('.schema.json'))
    .sort()) {
    const read = readCatalogue(readFileSync(`${SHIPPED}${name}`, 'utf8'), name);
    if (!read.ok) return read;
    if (read.value.id === id) return read;
    known.push(read.value.id);
  }
  return cannot({
    code: 'unknown-catalogue',
    message: `There is no catalogue called “${id}”.`,
    file: 'case.json',
    field: 'catalogue',
    mend: `Use one of: ${known.join(', ')}; or give its file with --catalogue FILE.`,
  });
}
