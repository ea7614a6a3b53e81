// Runs in a thread of its own: reading, decoding and storing films. Sheets: sheet-worker.ts.
import { createHash, createHmac } from 'node:crypto';
import { readFile, stat } from 'node:fs/promises';
import { endianness } from 'node:os';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { toCaseFilm } from '@gapline/film/case-film.ts';
import { readIdentity } from '@gapline/film/identity.ts';
import { type Picture, toPicture } from '@gapline/film/picture.ts';
import { readFilm } from '@gapline/film/read-film.ts';
import { sliceValues } from '@gapline/film/stack/hounsfield.ts';
import { sliceFile } from '@gapline/film/stack/slice-file.ts';
import { stripIdentity } from '@gapline/film/strip/strip-identity.ts';
import { filmFilesIn, writeWhole } from '@gapline/store/src/film-files.ts';
import { asStorageFailure, StorageFailure } from '@gapline/store/src/storage-failure.ts';
import type { PixelsWanted, Received, SlicesWanted, Taken } from './film-work.ts';
import { identitySalt } from './identity-salt.ts';
import { picturePath, slicePath } from './picture-path.ts';

/** Length of the hash that names a film within its case: enough among the films of one patient. */
const SHORT = 12;

/** Reads a received file and, where it is a film, stores it whole together with its decoded picture. */
export const take = (received: Received): Promise<Outcome<Taken>> => tellFailure(() => takeFilm(received));

async function takeFilm({ folder, path, name, strip }: Received): Promise<Outcome<Taken>> {
  const arrived = await readFile(path);
  // Read before identity goes, and once: the pixels stay the same, and the day of the film, which the plan needs,
  // is kept in the case alone.
  const film = readFilm(arrived, name);
  if (!film.ok) return film;
  const original = strip ? await withoutIdentity(arrived, folder) : ok(arrived);
  if (!original.ok) return named(original, name);
  const identity = readIdentity(original.value);
  if (!identity.ok) return named(identity, name);
  const picture = toPicture(film.value);
  const sha256 = await filmFilesIn(folder).put(original.value);
  const pixels = pixelBytes(picture);
  // A slice is looked at in its stack, on a scale of grey that all its slices share.
  if (!film.value.scaleFacts.volumetric) await keepPicture({ folder, sha256 }, pixels);
  const id = sha256.slice(0, SHORT);
  // The name of a file often names the patient.
  const entry = withPerson(
    toCaseFilm(film.value, { id, file: strip ? `film-${id}` : name, sha256 }),
    await personMark(arrived, folder),
  );
  const pixelsSha256 = createHash('sha256').update(`${picture.rows}x${picture.columns}:`).update(pixels).digest('hex');
  const asArrived = readIdentity(arrived);
  const slice = sliceFile(film.value, asArrived.ok ? asArrived.value : {}, {
    film: { ...entry.value, sha256 },
    pixelsSha256,
  });
  const taken: Taken = {
    film: entry.value,
    sha256,
    pixelsSha256,
    bytes: original.value.length,
    about: aboutOf(picture),
    patient: identity.value,
    slice,
  };
  return ok(taken, [...film.warnings, ...(strip ? original.warnings : []), ...entry.warnings]);
}

const withPerson = (entry: ReturnType<typeof toCaseFilm>, mark: string | null): ReturnType<typeof toCaseFilm> =>
  mark === null ? entry : { ...entry, value: { ...entry.value, personMark: mark } };

/**
 * A mark of the person whom the file names, kept with the film (FILM-8): the same person gives the same mark in this folder, and the mark tells nobody
 * who it is (keyed hash of number and day of birth, key of this installation). Null where the file names nobody.
 */
async function personMark(arrived: Uint8Array, folder: string): Promise<string | null> {
  const identity = readIdentity(arrived);
  if (!identity.ok) return null;
  const { id, name, birthDate } = identity.value;
  const who = id ?? name;
  if (who === undefined) return null;
  const words = [who, birthDate ?? ''].map((w) => w.trim().toUpperCase()).join('\u0000');
  return createHmac('sha256', await identitySalt(folder))
    .update(words)
    .digest('hex')
    .slice(0, 16);
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

/** Values of slices on the scale of their stack; made at the first look, kept for the next. Gives their paths. */
export const slices = (wanted: SlicesWanted): Promise<Outcome<readonly string[]>> =>
  tellFailure(() => slicesOf(wanted));

async function slicesOf({ folder, hashes }: SlicesWanted): Promise<Outcome<readonly string[]>> {
  const paths: string[] = [];
  for (const sha256 of hashes) {
    const path = slicePath({ folder, sha256 });
    paths.push(path);
    if (await stat(path).catch(() => null)) continue;
    const stored = await filmFilesIn(folder).read(sha256);
    if (!stored.ok) return stored;
    const film = readFilm(stored.value, sha256.slice(0, SHORT));
    if (!film.ok) return film;
    await writeWhole(path, littleEndian(sliceValues(film.value)));
  }
  return ok(paths);
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
const pixelBytes = ({ pixels }: Picture): Uint8Array => littleEndian(pixels);

function littleEndian(pixels: Uint16Array): Uint8Array {
  const bytes = Buffer.from(pixels.buffer, pixels.byteOffset, pixels.byteLength);
  return endianness() === 'LE' ? bytes : Buffer.from(bytes).swap16();
}

function named(outcome: Extract<Outcome<never>, { ok: false }>, name: string) {
  return cannot({ ...outcome.reason, message: `${name}: ${outcome.reason.message}` });
}

async function withoutIdentity(bytes: Uint8Array, folder: string): Promise<Outcome<Uint8Array>> {
  return stripIdentity(bytes, { salt: await identitySalt(folder) });
}
