import { stat } from 'node:fs/promises';
import { type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { CaseFilm, Patient } from '@gapline/core/plan/case.ts';
import type { SliceFile } from '@gapline/film/stack/slice-file.ts';
import type { FilmAboutRow } from '@gapline/store/src/port.ts';
import { picturePath } from './picture-path.ts';

/** A file that was received and lies in the incoming folder. */
export interface Received {
  readonly folder: string;
  readonly path: string;
  /** Name on the sender's disk. */
  readonly name: string;
  /** True to take identity out of the film before it is stored. */
  readonly strip: boolean;
}

/** A film that was read and now lies in the film files. */
export interface Taken {
  readonly film: CaseFilm;
  readonly sha256: string;
  readonly pixelsSha256: string;
  readonly bytes: number;
  readonly about: FilmAboutRow;
  readonly patient: Patient;
  /** What decides about its stack, where it is a CT or MR slice. */
  readonly slice: SliceFile | null;
}

export interface PixelsWanted {
  readonly folder: string;
  readonly sha256: string;
}

/** Slices of one stack, by their hashes. */
export interface SlicesWanted {
  readonly folder: string;
  readonly hashes: readonly string[];
}

export interface SheetWanted {
  readonly folder: string;
  readonly caseBody: string;
  readonly planBody: string;
  readonly catalogueBody: string | null;
  readonly madeAt: string;
}

/** The heavy work on films, done in other threads so that the server answers at all times. */
export interface FilmWork {
  take(received: Received): Promise<Outcome<Taken>>;
  /** Path of the decoded picture: unsigned 16-bit little-endian, row by row. */
  pixels(wanted: PixelsWanted): Promise<Outcome<string>>;
  /** Paths of the values of slices on their common scale: unsigned 16-bit little-endian, row by row, in the order asked for. */
  slices(wanted: SlicesWanted): Promise<Outcome<readonly string[]>>;
  sheet(wanted: SheetWanted): Promise<Outcome<Uint8Array>>;
  close(): Promise<void>;
}

const filmWorker = new URL('./film-worker.ts', import.meta.url).href;
const WORKERS = {
  take: filmWorker,
  pixels: filmWorker,
  slices: filmWorker,
  sheet: new URL('./sheet-worker.ts', import.meta.url).href,
} as const;
/** A thread that decodes a long-leg film holds some 200 MB. */
const THREADS = 2;
const IDLE_MS = 30_000;

/** Threads start at the first film, not with the server. */
export function filmWork(): FilmWork {
  let pool: import('piscina').Piscina | undefined;
  const run = async <T>(name: keyof typeof WORKERS, task: object): Promise<T> => {
    const { Piscina } = await import('piscina');
    pool ??= new Piscina({ minThreads: 0, maxThreads: THREADS, idleTimeout: IDLE_MS });
    return (await pool.run(task, { name, filename: WORKERS[name] })) as T;
  };
  return {
    take: (received) => run('take', received),
    // The picture of an imported film is there already: no thread is needed to say so.
    pixels: async (wanted) => {
      const path = picturePath(wanted);
      return (await stat(path).catch(() => null)) ? ok(path) : run('pixels', wanted);
    },
    slices: (wanted) => run('slices', wanted),
    sheet: (wanted) => run('sheet', wanted),
    close: async () => pool?.destroy(),
  };
}
