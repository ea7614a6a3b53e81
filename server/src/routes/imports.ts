import { createWriteStream } from 'node:fs';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import type { MultipartFile } from '@fastify/multipart';
import type { Ok } from '@gapline/core/measure/outcome.ts';
import { asStorageFailure } from '@gapline/store/src/storage-failure.ts';
import type { FastifyInstance } from 'fastify';
import type { ImportedFile } from '../contract.ts';
import { errorBody, Refusal, refusalFor } from '../errors.ts';
import type { Taken } from '../film-work.ts';
import { keepTaken } from '../keep-taken.ts';
import type { Workbench } from '../workbench.ts';

/** A long-leg film has some 50 MB; a stack of slices comes as many files. */
const LARGEST_FILE = 600 * 1024 * 1024;
const MOST_FILES = 2000;

const importQuery = {
  querystring: { type: 'object', properties: { strip: { enum: ['0', '1'] } } },
} as const;

/**
 * Films dropped on the page. Each file is received to the disk, read in another thread, and answered for
 * by itself: one that is refused changes nothing and does not hold up the others.
 */
export function importRoutes(app: FastifyInstance, bench: Workbench): void {
  app.post<{ Querystring: { strip?: '0' | '1' } }>('/api/imports', { schema: importQuery }, async (request) => {
    const strip = request.query.strip === '1';
    const answers: ImportedFile[] = [];
    const parts = request.files({ limits: { fileSize: LARGEST_FILE, files: MOST_FILES, fields: 100 } });
    for await (const part of parts) answers.push(await importOne(part, strip, bench));
    if (answers.length === 0) throw new Refusal('upload-not-valid', { message: 'The upload holds no file.' });
    return answers;
  });
}

let received = 0;

async function importOne(part: MultipartFile, strip: boolean, bench: Workbench): Promise<ImportedFile> {
  const name = plainName(part.filename);
  received += 1;
  const path = join(bench.filmFiles.incoming, `${process.pid}-${received}`);
  try {
    await receive(part, path);
    const taken = await bench.filmWork.take({ folder: bench.folder, path, name, strip });
    if (!taken.ok) {
      return { file: name, accepted: false, error: errorBody(refusalFor(taken.reason, 'film-refused')).error };
    }
    return await enter(name, taken, bench);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { file: name, accepted: false, error: errorBody(error).error };
  } finally {
    await rm(path, { force: true });
  }
}

/** Browsers send the last part of the path; other senders may not. */
const plainName = (sent: string): string => sent.split(/[/\\]/).at(-1)?.replaceAll('\0', '').slice(0, 200) || 'film';

async function receive(part: MultipartFile, path: string): Promise<void> {
  try {
    await pipeline(part.file, createWriteStream(path, { flags: 'wx', mode: 0o600 }));
  } catch (error) {
    throw asStorageFailure(error);
  }
  if (part.file.truncated) throw new Refusal('film-too-large');
}

/** Writes the film down and tells whether its picture was there before. */
async function enter(name: string, { value: taken, warnings }: Ok<Taken>, bench: Workbench): Promise<ImportedFile> {
  const earlier = await keepTaken(bench, taken);
  return {
    file: name,
    accepted: true,
    sha256: taken.sha256,
    film: taken.film,
    about: taken.about,
    duplicateOf: earlier?.file ?? null,
    warnings,
    patient: taken.patient,
  };
}
