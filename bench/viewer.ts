// The film viewer in headless Chromium, on the demonstration case's long-leg film as the real server delivers it.
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, type CDPSession, chromium, type Page } from 'playwright-core';
import type { Bench } from './bench-types.ts';

const project = join(dirname(fileURLToPath(import.meta.url)), '..');
const FRAME_MS = 1000 / 60;

/** Opens the demonstration case on its long-leg film alone, measures, and cleans up. */
async function onCasePage<T>(measure: (page: Page, cdp: CDPSession) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'gapline-bench-'));
  let server: ChildProcess | undefined;
  let browser: Browser | undefined;
  try {
    const script = join(project, 'server', 'src', 'start.ts');
    server = spawn(process.execPath, [script, '--data', folder, '--port', '0', '--no-open'], { stdio: 'pipe' });
    const address = await printedAddress(server);
    browser = await chromium.launch({
      executablePath: '/usr/bin/chromium',
      args: ['--no-sandbox', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-sync'],
    });
    const page = await browser.newPage({ viewport: { width: 1366, height: 768 } });
    await page.goto(address);
    await page.locator('.cases a').first().click();
    await page.locator('.film-pixels').first().waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Two films' }).click();
    await page.waitForTimeout(500);
    return await measure(page, await page.context().newCDPSession(page));
  } finally {
    await browser?.close();
    server?.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  }
}

const printedAddress = (server: ChildProcess): Promise<string> =>
  new Promise((done, failed) => {
    let said = '';
    server.stdout?.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const found = said.match(/http:\/\/127\.0\.0\.1:\d+\/\?key=\S+/);
      if (found) done(found[0]);
    });
    server.on('exit', (code) => failed(new Error(`the workbench ended with ${code}`)));
  });

// Run in the page; as text, since the page's own names are not known here.
const COUNT_FRAMES = `
  const times = (window.benchTimes = []);
  const tick = (time) => {
    if (window.benchTimes !== times) return;
    times.push(time);
    requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
`;
const COUNTED = '(() => { const times = window.benchTimes; window.benchTimes = null; return times; })()';
const TWO_FRAMES = 'new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())))';

/** Frames a second that the page draws while `work` goes on. */
async function framesWhile(page: Page, work: () => Promise<void>): Promise<number> {
  await page.evaluate(COUNT_FRAMES);
  await work();
  const times = await page.evaluate<number[]>(COUNTED);
  const span = (times.at(-1) ?? 0) - (times[0] ?? 0);
  return span > 0 ? (1000 * (times.length - 1)) / span : 0;
}

/** Time that the page's main thread has worked so far, ms. */
async function workedMs(cdp: CDPSession): Promise<number> {
  const { metrics } = await cdp.send('Performance.getMetrics');
  return 1000 * (metrics.find((m) => m.name === 'TaskDuration')?.value ?? 0);
}

async function middle(page: Page, selector: string): Promise<{ x: number; y: number }> {
  const box = await page.locator(selector).first().boundingBox();
  if (!box) throw new Error(`${selector} is not on the page`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function panAndZoom(page: Page): Promise<void> {
  const { x, y } = await middle(page, '.film-touch');
  await page.keyboard.down('Space');
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 0; i < 150; i++) await page.mouse.move(x + 120 * Math.sin(i / 12), y + 150 * Math.sin(i / 17));
  await page.mouse.up();
  await page.keyboard.up('Space');
  for (let i = 0; i < 100; i++) await page.mouse.wheel(0, i < 50 ? -60 : 60);
}

const panZoom: Bench = {
  name: 'viewer: pan and zoom of the long-leg film with the plan drawn on it',
  target: '50 frames a second or more; alternative = the same page at rest',
  run: () =>
    onCasePage(async (page) => {
      const size = await page.locator('.film-touch').first().getAttribute('aria-label');
      const { x, y } = await middle(page, '.film-touch');
      await page.mouse.click(x, y + 200);
      await page.locator('.film-touch').first().focus();
      const rest = await framesWhile(page, () => page.waitForTimeout(1500));
      const moving = await framesWhile(page, () => panAndZoom(page));
      return { ours: moving, theirs: rest, unit: 'frames/s', ratio: moving / rest, note: size?.split('.')[0] ?? '' };
    }),
};

const dragged: Bench = {
  name: 'viewer: a dragged landmark to the redrawn plan, all work of the page for one move',
  target: 'under one frame; alternative = the frame of 60 a second (ratio <= 1)',
  run: () =>
    onCasePage(async (page, cdp) => {
      await cdp.send('Performance.enable');
      const { x, y } = await middle(page, '[data-mark="femoral-shaft-distal-medial"]');
      await page.mouse.move(x, y);
      await page.mouse.down();
      for (let i = 0; i < 20; i++) await page.mouse.move(x + i / 2, y);
      const moves = 100;
      const before = await workedMs(cdp);
      for (let i = 0; i < moves; i++) {
        await page.mouse.move(x + 10 + 6 * Math.sin(i), y + 6 * Math.cos(i));
        await page.evaluate(TWO_FRAMES);
      }
      const ours = (await workedMs(cdp)) - before;
      await page.mouse.up();
      return { ours: ours / moves, theirs: FRAME_MS, unit: 'ms', ratio: ours / moves / FRAME_MS };
    }),
};

export const benches: readonly Bench[] = [panZoom, dragged];
