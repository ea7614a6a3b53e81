import type { SetList, StockItem } from '@gapline/core/kit/set-list.ts';
import { type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { readSetList } from '@gapline/exchange/kit/read-set-list.ts';
import { readStockCsv } from '@gapline/exchange/kit/read-stock-csv.ts';
import { findShipped, readNamed } from './find-named.ts';

/** The list of sets: the file given by the caller, else the shipped one that the case names. */
export function findSetList(id: string | undefined, path: string | undefined): Outcome<SetList> {
  const mend = 'Name a list of sets in JSON; docs/kit.md describes it.';
  if (path !== undefined) return readNamed(path, { read: readSetList, field: '--sets', mend });
  return findShipped(id, {
    folder: 'kits',
    read: readSetList,
    unknown: (known) => ({
      code: 'no-set-list',
      message: id === undefined ? 'The case names no list of sets.' : `There is no list of sets called “${id}”.`,
      file: 'case.json',
      field: 'kit.setList',
      mend: `Use one of: ${known.join(', ')}; or give a file with --sets FILE.`,
    }),
  });
}

/** What lies on the shelf, or null where no file is given. */
export function findStock(path: string | undefined): Outcome<readonly StockItem[] | null> {
  if (path === undefined) return ok(null);
  const mend = 'Name a stock list in CSV; docs/kit.md describes it.';
  return readNamed(path, { read: readStockCsv, field: '--stock', mend });
}
