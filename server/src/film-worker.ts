// Runs in a thread of its own: reading, decoding and storing films. Sheets: sheet-worker.ts.
import { createHash } from 'node:crypto';
import { readFile, stat } from 'node:fs/promises';
import { endianness } from 'node:os';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { toCaseFilm } from '@gapline/film/case-film.ts';
import { readIdentity } from '@gapline/film/identity.ts';
import { type Picture, toPicture } from '@gapline/film/picture.ts';
import { readFilm } from '@gapline/film/read-film.ts';
import { filmFilesIn, writeWhole } from '@gapline/store/src/film-files.ts';
import { asStorageFailure, StorageFailure } from '@gapline/store/src/storage-failure.ts';
import type { PixelsWanted, Received, Taken } from './film-work.ts';
import { picturePath } from './picture-path.ts';

/** Length of the hash that names a film within its case: enough among the films of one patient. */
const SHORT = 12;

/** Reads a received file and, where it is a film, stores it whole together with its decoded picture. */
export const take = (received: Received): Promise<Outcome<Taken>> => tellFailure(() => takeFilm(received));

async function takeFilm({ folder, path, name, strip }: Received): Promise<Outcome<Taken>> {
  const original = await readFile(path);
  const identity = readIdentity(original);
  if (!identity.ok) return named(identity, name);
  // Never stored with the identity that the person asked to have taken out.
  if (strip) return identityStays(name);
  const film = readFilm(original, name);
  if (!film.ok) return film;
  const picture = toPicture(film.value);
  const sha256 = await filmFilesIn(folder).put(original);
  const pixels = pixelBytes(picture);
  await keepPicture({ folder, sha256 }, pixels);
  const id = sha256.slice(0, SHORT);
  const entry = toCaseFilm(film.value, { id, file: name, sha256 });
  const taken: Taken = {
    film: entry.value,
    sha256,
    pixelsSha256: createHash('sha256').update(`${picture.rows}x${picture.columns}:`).update(pixels).digest('hex'),
    bytes: original.length,
    about: aboutOf(picture),
    patient: identity.value,
  };
  return ok(taken, [...film.warnings, ...entry.warnings]);
}

/** Decodes the picture of a stored film again; gives its path. */
export const pixels = (wanted: PixelsWanted): Promise<Outcome<string>> => tellFailure(() => decodeAgain(wanted));

async function decodeAgain({ folder, sha256 }: PixelsWanted): Promise<Outcome<string>> {
  const stored = await filmFilesIn(folder).read(sha256);
  if (!stored.ok) return stored;
  const film = readFilm(stored.value, sha256.slice(0, SHORT));
  if (!film.ok) return film;
  return ok(await keepPicture({ folder, sha256 }, pixelBytes(toPicture(film.value))));
}

async function keepPicture(of: PixelsWanted, pixels: Uint8Array): Promise<string> {
  const path = picturePath(of);
  if (!(await stat(path).catch(() => null))) await writeWhole(path, pixels);
  return path;
}

/** An error loses its class on the way to another thread: a failure of the storage goes as a reason instead. */
async function tellFailure<T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
  try {
    return await work();
  } catch (error) {
    const failure = asStorageFailure(error);
    if (failure instanceof StorageFailure) return cannot({ code: failure.code, message: failure.message });
    throw error;
  }
}

const aboutOf = ({ rows, columns, window, least, most }: Picture): Taken['about'] => ({
  rows,
  columns,
  window,
  least,
  most,
});

/** The pixels as they go over the wire: unsigned 16-bit, little-endian. */
function pixelBytes({ pixels }: Picture): Uint8Array {
  const bytes = Buffer.from(pixels.buffer, pixels.byteOffset, pixels.byteLength);
  return endianness() === 'LE' ? bytes : Buffer.from(bytes).swap16();
}

function named(outcome: Extract<Outcome<never>, { ok: false }>, name: string) {
  return cannot({ ...outcome.reason, message: `${name}: ${outcome.reason.message}` });
}

const identityStays = (name: string) =>
  cannot({
    code: 'film-refused',
    message: `${name}: this version cannot take identity out of a film. Nothing was stored.`,
    mend: 'Import the film with its identity, or take it out beforehand with a program that does.',
  });
