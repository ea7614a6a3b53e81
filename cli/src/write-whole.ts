import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { cannot, type Outcome, ok, type Reason } from '@gapline/core/measure/outcome.ts';

/** Writes a file whole or not at all: beside its place first, onto the disk, then renamed. */
export function writeFileWhole(path: string, bytes: Uint8Array | string): Outcome<string> {
  const place = resolve(path);
  const beside = join(dirname(place), `.${basename(place)}.${process.pid}.tmp`);
  try {
    mkdirSync(dirname(place), { recursive: true });
    const file = openSync(beside, 'w');
    try {
      const buffer = typeof bytes === 'string' ? Buffer.from(bytes) : bytes;
      for (let at = 0; at < buffer.length; ) at += writeSync(file, buffer, at);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(beside, place);
    return ok(place);
  } catch (error) {
    if (existsSync(beside)) rmSync(beside);
    return cannot(writeFault(error, path));
  }
}

/**
 * Fills a folder whole or not at all: into a folder beside it, which is renamed when complete. Refuses a folder that holds
 * something already, so that nothing is overwritten.
 */
export function fillFolderWhole<T>(path: string, fill: (folder: string) => T): Outcome<T> {
  const place = resolve(path);
  const beside = join(dirname(place), `.${basename(place)}.${process.pid}.tmp`);
  try {
    if (existsSync(place) && readdirSync(place).length > 0) {
      return cannot({
        code: 'folder-not-empty',
        message: `${path} holds something already; nothing was written.`,
        file: path,
        mend: 'Name a new or an empty folder.',
      });
    }
    mkdirSync(beside, { recursive: true });
    const filled = fill(beside);
    rmSync(place, { recursive: true, force: true });
    renameSync(beside, place);
    return ok(filled);
  } catch (error) {
    if (existsSync(beside)) rmSync(beside, { recursive: true });
    if (!isSystemFault(error)) throw error;
    return cannot(writeFault(error, path));
  }
}

const isSystemFault = (error: unknown): error is NodeJS.ErrnoException =>
  error instanceof Error && typeof (error as NodeJS.ErrnoException).code === 'string';

const CAUSES: Readonly<Record<string, readonly [string, string]>> = {
  ENOSPC: ['the disk is full', 'Free some space, or name a folder on another disk.'],
  EDQUOT: ['the quota of the disk is used up', 'Free some space, or name a folder on another disk.'],
  EFBIG: ['the file would be larger than is allowed here', 'Raise the limit, or name a folder on another disk.'],
  EACCES: ['writing is not allowed there', 'Name a folder that you may write to.'],
  EPERM: ['writing is not allowed there', 'Name a folder that you may write to.'],
  EROFS: ['the disk can only be read', 'Name a folder on another disk.'],
  ENOTDIR: ['a part of the path is a file', 'Name a folder.'],
  EEXIST: ['a file of that name is in the way', 'Name another folder.'],
};

/** A failed write in words; nothing half-written is left. */
export function writeFault(error: unknown, path: string): Reason {
  const code = isSystemFault(error) ? (error.code ?? '') : '';
  const [cause, mend] = CAUSES[code] ?? [`the system says ${code || String(error)}`, 'Try another folder.'];
  return {
    code: 'write-failed',
    message: `${path} could not be written: ${cause}. Nothing half-written is left.`,
    file: path,
    mend,
  };
}
