import type { AddressInfo } from 'node:net';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { type DataFolderLock, lockDataFolder } from '@gapline/store/src/data-folder-lock.ts';
import { openFilmFiles } from '@gapline/store/src/film-files.ts';
import { openEmbeddedStore, openPostgresqlStore } from '@gapline/store/src/open-store.ts';
import type { Store } from '@gapline/store/src/port.ts';
import type { FastifyInstance } from 'fastify';
import { buildApp } from './build-app.ts';
import { type FilmWork, filmWork } from './film-work.ts';
import { makeIdentitySalt } from './identity-salt.ts';
import { kitWork } from './kit-work.ts';
import { makeOneTimeKey } from './one-time-key.ts';
import { VERSION } from './version.ts';
import type { Workbench } from './workbench.ts';

export interface RunOptions {
  /** The data folder; made where absent. */
  readonly folder: string;
  /** 0 lets the system choose; null tries the usual port and then the ones after it. */
  readonly port: number | null;
  readonly databaseUrl: string | null;
  /** Folder with the built pages. */
  readonly pages: string;
  /** What is done with the store before the first request, such as adding the demo case. */
  readonly prepare?: (bench: Workbench) => Promise<void>;
  readonly report?: (error: unknown) => void;
  readonly now?: () => Date;
  /** Reading of films and drawing of sheets; absent = in threads of their own. */
  readonly filmWork?: FilmWork;
}

export interface Running {
  /** `http://127.0.0.1:PORT/?key=...`, good for one browser. */
  readonly address: string;
  readonly port: number;
  readonly bench: Workbench;
  /** Finishes what is being answered, then lets go of the data folder. */
  close(): Promise<void>;
}

const HOST = '127.0.0.1';
const USUAL_PORT = 4747;
const PORTS_TRIED = 20;

/** Opens the data folder and listens on the loopback. Refuses a folder that another process holds. */
export async function runWorkbench(options: RunOptions): Promise<Outcome<Running>> {
  const lock = lockDataFolder(options.folder);
  if (!lock.ok) return lock;
  const store = await openStore(options, lock.value);
  if (!store.ok) return store;
  await makeIdentitySalt(lock.value.folder);
  let port = options.port ?? USUAL_PORT;
  const bench: Workbench = {
    store: store.value,
    filmFiles: await openFilmFiles(lock.value.folder),
    filmWork: options.filmWork ?? filmWork(),
    kitWork: kitWork(),
    folder: lock.value.folder,
    key: makeOneTimeKey(),
    pages: options.pages,
    version: VERSION,
    port: () => port,
    now: options.now ?? (() => new Date()),
    report: options.report ?? ((error) => console.error(error)),
  };
  const app = await buildApp(bench);
  const close = once(async () => {
    await app.close();
    await bench.filmWork.close();
    await bench.kitWork.close();
    await store.value.close();
    lock.value.release();
  });
  await options.prepare?.(bench);
  const listening = await listen(app, options.port);
  if (!listening.ok) {
    await close();
    return listening;
  }
  port = listening.value;
  return ok({ address: `http://${HOST}:${port}/?key=${bench.key.text}`, port, bench, close });
}

function once(work: () => Promise<void>): () => Promise<void> {
  let done: Promise<void> | undefined;
  return () => {
    done ??= work();
    return done;
  };
}

async function openStore(options: RunOptions, lock: DataFolderLock): Promise<Outcome<Store>> {
  try {
    const store = options.databaseUrl
      ? await openPostgresqlStore(options.databaseUrl)
      : await openEmbeddedStore(lock.folder);
    if (!store.ok) lock.release();
    return store;
  } catch (error) {
    lock.release();
    throw error;
  }
}

async function listen(app: FastifyInstance, wanted: number | null): Promise<Outcome<number>> {
  const first = wanted ?? USUAL_PORT;
  const last = wanted === null ? first + PORTS_TRIED : first;
  for (let port = first; port <= last; port += 1) {
    try {
      await app.listen({ host: HOST, port });
      return ok((app.server.address() as AddressInfo).port);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EADDRINUSE') throw error;
    }
  }
  return cannot({
    code: 'port-in-use',
    message: `Port ${first} is in use by another program.`,
    field: '--port',
    mend: 'Choose another one with --port, or leave --port out.',
  });
}
