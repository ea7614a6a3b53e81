import { type Kysely, sql } from 'kysely';
import { type Migration, Migrator } from 'kysely/migration';
import type { Engine } from './engine.ts';
import type { Tables } from './tables.ts';

type Ddl = Kysely<unknown>;

async function createTables(db: Ddl): Promise<void> {
  await db.schema
    .createTable('cases')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('title', 'text', (c) => c.notNull())
    .addColumn('side', 'text', (c) => c.notNull())
    .addColumn('invented', 'integer', (c) => c.notNull())
    .addColumn('films', 'integer', (c) => c.notNull())
    .addColumn('revision', 'integer', (c) => c.notNull())
    .addColumn('changed_at', 'text', (c) => c.notNull())
    .addColumn('body', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('history')
    .addColumn('case_id', 'text', (c) => c.notNull().references('cases.id'))
    .addColumn('revision', 'integer', (c) => c.notNull())
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('target', 'integer')
    .addColumn('label', 'text', (c) => c.notNull())
    .addColumn('edit', 'text', (c) => c.notNull())
    .addColumn('inverse', 'text', (c) => c.notNull())
    .addColumn('at', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('history_key', ['case_id', 'revision'])
    .execute();
  await db.schema
    .createTable('films')
    .addColumn('sha256', 'text', (c) => c.primaryKey())
    .addColumn('pixels_sha256', 'text', (c) => c.notNull())
    .addColumn('file', 'text', (c) => c.notNull())
    .addColumn('bytes', 'integer', (c) => c.notNull())
    .addColumn('imported_at', 'text', (c) => c.notNull())
    .addColumn('about', 'text', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('films_by_picture').on('films').column('pixels_sha256').execute();
  await db.schema
    .createTable('plans')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('case_id', 'text', (c) => c.notNull().references('cases.id'))
    .addColumn('revision', 'integer', (c) => c.notNull())
    .addColumn('made_at', 'text', (c) => c.notNull())
    .addColumn('core_version', 'text', (c) => c.notNull())
    .addColumn('sha256', 'text', (c) => c.notNull())
    .addColumn('body', 'text', (c) => c.notNull())
    .addColumn('case_body', 'text', (c) => c.notNull())
    .addColumn('catalogue_body', 'text')
    .execute();
  await db.schema.createIndex('plans_by_case').on('plans').columns(['case_id', 'made_at']).execute();
  await db.schema
    .createTable('catalogues')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('invented', 'integer', (c) => c.notNull())
    .addColumn('shipped', 'integer', (c) => c.notNull())
    .addColumn('body', 'text', (c) => c.notNull())
    .addColumn('put_at', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('sessions')
    .addColumn('token_hash', 'text', (c) => c.primaryKey())
    .addColumn('opened_at', 'text', (c) => c.notNull())
    .addColumn('ends_at', 'text', (c) => c.notNull())
    .execute();
}

async function createKitTables(db: Ddl): Promise<void> {
  await db.schema
    .createTable('set_lists')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('catalogue', 'text', (c) => c.notNull())
    .addColumn('invented', 'integer', (c) => c.notNull())
    .addColumn('shipped', 'integer', (c) => c.notNull())
    .addColumn('body', 'text', (c) => c.notNull())
    .addColumn('put_at', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createTable('stock')
    .addColumn('number', 'integer', (c) => c.primaryKey())
    .addColumn('file', 'text', (c) => c.notNull())
    .addColumn('imported_at', 'text', (c) => c.notNull())
    .addColumn('body', 'text', (c) => c.notNull())
    .execute();
}

/** Who made a step, as that person said; null where nobody said. */
async function addPerson(db: Ddl): Promise<void> {
  await db.schema.alterTable('history').addColumn('person', 'text').execute();
}

/** The tables themselves refuse to change or to lose a plan or a line of history, whoever asks. */
async function refuseRewriting(db: Ddl, engine: Engine): Promise<void> {
  if (engine === 'postgresql') {
    await sql`create function append_only() returns trigger language plpgsql as
      $$ begin raise exception '% is append-only', tg_table_name; end $$`.execute(db);
  }
  for (const table of ['plans', 'history']) {
    if (engine === 'postgresql') {
      await sql`create trigger ${sql.id(`${table}_append_only`)} before update or delete or truncate
        on ${sql.table(table)} for each statement execute function append_only()`.execute(db);
      continue;
    }
    for (const verb of ['update', 'delete']) {
      await sql`create trigger ${sql.id(`${table}_no_${verb}`)} before ${sql.raw(verb)} on ${sql.table(table)}
        begin select raise(abort, ${sql.lit(`${table} is append-only`)}); end`.execute(db);
    }
  }
}

/** In order of their names. A migration that has been released is never changed; a new one follows. */
const migrations = (engine: Engine): Record<string, Migration> => ({
  '0001-first-tables': { up: createTables },
  '0002-append-only': { up: (db) => refuseRewriting(db, engine) },
  '0003-kit': { up: createKitTables },
  '0004-person': { up: addPerson },
});

/**
 * Brings the tables to this version, each migration whole or not at all. Gives false when the data was
 * written by a newer version, which is then left untouched.
 */
export async function migrate(db: Kysely<Tables>, engine: Engine): Promise<boolean> {
  const known = migrations(engine);
  const migrator = new Migrator({ db, provider: { getMigrations: async () => known } });
  if (await hasUnknownMigrations(db, Object.keys(known))) return false;
  const { error } = await migrator.migrateToLatest();
  if (error) throw error;
  return true;
}

async function hasUnknownMigrations(db: Kysely<Tables>, known: readonly string[]): Promise<boolean> {
  const tables = await db.introspection.getTables({ withInternalKyselyTables: true });
  if (!tables.some((t) => t.name === 'kysely_migration')) return false;
  const done = await sql<{ name: string }>`select name from kysely_migration`.execute(db);
  return done.rows.some((row) => !known.includes(row.name));
}
