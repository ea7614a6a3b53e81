import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { writePlainFilm } from '@gapline/film/write/dx.ts';
import { uidOf } from '@gapline/film/write/uid.ts';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildPages } from './build.ts';
import { axeProblems, axeProblemsOfLayout } from './testing/axe-problems.ts';
import { type Desk, openDesk } from './testing/desk.ts';
import { endWorkbench, startWorkbench } from './testing/start-workbench.ts';

/** A small film with two bright bars for bones and a brighter one for metal: enough to place marks on. */
function smallFilm(name: string, view: 'AP' | 'LL'): Buffer {
  const [columns, rows] = [500, 700];
  const pixels = new Uint16Array(columns * rows);
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) {
      const bone = Math.abs(x - 250) < 40 + Math.max(0, 60 - Math.abs(y - 350) / 2);
      const metal = Math.abs(y - 350) < 16 && Math.abs(x - 250) < 100;
      pixels[y * columns + x] = metal ? 15000 : bone ? 8000 : 2000 + (x % 7) * 40;
    }
  }
  return Buffer.from(
    writePlainFilm({
      kind: 'dx',
      pixels,
      rows,
      columns,
      bitsStored: 14,
      monochrome1: false,
      window: { centre: 8000, width: 16000 },
      patient: { name: 'Invented^Berta', id: 'T-1', sex: 'F', birthDate: '19500101' },
      study: { uid: uidOf('browser-study'), date: '20260301', time: '080000', id: '1', description: 'Knee' },
      series: { uid: uidOf(`${name}-series`), number: 1, description: name },
      instance: { uid: uidOf(name), number: 1 },
      laterality: 'R',
      view: { position: view, code: '399348003', meaning: 'antero-posterior projection' },
      region: { code: '72696002', meaning: 'Knee region structure' },
      bodyPart: 'KNEE',
      orientation: view === 'AP' ? ['L', 'F'] : ['P', 'F'],
      derived: null,
      spacing: { detectorMm: 0.3, sourceToDetectorMm: 1150, sourceToPatientMm: 1050 },
      exposure: { kvp: 66, mas: 8 },
    }),
  );
}

let desk: Desk;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let origin: string;

beforeAll(async () => {
  desk = await openDesk('workbench', { patienceMs: 12_000, withConsole: true });
  ({ page, origin, browser, context } = desk);
});

afterAll(() => desk?.close());

const saved = (on: Page = page) => on.locator('.saving-word.is-saved').waitFor();

