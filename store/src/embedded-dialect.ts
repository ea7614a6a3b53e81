import { DatabaseSync, type SQLInputValue } from 'node:sqlite';
import { SqliteAdapter, type SqliteDatabase, SqliteDialect, type SqliteStatement } from 'kysely';

/** Every commit is synced to the disk before it returns; references between tables are checked. */
const PRAGMAS = ['journal_mode = WAL', 'synchronous = FULL', 'foreign_keys = ON', 'busy_timeout = 5000'];

/** A full disk makes SQLite roll back by itself; the roll-back that follows must not hide that error. */
const NOTHING_TO_DO: SqliteStatement = {
  reader: false,
  all: () => [],
  run: () => ({ changes: 0, lastInsertRowid: 0 }),
  iterate: () => [].values(),
};

/** Node's own SQLite in the shape that Kysely's dialect wants. */
function inKyselysShape(database: DatabaseSync): SqliteDatabase {
  return {
    close: () => database.close(),
    prepare(text) {
      if (text === 'rollback' && !database.isTransaction) return NOTHING_TO_DO;
      const statement = database.prepare(text);
      const values = (parameters: readonly unknown[]) => parameters as readonly SQLInputValue[];
      return {
        reader: statement.columns().length > 0,
        all: (parameters) => statement.all(...values(parameters)),
        run: (parameters) => statement.run(...values(parameters)),
        iterate: (parameters) => statement.iterate(...values(parameters)),
      };
    },
  };
}

/** SQLite can roll back changes of tables; Kysely's own adapter does not make use of it. */
class TransactionalSqliteAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

class EmbeddedDialect extends SqliteDialect {
  override createAdapter(): SqliteAdapter {
    return new TransactionalSqliteAdapter();
  }
}

/** Opens the database file, making it where absent. */
export function embeddedDialect(file: string): SqliteDialect {
  const database = new DatabaseSync(file);
  for (const pragma of PRAGMAS) database.exec(`PRAGMA ${pragma}`);
  return new EmbeddedDialect({ database: inKyselysShape(database) });
}
