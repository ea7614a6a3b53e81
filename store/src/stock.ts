import type { Kysely } from 'kysely';
import type { StockStore } from './port.ts';
import type { Tables } from './tables.ts';

/** What lies on the shelf: every import is kept, the newest counts. */
export function stockStore(db: Kysely<Tables>): StockStore {
  return {
    async newest() {
      const row = await db
        .selectFrom('stock')
        .select(['file', 'imported_at', 'body'])
        .orderBy('number', 'desc')
        .limit(1)
        .executeTakeFirst();
      return row ? { file: row.file, importedAt: row.imported_at, body: row.body } : null;
    },
    async put({ file, importedAt, body }) {
      await db.transaction().execute(async (t) => {
        const last = await t
          .selectFrom('stock')
          .select((q) => q.fn.max('number').as('number'))
          .executeTakeFirst();
        const number = Number(last?.number ?? 0) + 1;
        await t.insertInto('stock').values({ number, file, imported_at: importedAt, body }).execute();
      });
    },
  };
}
