import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import type { CaseState } from '../../server/src/contract.ts';
import { DESK, launchChromium } from './launch-chromium.ts';
import { endWorkbench, startWorkbench, type Workbench } from './start-workbench.ts';
import { openWatched, type Watch, type WatchedPageAsked } from './watch-page.ts';

export interface DeskAsked extends WatchedPageAsked {
  /** The browser's window; absent = that of a desk. */
  readonly window?: BrowserContextOptions;
}

/** The real workbench on a folder of its own, and a watched page on it, as one file of tests uses them. */
export class Desk {
  readonly folder: string;
  /** The server, until a test puts another one in its place. */
  bench: Workbench;
  readonly browser: Browser;
  readonly context: BrowserContext;
  readonly page: Page;
  readonly watch: Watch;
  private readonly asked: DeskAsked;

  constructor(made: Pick<Desk, 'folder' | 'bench' | 'browser' | 'context' | 'page' | 'watch'>, asked: DeskAsked) {
    this.folder = made.folder;
    this.bench = made.bench;
    this.browser = made.browser;
    this.context = made.context;
    this.page = made.page;
    this.watch = made.watch;
    this.asked = asked;
  }

  get origin(): string {
    return new URL(this.bench.address).origin;
  }

  /** A further page under the same watch. */
  watched(context: BrowserContext): Promise<Page> {
    return openWatched(context, this.watch, this.asked);
  }

  /** Waits for the list of cases and gives them as they stand on the disk, in its order. */
  async cases(): Promise<readonly CaseState[]> {
    await this.page.locator('.cases a').first().waitFor();
    const listed = (await (await this.page.request.get(`${this.origin}/api/cases`)).json()) as { id: string }[];
    return Promise.all(listed.map(({ id }) => this.caseState(id)));
  }

  /** A case as it stands on the disk. */
  async caseState(id: string): Promise<CaseState> {
    return (await (await this.page.request.get(`${this.origin}/api/cases/${id}`)).json()) as CaseState;
  }

  /** Changes a case as another window would. */
  async edit(id: string, edits: readonly Edit[]): Promise<void> {
    const { revision } = await this.caseState(id);
    const answer = await this.post(`cases/${id}/edits`, { baseRevision: revision, edits, label: 'Set up' });
    if (answer.status() !== 200) throw new Error(`the edits were refused: ${await answer.text()}`);
  }

  /** Posts to the workbench as its own page does. */
  post(path: string, data: unknown) {
    return this.page.request.post(`${this.origin}/api/${path}`, { headers: { origin: this.origin }, data });
  }

  async close(): Promise<void> {
    await this.browser.close();
    await endWorkbench(this.bench, 'SIGTERM');
    rmSync(this.folder, { recursive: true, force: true });
  }
}

/** Opens a desk: a new folder with the demonstration case, the workbench on it, and its first page. */
export async function openDesk(name: string, asked: DeskAsked): Promise<Desk> {
  const folder = mkdtempSync(join(tmpdir(), `gapline-${name}-`));
  const bench = await startWorkbench(folder);
  const browser = await launchChromium();
  const context = await browser.newContext(asked.window ?? DESK);
  const watch: Watch = { outside: [], faults: [] };
  const page = await openWatched(context, watch, asked);
  await page.goto(bench.address);
  return new Desk({ folder, bench, browser, context, page, watch }, asked);
}
