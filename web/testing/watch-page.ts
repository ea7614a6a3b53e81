import type { BrowserContext, Page } from 'playwright-core';

/** What pages under watch tried and met, in the order of the events. */
export interface Watch {
  /** Addresses beyond the workbench that were asked for, and refused. */
  readonly outside: string[];
  /** Errors that a page threw or wrote to its console. */
  readonly faults: string[];
}

export interface WatchedPageAsked {
  /** How long an action on the page may take, ms. */
  readonly patienceMs: number;
  /** Faults of the console count too, but for requests that fail: a stopped server may be part of a test. */
  readonly withConsole?: boolean;
}

/** Opens a page that may reach the workbench and nothing else; what it tries besides is kept. */
export async function openWatched(context: BrowserContext, watch: Watch, asked: WatchedPageAsked): Promise<Page> {
  await context.route('**/*', (route) => {
    const { hostname, protocol } = new URL(route.request().url());
    // The browser's own parts, such as its PDF viewer, and what the page made itself are no requests of ours.
    if (hostname === '127.0.0.1' || protocol.startsWith('chrome') || protocol === 'blob:') return route.continue();
    watch.outside.push(route.request().url());
    return route.abort();
  });
  const page = await context.newPage();
  page.setDefaultTimeout(asked.patienceMs);
  page.on('pageerror', (error) => watch.faults.push(error.message));
  page.on('console', (message) => {
    if (!asked.withConsole || message.type() !== 'error') return;
    if (!/ERR_CONNECTION_REFUSED|Failed to load resource/.test(message.text())) watch.faults.push(message.text());
  });
  return page;
}
