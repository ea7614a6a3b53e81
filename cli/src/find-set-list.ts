import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { SetList, StockItem } from '@gapline/core/kit/set-list.ts';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { readSetList } from '@gapline/exchange/kit/read-set-list.ts';
import { readStockCsv } from '@gapline/exchange/kit/read-stock-csv.ts';

const SHIPPED = fileURLToPath(new URL('../../kits/', import.meta.url));

const absent = (path: string, field: string, mend: string) =>
  cannot({ code: 'no-such-file', message: `${path} does not exist.`, file: path, field, mend });

/** The list of sets: the file given by the caller, else the shipped one that the case names. */
export function findSetList(id: string | undefined, path: string | undefined): Outcome<SetList> {
  if (path !== undefined) {
    if (!existsSync(path)) return absent(path, '--sets', 'Name a list of sets in JSON; docs/kit.md describes it.');
    return readSetList(readFileSync(path, 'utf8'), path);
  }
  const known: string[] = [];
  for (const name of readdirSync(SHIPPED)
    .filter((n) => n.endsWith('.json') && !n.endsWith('.schema.json'))
    .sort()) {
    const read = readSetList(readFileSync(`${SHIPPED}${name}`, 'utf8'), name);
    if (!read.ok) return read;
    if (read.value.id === id) return read;
    known.push(read.value.id);
  }
  return cannot({
    code: 'no-set-list',
    message: id === undefined ? 'The case names no list of sets.' : `There is no list of sets called “${id}”.`,
    file: 'case.json',
    field: 'kit.setList',
    mend: `Use one of: ${known.join(', ')}; or give a file with --sets FILE.`,
  });
}

/** What lies on the shelf, or null where no file is given. */
export function findStock(path: string | undefined): Outcome<readonly StockItem[] | null> {
  if (path === undefined) return ok(null);
  if (!existsSync(path)) return absent(path, '--stock', 'Name a stock list in CSV; docs/kit.md describes it.');
  return readStockCsv(readFileSync(path, 'utf8'), path);
}
