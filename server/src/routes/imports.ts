import { createWriteStream } from 'node:fs';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import type { MultipartFile } from '@fastify/multipart';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import { asStorageFailure } from '@gapline/store/src/storage-failure.ts';
import type { FastifyInstance } from 'fastify';
import type { ErrorBody, ImportedFile } from '../contract.ts';
import { errorBody, Refusal, refusalFor } from '../errors.ts';
import type { Taken } from '../film-work.ts';
import { keepTaken } from '../keep-taken.ts';
import { type Answered, withStacks } from '../stack-answers.ts';
import type { Workbench } from '../workbench.ts';

/** A long-leg film has some 50 MB; a stack of slices comes as many files. */
const LARGEST_FILE = 600 * 1024 * 1024;
const MOST_FILES = 2000;

const importQuery = {
  querystring: { type: 'object', properties: { strip: { enum: ['0', '1'] } } },
} as const;

/** A file on its way in: received to the disk, being read in another thread. */
interface Arrival {
  readonly name: string;
  /** Never rejects: a failure waits here until its turn to be told. */
  readonly read: Promise<PromiseSettledResult<Outcome<Taken>>>;
}

/**
 * Films dropped on the page. Each file is received to the disk and read in another thread while the next
 * is received, and answered for by itself: one that is refused changes nothing and holds up no other.
 */
export function importRoutes(app: FastifyInstance, bench: Workbench): void {
  app.post<{ Querystring: { strip?: '0' | '1' } }>('/api/imports', { schema: importQuery }, async (request) => {
    const strip = request.query.strip === '1';
    const arrivals: Arrival[] = [];
    const parts = request.files({ limits: { fileSize: LARGEST_FILE, files: MOST_FILES, fields: 100 } });
    for await (const part of parts) arrivals.push(await arrive(part, strip, bench));
    if (arrivals.length === 0) throw new Refusal('upload-not-valid', { message: 'The upload holds no file.' });
    const answers: Answered[] = [];
    // One after the other, so that of two equal films the second is told as the duplicate.
    for (const arrival of arrivals) answers.push(await answerFor(arrival, bench));
    return withStacks(answers);
  });
}

let received = 0;

async function arrive(part: MultipartFile, strip: boolean, bench: Workbench): Promise<Arrival> {
  const name = plainName(part.filename);
  received += 1;
  const path = join(bench.filmFiles.incoming, `${process.pid}-${received}`);
  const whole = await receive(part, path);
  const read = async () => {
    try {
      if (!whole) throw new Refusal('film-too-large', { message: `${name} is larger than 600 MB.` });
      return await bench.filmWork.take({ folder: bench.folder, path, name, strip });
    } finally {
      await rm(path, { force: true });
    }
  };
  return { name, read: settled(read()) };
}

async function settled<T>(promise: Promise<T>): Promise<PromiseSettledResult<T>> {
  const [result] = await Promise.allSettled([promise]);
  return result;
}

/** Browsers send the last part of the path; other senders may not. */
const plainName = (sent: string): string => sent.split(/[/\\]/).at(-1)?.replaceAll('\0', '').slice(0, 200) || 'film';

/** Gives false where the file is too large. */
async function receive(part: MultipartFile, path: string): Promise<boolean> {
  try {
    await pipeline(part.file, createWriteStream(path, { flags: 'wx', mode: 0o600 }));
  } catch (error) {
    await rm(path, { force: true });
    throw asStorageFailure(error);
  }
  return !part.file.truncated;
}

/** A fault of ours over one film is reported and told for that film; the others are answered for. */
function refusalOfReading(error: unknown, bench: Workbench): Refusal {
  if (error instanceof Refusal) return error;
  bench.report(error);
  return new Refusal('internal');
}

async function answerFor(arrival: Arrival, bench: Workbench): Promise<Answered> {
  const { name, read } = arrival;
  const result = await read;
  if (result.status === 'rejected') {
    return refused(name, errorBody(refusalOfReading(result.reason, bench)).error);
  }
  const outcome = result.value;
  if (!outcome.ok) {
    return refused(name, errorBody(refusalFor(outcome.reason, 'film-refused')).error);
  }
  const { film, sha256, about, patient, slice } = outcome.value;
  const earlier = await keepTaken(bench, outcome.value);
  const answer: ImportedFile = {
    file: name,
    accepted: true,
    sha256,
    film,
    about,
    duplicateOf: earlier?.file ?? null,
    warnings: outcome.warnings,
    patient,
  };
  return { answer, slice };
}

const refused = (file: string, error: ErrorBody['error']): Answered => ({
  answer: { file, accepted: false, error },
  slice: null,
});
