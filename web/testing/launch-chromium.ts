import { type Browser, chromium } from 'playwright-core';

/** The browser that tests drive, kept from asking for anything by itself. */
export const launchChromium = (): Promise<Browser> =>
  chromium.launch({
    executablePath: '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });

/** The window of a desk: 1366 by 768. */
export const DESK = { viewport: { width: 1366, height: 768 } } as const;
