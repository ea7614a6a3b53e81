import { cannot, ok } from '@gapline/core/measure/outcome.ts';
import type { Kysely } from 'kysely';
import type { SetListStore } from './port.ts';
import type { Tables } from './tables.ts';

/** Lists of the sets that a hospital can have, as JSON texts that were checked before they came here. */
export function setListStore(db: Kysely<Tables>): SetListStore {
  return {
    async list() {
      const rows = await db
        .selectFrom('set_lists')
        .select(['id', 'name', 'catalogue', 'invented', 'shipped'])
        .orderBy('name')
        .orderBy('id')
        .execute();
      return rows.map((row) => ({ ...row, invented: row.invented === 1, shipped: row.shipped === 1 }));
    },
    async read(id) {
      const row = await db.selectFrom('set_lists').select('body').where('id', '=', id).executeTakeFirst();
      return row?.body ?? null;
    },
    async put({ body, at, ...row }) {
      const { id, invented, shipped, name, catalogue } = row;
      const columns = { name, catalogue, invented: invented ? 1 : 0, shipped: shipped ? 1 : 0, body, put_at: at };
      const written = await db
        .insertInto('set_lists')
        .values({ id, ...columns })
        .onConflict((c) => {
          const replace = c.column('id').doUpdateSet(columns);
          return shipped ? replace : replace.where('set_lists.shipped', '=', 0);
        })
        .returning('id')
        .executeTakeFirst();
      if (written) return ok(row);
      return cannot({
        code: 'set-list-is-shipped',
        message: `The list of sets ${id} comes with the program and cannot be replaced.`,
        field: 'id',
        mend: 'Give your list another id and import it again.',
      });
    },
  };
}
