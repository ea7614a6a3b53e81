import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';

export interface DataFolderLock {
  readonly folder: string;
  release(): void;
}

/** SQLite's primary result code for a file that another process holds. */
const SQLITE_BUSY = 5;

/**
 * Takes a data folder for this process alone, making the folder where absent. The lock is one that the
 * operating system holds on an open file (through an exclusive transaction of SQLite), so that it ends
 * with the process however that ends: there is no stale lock to judge. `owner.json` beside it only tells
 * a second process whom it waits for.
 */
export function lockDataFolder(folder: string): Outcome<DataFolderLock> {
  const path = resolve(folder);
  mkdirSync(path, { recursive: true, mode: 0o700 });
  const lock = new DatabaseSync(join(path, 'lock.db'), { timeout: 0 });
  try {
    lock.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    lock.close();
    if ((error as { readonly errcode?: number }).errcode !== SQLITE_BUSY) throw error;
    return cannot({
      code: 'data-folder-in-use',
      message: `The data folder ${path} is in use by another Gapline${ownerOf(path)}. Nothing was changed.`,
      field: path,
      mend: 'Use the one that is running, stop it first, or choose another folder with --data.',
    });
  }
  writeOwner(path);
  return ok({ folder: path, release: () => lock.close() });
}

function ownerOf(path: string): string {
  try {
    const { pid } = JSON.parse(readFileSync(join(path, 'owner.json'), 'utf8')) as { readonly pid: number };
    return ` (process ${pid})`;
  } catch {
    // The owner has taken the lock but not yet written its name: the folder is in use all the same.
    return '';
  }
}

function writeOwner(path: string): void {
  const draft = join(path, `owner.json.${process.pid}`);
  writeFileSync(draft, `${JSON.stringify({ pid: process.pid })}\n`);
  renameSync(draft, join(path, 'owner.json'));
}
