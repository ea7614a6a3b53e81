import type { FilmFiles } from '@gapline/store/src/film-files.ts';
import type { Store } from '@gapline/store/src/port.ts';
import type { FilmWork } from './film-work.ts';
import type { KitWork } from './kit-work.ts';
import type { OneTimeKey } from './one-time-key.ts';

/** All that the routes work with. Put together by `start.ts`, or by a test. */
export interface Workbench {
  readonly store: Store;
  readonly filmFiles: FilmFiles;
  readonly filmWork: FilmWork;
  readonly kitWork: KitWork;
  /** The data folder. */
  readonly folder: string;
  readonly key: OneTimeKey;
  /** Folder with the built pages. */
  readonly pages: string;
  readonly version: string;
  /** Port that browsers name in Host and Origin. */
  readonly port: () => number;
  readonly now: () => Date;
  /** Hears of faults inside. */
  readonly report: (error: unknown) => void;
}
