import { cannot, ok } from '@gapline/core/measure/outcome.ts';
import type { Kysely } from 'kysely';
import type { CatalogueStore } from './port.ts';
import type { Tables } from './tables.ts';

/** Implant catalogues, as JSON texts that were checked before they came here. */
export function catalogueStore(db: Kysely<Tables>): CatalogueStore {
  return {
    async list() {
      const rows = await db
        .selectFrom('catalogues')
        .select(['id', 'name', 'invented', 'shipped'])
        .orderBy('name')
        .orderBy('id')
        .execute();
      return rows.map((row) => ({ ...row, invented: row.invented === 1, shipped: row.shipped === 1 }));
    },
    async read(id) {
      const row = await db.selectFrom('catalogues').select('body').where('id', '=', id).executeTakeFirst();
      return row?.body ?? null;
    },
    async put({ id, name, invented, shipped, body, at }) {
      const columns = { name, invented: invented ? 1 : 0, shipped: shipped ? 1 : 0, body, put_at: at };
      const written = await db
        .insertInto('catalogues')
        .values({ id, ...columns })
        .onConflict((c) => {
          const replace = c.column('id').doUpdateSet(columns);
          return shipped ? replace : replace.where('catalogues.shipped', '=', 0);
        })
        .returning('id')
        .executeTakeFirst();
      if (written) return ok({ id, name, invented, shipped });
      return cannot({
        code: 'catalogue-is-shipped',
        message: `The catalogue ${id} comes with the program and cannot be replaced.`,
        field: 'id',
        mend: 'Give your catalogue another id and import it again.',
      });
    },
  };
}
