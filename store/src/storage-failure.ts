/** Storage that failed for a reason that a person can mend. Anything else that is thrown is a bug. */
export class StorageFailure extends Error {
  readonly code: 'disk-full' | 'storage-unreachable';
  constructor(code: StorageFailure['code'], message: string, cause: unknown) {
    super(message, { cause });
    this.name = 'StorageFailure';
    this.code = code;
  }
}

/** File system codes for a disk, a quota or a file that can take no more. */
const FULL: readonly string[] = ['ENOSPC', 'EDQUOT', 'EFBIG'];
/** SQLite's primary result code SQLITE_FULL, and PostgreSQL's SQLSTATE disk_full. */
const SQLITE_FULL = 13;
const POSTGRESQL_FULL = '53100';
const UNREACHABLE: readonly string[] = ['ECONNREFUSED', 'ECONNRESET', 'ENOTFOUND', 'ETIMEDOUT', 'EPIPE'];
/** SQLSTATE classes: connection exception, operator intervention. */
const POSTGRESQL_AWAY = /^(08|57P)/;

/** The failure that an error of an engine or of the file system stands for; the error itself where it is none of these. */
export function asStorageFailure(error: unknown): unknown {
  if (error instanceof StorageFailure || !(error instanceof Error)) return error;
  const { code, errcode } = error as Error & { readonly code?: unknown; readonly errcode?: unknown };
  const word = typeof code === 'string' ? code : '';
  if (
    FULL.includes(word) ||
    word === POSTGRESQL_FULL ||
    (typeof errcode === 'number' && (errcode & 0xff) === SQLITE_FULL)
  ) {
    return new StorageFailure('disk-full', 'The disk that holds the data folder is full.', error);
  }
  if (UNREACHABLE.includes(word) || POSTGRESQL_AWAY.test(word)) {
    return new StorageFailure('storage-unreachable', 'The database server does not answer.', error);
  }
  return error;
}

/** The same part of the store, whose methods tell failures of the storage as `StorageFailure`. */
export function tellFailures<T extends object>(part: T): T {
  return new Proxy(part, {
    get(target, name) {
      const member: unknown = Reflect.get(target, name);
      if (typeof member !== 'function') return member;
      return async (...args: readonly unknown[]): Promise<unknown> => {
        try {
          return await Reflect.apply(member, target, args);
        } catch (error) {
          throw asStorageFailure(error);
        }
      };
    },
  });
}
