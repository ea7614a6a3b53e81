import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { writeWhole } from '@gapline/store/src/film-files.ts';

const BYTES = 32;
const WHOLE = new RegExp(`^[0-9a-f]{${2 * BYTES}}$`);

const pathIn = (folder: string): string => join(folder, 'identity-salt');

/** The salt as it lies in the folder; null where there is none, or one that was cut short. */
async function saltIn(folder: string): Promise<string | null> {
  const kept = await readFile(pathIn(folder), 'utf8').catch(() => null);
  return kept !== null && WHOLE.test(kept) ? kept : null;
}

/**
 * Makes the secret of a data folder where it has none yet: under it films of one study keep belonging together, and nobody else can
 * redo their UIDs. To be called by the process that holds the folder, before any thread takes a film: threads that came
 * at once could each find none, or half of one.
 */
export async function makeIdentitySalt(folder: string): Promise<void> {
  if ((await saltIn(folder)) === null)
    await writeWhole(pathIn(folder), Buffer.from(randomBytes(BYTES).toString('hex')));
}

/** The secret of a data folder that stands open. Throws where it is missing. */
export async function identitySalt(folder: string): Promise<string> {
  const salt = await saltIn(folder);
  if (salt === null) throw new Error(`The data folder ${folder} has no identity-salt: it was not opened.`);
  return salt;
}
