// The film viewer in headless Chromium, on the demonstration case's long-leg film as the real server delivers it.
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { writePlainFilm } from '@gapline/film/write/dx.ts';
import { uidOf } from '@gapline/film/write/uid.ts';
import { build } from 'esbuild';
import { type Browser, type CDPSession, chromium, type Page } from 'playwright-core';
import type { Bench } from './bench-types.ts';

const project = join(dirname(fileURLToPath(import.meta.url)), '..');
const FRAME_MS = 1000 / 60;

/** Opens the list of cases of a fresh workbench, measures, and cleans up. */
async function onWorkbench<T>(measure: (page: Page, cdp: CDPSession, browser: Browser) => Promise<T>): Promise<T> {
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
    await page.locator('.cases a').first().waitFor();
    return await measure(page, await page.context().newCDPSession(page), browser);
  } finally {
    await browser?.close();
    server?.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The demonstration case on its long-leg film alone: 3000 x 7000 pixels of 16 bit. */
const onCasePage = <T>(measure: (page: Page, cdp: CDPSession) => Promise<T>): Promise<T> =>
  onWorkbench(async (page, cdp) => {
    await page.locator('.cases a').first().click();
    await page.locator('.film-pixels').nth(1).waitFor({ timeout: 60_000 });
    await page.getByRole('button', { name: 'Two films' }).click();
    await page.waitForTimeout(500);
    return measure(page, cdp);
  });

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

/**
 * Draws the film twice in the page, as the viewer does and on a plain canvas: there its 16-bit values are brought to 8 bits by a
 * line, put into one canvas of the film's size, then drawn smaller into another one. Either is moved by a pixel each time and
 * read back, so that it is truly done. Gives the time to the plain canvas's first sight and for one move of either, ms.
 */
const DRAWN_TWICE = `(async ({ address, columns, rows, low, high, width, height, moves }) => {
  const values = new Uint16Array(await (await fetch(address)).arrayBuffer());
  const areaOf = () => {
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    return canvas.getContext('2d', { alpha: false });
  };
  const timed = (move) => {
    move(0);
    const before = performance.now();
    for (let i = 0; i < moves; i++) move(i % 40);
    return (performance.now() - before) / moves;
  };
  const scale = Math.min(width / columns, height / rows);
  const start = performance.now();
  const whole = document.createElement('canvas');
  whole.width = columns;
  whole.height = rows;
  const put = whole.getContext('2d', { alpha: false });
  const image = put.createImageData(columns, rows);
  const colours = new Uint32Array(image.data.buffer);
  for (let i = 0; i < values.length; i++) {
    const grey = Math.min(Math.max((255 * (values[i] - low)) / (high - low), 0), 255) & 255;
    colours[i] = 0xff000000 | (grey << 16) | (grey << 8) | grey;
  }
  put.putImageData(image, 0, 0);
  const plainly = areaOf();
  const draw = (by) => {
    plainly.fillRect(0, 0, width, height);
    plainly.drawImage(whole, by, 0, columns * scale, rows * scale);
    plainly.getImageData(0, 0, 1, 1);
  };
  draw(0);
  const first = performance.now() - start;
  const levels = viewer.pyramid({ width: columns, height: rows, values });
  const table = viewer.greyTable({ low, high, inverted: false });
  const own = areaOf();
  const target = own.createImageData(width, height);
  const area = { width, height, colours: new Uint32Array(target.data.buffer) };
  const paint = (by) => {
    viewer.paint(area, levels, { left: -by / scale, top: 0, stepX: 1 / scale, stepY: 1 / scale }, table);
    own.putImageData(target, 0, 0);
    own.getImageData(0, 0, 1, 1);
  };
  return { first, plain: timed(draw), own: timed(paint) };
})`;

/** The viewer's own painting, as one script for the page. */
async function viewerScript(): Promise<string> {
  const from = (file: string) => `export * from './${file}.ts';`;
  const { outputFiles } = await build({
    stdin: {
      contents: ['paint', 'pyramid', 'grey'].map(from).join('\n'),
      resolveDir: join(project, 'web', 'src', 'film'),
      loader: 'ts',
    },
    bundle: true,
    write: false,
    format: 'iife',
    globalName: 'viewer',
  });
  return outputFiles[0]?.text ?? '';
}

interface DrawnTwice {
  readonly first: number;
  readonly plain: number;
  readonly own: number;
}

/** Draws the long-leg film in the size of its area on the page, as the viewer does and plainly. */
async function drawnTwice(page: Page, moves: number): Promise<DrawnTwice> {
  const box = await page.locator('.film-touch').first().boundingBox();
  if (!box) throw new Error('no film is on the page');
  const address = await page.evaluate<string>(
    "performance.getEntriesByType('resource').map((e) => e.name).find((n) => /films.[0-9a-f]{64}.about$/.test(n))",
  );
  const about = (await (await page.request.get(address)).json()) as {
    readonly rows: number;
    readonly columns: number;
    readonly window: { readonly low: number; readonly high: number };
  };
  const asked = {
    address: address.replace(/about$/, 'pixels'),
    columns: about.columns,
    rows: about.rows,
    low: about.window.low,
    high: about.window.high,
    width: Math.round(box.width),
    height: Math.round(box.height),
    moves,
  };
  return page.evaluate<DrawnTwice>(`${await viewerScript()}; ${DRAWN_TWICE}(${JSON.stringify(asked)})`);
}

const painting: Bench = {
  name: 'viewer: painting a film of 3000 x 7000 at 16 bit through its grey window, one move',
  target:
    'well under a frame (16.7 ms); alternative = a plain canvas draw of the same film brought to 8 bits beforehand',
  run: () =>
    onCasePage(async (page) => {
      const { own, plain } = await drawnTwice(page, 200);
      return { ours: own, theirs: plain, unit: 'ms', ratio: own / plain };
    }),
};

const firstSight: Bench = {
  name: 'viewer: a film of 3000 x 7000 at 16 bit from its last byte in memory to first sight, at full resolution',
  target: 'under 1000 ms; alternative = the same on a plain canvas of 8 bits',
  run: () =>
    onCasePage(async (page) => {
      const ours = await page.evaluate<number>(
        "performance.getEntriesByName('film: bytes to first sight').map((e) => e.duration)[0]",
      );
      const { first } = await drawnTwice(page, 1);
      return { ours, theirs: first, unit: 'ms', ratio: ours / first };
    }),
};

/** Proportional share of memory of a process, MB: its own pages, and its part of those shared with others. */
function memoryMb(pid: number): number {
  const kb = readFileSync(`/proc/${pid}/smaps_rollup`, 'utf8').match(/^Pss:\s+(\d+) kB/m)?.[1];
  return Number(kb) / 1024;
}

/** An invented film of 3000 x 7000 at 16 bit, another one for every number. */
function largeFilm(number: number): Buffer {
  const [columns, rows] = [3000, 7000];
  const pixels = new Uint16Array(columns * rows);
  for (let y = 0, i = 0; y < rows; y++)
    for (let x = 0; x < columns; x++, i++) pixels[i] = 16000 + ((x * 7 + y * 13 + number * 977) % 9000);
  const name = `bench-film-${number}`;
  return Buffer.from(
    writePlainFilm({
      kind: 'dx',
      pixels,
      rows,
      columns,
      bitsStored: 16,
      monochrome1: false,
      window: { centre: 20000, width: 16000 },
      patient: { name: 'Invented^Film', id: 'B-1', sex: 'F', birthDate: '19500101' },
      study: { uid: uidOf('bench-study'), date: '20260301', time: '080000', id: '1', description: 'Knee' },
      series: { uid: uidOf(`${name}-series`), number, description: name },
      instance: { uid: uidOf(name), number },
      laterality: 'R',
      view: { position: 'AP', code: '399348003', meaning: 'antero-posterior projection' },
      region: { code: '72696002', meaning: 'Knee region structure' },
      bodyPart: 'KNEE',
      orientation: ['L', 'F'],
      derived: null,
      spacing: { detectorMm: 0.15, sourceToDetectorMm: 1150, sourceToPatientMm: 1050 },
      exposure: { kvp: 66, mas: 8 },
    }),
  );
}

/** A case of six large films, opened on its page. */
async function sixLargeFilms(page: Page): Promise<void> {
  const { origin } = new URL(page.url());
  const films: unknown[] = [];
  for (let number = 1; number <= 6; number++) {
    const multipart = {
      file: { name: `film-${number}.dcm`, mimeType: 'application/dicom', buffer: largeFilm(number) },
    };
    const answer = await page.request.post(`${origin}/api/imports`, { headers: { origin }, multipart });
    const [taken] = (await answer.json()) as { readonly film: object }[];
    films.push({ ...taken?.film, id: `film-${number}` });
  }
  const made = await page.request.post(`${origin}/api/cases`, {
    headers: { origin },
    data: { title: 'Six large films', side: 'right', films },
  });
  const { case: file } = (await made.json()) as { readonly case: { readonly id: string } };
  await page.goto(`${origin}/#/case/${file.id}`);
}

const MOST_MB = 600;

const memory: Bench = {
  name: 'viewer: memory of the tab with six films of 3000 x 7000 at 16 bit open, four of them side by side',
  target: 'under 600 MB (ratio <= 1)',
  run: () =>
    onWorkbench(async (page, _, browser) => {
      await sixLargeFilms(page);
      await page.locator('.film-pixels').nth(1).waitFor({ timeout: 60_000 });
      await page.getByRole('button', { name: 'Compare' }).click();
      for (const place of ['Third film', 'Fourth film']) await page.getByLabel(place).selectOption({ index: 1 });
      const tabs = page.locator('.film-tab-list button');
      let most = 0;
      for (let i = 5; i >= 0; i--) {
        await tabs.nth(i).click();
        await page.locator('.film-row .film').first().locator('.film-pixels').waitFor({ timeout: 60_000 });
        await page.waitForTimeout(1000);
        most = Math.max(most, await tabMb(browser));
      }
      return { ours: most, theirs: MOST_MB, unit: 'MB', ratio: most / MOST_MB };
    }),
};

/** Memory of the largest page process of the browser: the only tab that is open. */
async function tabMb(browser: Browser): Promise<number> {
  const cdp = await browser.newBrowserCDPSession();
  const { processInfo } = await cdp.send('SystemInfo.getProcessInfo');
  await cdp.detach();
  return Math.max(...processInfo.filter((p) => p.type === 'renderer').map((p) => memoryMb(p.id)));
}

export const benches: readonly Bench[] = [panZoom, dragged, painting, firstSight, memory];
