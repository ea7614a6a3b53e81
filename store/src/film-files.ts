import { createHash } from 'node:crypto';
import { type FileHandle, mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { asStorageFailure } from './storage-failure.ts';

/**
 * Films on the disk under the SHA-256 of their bytes. A film is there whole or not at all: it is written
 * under another name, synced, renamed, and the folder is synced. Each read checks the hash again.
 */
export interface FilmFiles {
  /** Folder for files that are still being received; emptied at every start. */
  readonly incoming: string;
  /** Stores the bytes and gives their hash; the same bytes are stored once. */
  put(bytes: Uint8Array): Promise<string>;
  has(sha256: string): Promise<boolean>;
  read(sha256: string): Promise<Outcome<Uint8Array>>;
}

export const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The film files of a data folder that is open already, for a worker of the same process. */
export function filmFilesIn(folder: string): FilmFiles {
  const pathOf = (sha256: string) => join(folder, 'films', sha256.slice(0, 2), sha256);
  return {
    incoming: join(folder, 'incoming'),
    async put(bytes) {
      const sha256 = sha256Of(bytes);
      if (!(await isWhole(pathOf(sha256), sha256))) await writeWhole(pathOf(sha256), bytes);
      return sha256;
    },
    has: (sha256) => exists(pathOf(sha256)),
    read: (sha256) => readWhole(pathOf(sha256), sha256),
  };
}

/** Opens the film files at the start of a process that holds the folder's lock: sweeps away what a killed one left. */
export async function openFilmFiles(folder: string): Promise<FilmFiles> {
  const films = join(folder, 'films');
  const files = filmFilesIn(folder);
  await mkdir(films, { recursive: true, mode: 0o700 });
  await rm(files.incoming, { recursive: true, force: true });
  await mkdir(files.incoming, { recursive: true, mode: 0o700 });
  await sweepDrafts(films);
  return files;
}

const DRAFT = '.draft';

/** Files that a killed process left half written. */
async function sweepDrafts(films: string): Promise<void> {
  for (const entry of await readdir(films, { recursive: true })) {
    if (entry.endsWith(DRAFT)) await rm(join(films, entry), { force: true });
  }
}

const exists = (path: string): Promise<boolean> =>
  stat(path).then(
    (s) => s.isFile(),
    () => false,
  );

async function isWhole(path: string, sha256: string): Promise<boolean> {
  return (await exists(path)) && sha256Of(await readFile(path)) === sha256;
}

let drafts = 0;

/** Writes a file so that a reader, or the next start after a power cut, sees the whole of it or nothing. */
export async function writeWhole(path: string, bytes: Uint8Array): Promise<void> {
  const folder = dirname(path);
  drafts += 1;
  const draft = `${path}.${process.pid}-${drafts}${DRAFT}`;
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 });
    await withFile(await open(draft, 'wx', 0o600), async (file) => {
      await file.writeFile(bytes);
      await file.sync();
    });
    await rename(draft, path);
    await syncFolder(folder);
    await syncFolder(dirname(folder));
  } catch (error) {
    await rm(draft, { force: true });
    throw asStorageFailure(error);
  }
}

async function withFile(file: FileHandle, work: (file: FileHandle) => Promise<void>): Promise<void> {
  try {
    await work(file);
  } finally {
    await file.close();
  }
}

/** Puts a new name in a folder on the disk. Windows cannot sync a folder and does not need to. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  await withFile(await open(folder, 'r'), (handle) => handle.sync());
}

async function readWhole(path: string, sha256: string): Promise<Outcome<Uint8Array>> {
  if (!(await exists(path))) {
    return cannot({
      code: 'film-not-stored',
      message: `The film ${sha256.slice(0, 12)} is not in the data folder.`,
      field: sha256,
      mend: 'Import the film again.',
    });
  }
  const bytes = await readFile(path);
  if (sha256Of(bytes) === sha256) return ok(bytes);
  return cannot({
    code: 'film-damaged',
    message: `The film ${sha256.slice(0, 12)} was changed on the disk since it was imported.`,
    field: sha256,
    mend: 'Import the film again from its source; the disk may be failing.',
  });
}
