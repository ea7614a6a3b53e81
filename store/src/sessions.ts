import type { Kysely } from 'kysely';
import type { SessionStore } from './port.ts';
import type { Tables } from './tables.ts';

/** Sessions of browsers; those that have ended are swept away when a new one opens. */
export function sessionStore(db: Kysely<Tables>): SessionStore {
  return {
    async open({ tokenHash, openedAt, endsAt }) {
      await db.deleteFrom('sessions').where('ends_at', '<=', openedAt).execute();
      await db.insertInto('sessions').values({ token_hash: tokenHash, opened_at: openedAt, ends_at: endsAt }).execute();
    },
    async isOpen(tokenHash, at) {
      const row = await db
        .selectFrom('sessions')
        .select('token_hash')
        .where('token_hash', '=', tokenHash)
        .where('ends_at', '>', at)
        .executeTakeFirst();
      return row !== undefined;
    },
    async close(tokenHash) {
      await db.deleteFrom('sessions').where('token_hash', '=', tokenHash).execute();
    },
  };
}