/** Middle of the only shown film's picture, in page pixels. */
async function middleOfFilm(on: Page = page): Promise<{ x: number; y: number }> {
  const box = (await on.locator('.film-touch').first().boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

const markPlace = async (landmark: string, on: Page = page): Promise<{ x: number; y: number }> => {
  const box = (await on.locator(`[data-mark="${landmark}"]`).first().boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};

const measured = (id: string, on: Page = page) => on.locator(`[data-measurement="${id}"] .measured-value`).first();

/** Asks for a landmark by its name in the whole list of the film. */
async function ask(label: string): Promise<void> {
  const list = page.locator('.mark-list');
  if (!(await list.evaluate((d: HTMLDetailsElement) => d.open))) await list.locator('summary').click();
  await list.getByRole('button', { name: label }).first().click();
}

const axe = (on: Page = page) => axeProblems(on);

describe('workbench in a real browser', () => {
  test('the key opens the list of cases, with the invented demo case in it, and leaves the address', async () => {
    await page.getByRole('heading', { name: 'Cases' }).waitFor();
    expect(page.url()).not.toContain('key=');
    await page.locator('.cases .tag', { hasText: 'invented' }).waitFor();
    expect(await axe()).toEqual([]);
  });

  test('without the key there is nothing', async () => {
    const stranger = await browser.newContext();
    const answer = await stranger.request.get(`${origin}/api/cases`);
    expect(answer.status()).toBe(401);
    await stranger.close();
  });

  test('the demo case opens with films, measurements, a joint line and a proposed construct drawn on the film', async () => {
    await page.locator('.cases a', { hasText: 'invented' }).first().click();
    await page.locator('.film-pixels').first().waitFor({ timeout: 60_000 });
    expect(await page.locator('.measured-line').count()).toBeGreaterThan(10);
    await page.locator('.estimate .big').first().waitFor();
    await page.locator('.proposal').first().waitFor();
    expect(await page.locator('.drawn-component.of-plan').count()).toBeGreaterThan(0);
    expect(await page.locator('.drawn-joint-line-band').count()).toBeGreaterThan(0);
    for (const word of ['Scale:', 'Both legs']) await page.getByText(word).first().waitFor();
  });

  test('a film of the demo case is not black: bone and air differ on the canvas', async () => {
    const greys = await page
      .locator('.film-pixels')
      .first()
      .evaluate((canvas: HTMLCanvasElement) => {
        const data = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height).data;
        const seen = new Set<number>();
        for (let i = 0; i < data.length; i += 4000) seen.add(data[i]!);
        return seen.size;
      });
    expect(greys).toBeGreaterThan(20);
  });

  test('the next best construct can be drawn in its place', async () => {
    const paths = () =>
      page.locator('.drawn.of-plan .drawn-line').evaluateAll((all) => all.map((p) => p.getAttribute('d')).join(' '));
    // Each film draws when its own pixels are there.
    await expect.poll(() => page.locator('.film-pixels').count()).toBe(2);
    let best = '';
    await expect
      .poll(async () => {
        const before = best;
        best = await paths();
        return best !== '' && best === before;
      })
      .toBe(true);
    await page.locator('.proposal').nth(1).click();
    await expect.poll(paths).not.toBe(best);
    await page.locator('.proposal').nth(0).click();
    await expect.poll(paths).toBe(best);
  });

  test('a dragged landmark moves the numbers while the hand still holds it, and undo brings them back after a reload', async () => {
    await page.locator('.film-tools').first().getByRole('button', { name: 'Knee' }).click();
    const before = await measured('mldfa').textContent();
    const area = await page.locator('.film-touch').first().boundingBox();
    const from = await markPlace('medial-condyle-distal');
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x, from.y - 14, { steps: 6 });
    await expect.poll(() => measured('mldfa').textContent()).not.toBe(before);
    await page.locator('.loupe').waitFor();
    await page.mouse.up();
    await saved();
    const after = await measured('mldfa').textContent();
    expect(after).not.toBe(before);
    await page.locator('.change-line', { hasText: 'Medial condyle, most distal point moved' }).waitFor();
    await page.locator('.change-line', { hasText: 'changes in the plan:' }).waitFor();
    // However much is told there, the film stays where it was.
    expect(await page.locator('.film-touch').first().boundingBox()).toEqual(area);

    await page.reload();
    await measured('mldfa').waitFor();
    expect(await measured('mldfa').textContent()).toBe(after);
    await page.keyboard.press('Control+z');
    await expect.poll(() => measured('mldfa').textContent()).toBe(before);
    await page.reload();
    await measured('mldfa').waitFor();
    expect(await measured('mldfa').textContent()).toBe(before);
    await page.keyboard.press('Control+Shift+Z');
    await expect.poll(() => measured('mldfa').textContent()).toBe(after);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(() => measured('mldfa').textContent()).toBe(before);
  });

  test('every number opens its reason', async () => {
    await page.locator('[data-measurement="mldfa"]').first().click();
    const reason = page.locator('.reason').first();
    for (const word of ['Sign', 'From', 'Rule', 'LIMB-', 'Source']) expect(await reason.textContent()).toContain(word);
    await page.locator('[data-measurement="mldfa"]').first().click();
  });

  test('the arrow keys nudge a mark by 1, 10 and 0.1 pixels, and a row of nudges is undone at once', async () => {
    await page.locator('[data-mark="lateral-condyle-distal"]').first().focus();
    await page.locator('.is-selected[data-mark="lateral-condyle-distal"]').first().waitFor();
    const column = page.getByRole('textbox', { name: 'Column', exact: true });
    const start = Number(await column.inputValue());
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Alt+ArrowRight');
    await expect.poll(async () => Number(await column.inputValue())).toBeCloseTo(start + 11.1, 2);
    await page.locator('.saving-word.is-saved').waitFor();
    await page.waitForTimeout(900);
    await saved();
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(async () => Number(await column.inputValue())).toBeCloseTo(start, 2);
  });

  test('a mark can be moved by numbers alone', async () => {
    const row = page.getByRole('textbox', { name: 'Row', exact: true });
    const start = Number(await row.inputValue());
    await row.fill(String(start + 3));
    await row.press('Enter');
    await saved();
    const told = await page.locator('.mark.is-selected').first().getAttribute('aria-label');
    expect(told).toContain(`row ${Math.round(start + 3)}`);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(async () => Number(await row.inputValue())).toBe(start);
  });

  test('the case page has no barrier that axe can find, at three sizes', async () => {
    for (const [width, height] of [
      [1366, 768],
      [1024, 768],
      [768, 1024],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.locator('.film-pixels').first().waitFor();
      expect(width === 1366 ? await axe() : await axeProblemsOfLayout(page)).toEqual([]);
      const overflow = await page.evaluate(() =>
        document.documentElement.scrollWidth <= window.innerWidth
          ? []
          : [...document.querySelectorAll('body *')]
              .filter((e) => e.getBoundingClientRect().right > window.innerWidth + 1)
              .map((e) => `${e.tagName} ${e.getAttribute('class')}`),
      );
      expect(overflow).toEqual([]);
    }
    await page.setViewportSize({ width: 1366, height: 768 });
  });

  test('Print sheet keeps a plan and gives a PDF, and the plan stays in the list', async () => {
    const opened = context.waitForEvent('page');
    await page.getByRole('button', { name: 'Print sheet' }).click();
    const sheet = await opened;
    const link = page.locator('.plans a').first();
    await link.waitFor({ timeout: 60_000 });
    const answer = await page.request.get(`${origin}${await link.getAttribute('href')}`);
    expect(answer.headers()['content-type']).toContain('application/pdf');
    expect((await answer.body()).subarray(0, 5).toString()).toBe('%PDF-');
    await sheet.close();
  });

  test('a new case from dropped DICOM files: one refused with its mend, one taken, the side asked for', async () => {
    await page.goto(`${origin}/#/new`);
    await page.locator('.drop').waitFor();
    expect(await axe()).toEqual([]);
    await page.getByRole('radio', { name: 'Leave them in' }).check();
    const film = smallFilm('browser-ap', 'AP').toString('base64');
    const data = await page.evaluateHandle((bytes) => {
      const raw = Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0));
      const transfer = new DataTransfer();
      transfer.items.add(new File([raw], 'knee-ap.dcm'));
      transfer.items.add(new File([new Uint8Array([1, 2, 3])], 'broken.dcm'));
      return transfer;
    }, film);
    await page.dispatchEvent('.drop', 'drop', { dataTransfer: data });
    await page.locator('.imported li', { hasText: 'knee-ap.dcm' }).waitFor();
    const refused = page.locator('.imported .is-refused', { hasText: 'broken.dcm' });
    expect((await refused.textContent())!.length).toBeGreaterThan(40);
    await page.getByRole('button', { name: /^Begin with 1 film/ }).click();
    await page.getByRole('alert').filter({ hasText: 'right or the left' }).waitFor();
    await page.getByRole('radio', { name: 'Left' }).check();
    await page.locator('.warning', { hasText: 'the other side' }).waitFor();
    await page.getByRole('radio', { name: 'Right' }).check();
    await page.getByLabel('Title', { exact: true }).fill('Dropped knee');
    expect(await axe()).toEqual([]);
    await page.getByRole('button', { name: /^Begin with 1 film/ }).click();
    await page.locator('.film-pixels').waitFor();
    expect(await page.getByLabel('Name', { exact: true }).inputValue()).toBe('Invented, Berta');
  });

  test('landmarks are placed by press, by keyboard alone, and an outline by several presses', async () => {
    const middle = await middleOfFilm();
    await ask('Medial condyle, most distal point');
    await page.mouse.click(middle.x + 30, middle.y);
    await page.locator('[data-mark="medial-condyle-distal"]').waitFor();
    const placed = await markPlace('medial-condyle-distal');
    expect(Math.abs(placed.x - middle.x - 30)).toBeLessThan(1.5);

    await ask('Lateral condyle, most distal point');
    await page.locator('.film-touch').focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Enter');
    await page.locator('[data-mark="lateral-condyle-distal"]').waitFor();
    const keyed = await markPlace('lateral-condyle-distal');
    expect(Math.abs(keyed.x - middle.x + 24)).toBeLessThan(1.5);

    await ask('Calibration ball outline');
    for (const [dx, dy] of [
      [120, 60],
      [140, 80],
      [120, 100],
    ] as const) {
      await page.mouse.click(middle.x + dx, middle.y + dy);
    }
    await page.getByRole('button', { name: 'Outline done (3 points)' }).click();
    expect(await page.locator('[data-mark="calibration-ball"]').count()).toBe(3);
    await saved();
  });

  test('Delete takes a mark away, Later goes on to the next', async () => {
    await page.locator('[data-mark="lateral-condyle-distal"]').focus();
    await page.keyboard.press('Delete');
    await expect.poll(() => page.locator('[data-mark="lateral-condyle-distal"]').count()).toBe(0);
    const heading = page.locator('.next-mark h3');
    const first = await heading.textContent();
    await page.getByRole('button', { name: 'Later', exact: true }).click();
    await expect.poll(() => heading.textContent()).not.toBe(first);
    await saved();
  });

  test('a finger drags a mark on a tablet, with targets of 44 pixels', async () => {
    const tablet = await browser.newContext({
      viewport: { width: 768, height: 1024 },
      hasTouch: true,
      storageState: await context.storageState(),
    });
    const touched = await desk.watched(tablet);
    await touched.goto(page.url());
    await touched.locator('[data-mark="medial-condyle-distal"]').waitFor();
    const from = await markPlace('medial-condyle-distal', touched);
    const cdp = await tablet.newCDPSession(touched);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', x: number, y: number) =>
      cdp.send('Input.dispatchTouchEvent', { type, touchPoints: type === 'touchEnd' ? [] : [{ x, y }] });
    await touch('touchStart', from.x + 8, from.y + 8);
    for (let i = 1; i <= 8; i++) await touch('touchMove', from.x + 8 + 5 * i, from.y + 8);
    await touch('touchEnd', from.x + 48, from.y + 8);
    await saved(touched);
    const to = await markPlace('medial-condyle-distal', touched);
    expect(to.x - from.x).toBeGreaterThan(35);
    expect(to.x - from.x).toBeLessThan(45);
    const small = await touched
      .locator('button:visible:not(.mark), a.button:visible')
      .evaluateAll((all) => all.filter((b) => b.getBoundingClientRect().height < 43.5).map((b) => b.textContent));
    expect(small).toEqual([]);
    await tablet.close();
  });

  test('a change made elsewhere is told, and nothing of it is overwritten', async () => {
    await page.getByLabel('Title', { exact: true }).waitFor();
    const answer = await page.request.get(`${origin}/api/cases/${page.url().split('/').at(-1)}`);
    const state = (await answer.json()) as { revision: number };
    const posted = await page.request.post(answer.url().concat('/edits'), {
      headers: { origin: origin },
      data: {
        baseRevision: state.revision,
        label: 'Title',
        edits: [{ kind: 'set', field: '/title', value: 'Elsewhere' }],
      },
    });
    expect(posted.status()).toBe(200);
    await page.getByLabel('Title', { exact: true }).fill('Mine');
    await page.getByLabel('Title', { exact: true }).press('Enter');
    await page.locator('.notice', { hasText: 'another window' }).waitFor();
    await expect.poll(() => page.getByLabel('Title', { exact: true }).inputValue()).toBe('Elsewhere');
    await page.getByRole('button', { name: 'Understood' }).click();
  });

  test('the server killed in the middle of an edit loses nothing that was shown, saved or not', async () => {
    await page.getByLabel('Title', { exact: true }).fill('Saved before the end');
    await page.getByLabel('Title', { exact: true }).press('Enter');
    await saved();
    await endWorkbench(desk.bench, 'SIGKILL');
    await page.getByLabel('Number', { exact: true }).fill('N-77');
    await page.getByLabel('Number', { exact: true }).press('Enter');
    await page.locator('.saving-word.is-out-of-reach').waitFor();
    await page.locator('.offline').waitFor();
    expect(await axe()).toEqual([]);

    desk.bench = await startWorkbench(desk.folder, Number(new URL(origin).port));
    await page
      .getByRole('button', { name: 'Try now' })
      .click({ timeout: 15_000 })
      .catch(() => undefined);
    await saved();
    await page.reload();
    await page.getByLabel('Number', { exact: true }).waitFor();
    expect(await page.getByLabel('Title', { exact: true }).inputValue()).toBe('Saved before the end');
    expect(await page.getByLabel('Number', { exact: true }).inputValue()).toBe('N-77');
  });

  test('a change that was not confirmed outlives the page itself', async () => {
    await page.route('**/edits', (route) => route.abort());
    await page.getByLabel('Number', { exact: true }).fill('N-78');
    await page.getByLabel('Number', { exact: true }).press('Enter');
    await page.locator('.saving-word.is-out-of-reach').waitFor();
    const address = page.url();
    await page.close();
    page = await desk.watched(context);
    await page.goto(address);
    await page.getByLabel('Number', { exact: true }).waitFor();
    await expect.poll(() => page.getByLabel('Number', { exact: true }).inputValue()).toBe('N-78');
    await saved();
  });

  test('no request left this machine, and no page reported a fault', () => {
    expect(desk.watch).toEqual({ outside: [], faults: [] });
  });

  test('the pages are the same bytes from the same sources', async () => {
    const hash = async (name: string) => {
      const outDir = join(desk.folder, name);
      await buildPages({ outDir, minify: true });
      const sum = createHash('sha256');
      for (const file of readdirSync(outDir).sort()) sum.update(file).update(readFileSync(join(outDir, file)));
      return sum.digest('hex');
    };
    expect(await hash('a')).toBe(await hash('b'));
  });
});
