import type { CaseFile } from '@gapline/core/plan/case.ts';
import { ctPhantom, writeCt } from '@gapline/phantoms/src/ct.ts';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CaseState } from '../server/src/contract.ts';
import { axeProblems } from './testing/axe-problems.ts';
import { type Desk, openDesk } from './testing/desk.ts';
import { DESK } from './testing/launch-chromium.ts';

const phantom = ctPhantom({ seed: 9, side: 'right', femoralDeg: -5, tibialDeg: -24, size: 128, thicknessMm: 4 });
const COUNT = phantom.slices.length;

let desk: Desk;
let context: BrowserContext;
let page: Page;
let origin: string;
let caseId: string;

beforeAll(async () => {
  desk = await openDesk('stack', { patienceMs: 30_000, withConsole: true, window: { ...DESK, hasTouch: true } });
  ({ page, origin, context } = desk);
  await page.locator('.cases a').first().waitFor();
  // Imported as a person does it: all slices chosen at once.
  await page.goto(`${origin}/#/new`);
  await page.getByLabel('Choose files').setInputFiles(
    writeCt(phantom).map(({ file, bytes }) => ({
      name: file,
      mimeType: 'application/dicom',
      buffer: Buffer.from(bytes),
    })),
  );
  await page.locator('.imported li').first().waitFor();
});

afterAll(() => desk?.close());

const until = <T>(read: () => T | Promise<T>) => expect.poll(read, { timeout: 20_000 });
const shown = () => page.locator('.slice-pixels').getAttribute('data-slice').then(Number);
const picture = () => page.locator('.stack-surface .film-touch');
const slider = () => page.getByRole('slider', { name: 'Slice' });
const saved = () => page.locator('.saving-word.is-saved').waitFor();
async function onDisk(): Promise<CaseFile> {
  await saved();
  return (await desk.caseState(caseId)).case;
}
const truth = (landmark: string) => phantom.truth.marks.find((m) => m.landmark === landmark)!;
const goTo = async (slice: number): Promise<void> => {
  await slider().fill(String(slice + 1));
  await until(shown).toBe(slice);
};
/** Page place of a pixel of the slice, from where the handle of a mark with known pixels would stand. */
async function placeOf(px: { x: number; y: number }): Promise<{ x: number; y: number }> {
  const box = (await picture().boundingBox())!;
  const scale = (0.96 * Math.min(box.width, box.height)) / 128;
  return { x: box.x + box.width / 2 + (px.x - 63.5) * scale, y: box.y + box.height / 2 + (px.y - 63.5) * scale };
}
/** Asks for a landmark from the list of marks. */
async function ask(label: string): Promise<void> {
  const list = page.locator('.mark-list');
  if (!(await list.evaluate((e) => (e as HTMLDetailsElement).open))) await list.locator('summary').first().click();
  await list
    .getByRole('button', { name: new RegExp(`^${label}`) })
    .first()
    .click();
}
const pixelSum = () =>
  page.locator('.slice-pixels').evaluate((canvas) => {
    const c = canvas as HTMLCanvasElement;
    const { data } = c.getContext('2d')!.getImageData(0, 0, c.width, c.height);
    let sum = 0;
    for (let i = 0; i < data.length; i += 4) sum += data[i]!;
    return sum;
  });

describe('CT stack', () => {
  test('all slices chosen at once become one film; the case shows it among its films', async () => {
    expect(await page.locator('.imported li').count()).toBe(1);
    expect(await page.locator('.imported li').textContent()).toContain(`${COUNT} slices`);
    await page.getByText('Right', { exact: true }).click();
    await page.getByRole('button', { name: /^Begin with 1 film/ }).click();
    await page.locator('.slice-pixels').waitFor();
    caseId = (await page.evaluate(() => window.location.hash)).split('/')[2]!;
    await page.getByRole('button', { name: 'CT', exact: true }).waitFor();
    await until(() => page.locator('.slice-number').first().textContent()).toBe(
      `Slice ${Math.floor(COUNT / 2) + 1} of ${COUNT}`,
    );
    const edges = await page.locator('.slice-edge').allTextContents();
    expect(edges).toEqual(['R', 'L', 'A', 'P']);
    expect(await page.locator('.film-side').textContent()).toBe('Right');
  });

  test('the wheel, the keys, a finger and the bar go through the slices', async () => {
    const start = Math.floor(COUNT / 2);
    await picture().hover();
    await page.mouse.wheel(0, -100);
    await until(shown).toBe(start + 1);
    await page.mouse.wheel(0, 300);
    await until(shown).toBe(start - 2);
    await picture().focus();
    await page.keyboard.press('PageUp');
    await until(shown).toBe(start - 1);
    await page.keyboard.press('Shift+ArrowDown');
    await until(shown).toBe(start - 11);
    await page.keyboard.press('End');
    await until(shown).toBe(COUNT - 1);
    await page.keyboard.press('Home');
    await until(shown).toBe(0);
    const box = (await picture().boundingBox())!;
    const cdp = await context.newCDPSession(page);
    const finger = (type: 'touchStart' | 'touchMove' | 'touchEnd', y: number) =>
      cdp.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: type === 'touchEnd' ? [] : [{ x: box.x + box.width / 2, y }],
      });
    const low = box.y + box.height - 80;
    await finger('touchStart', low);
    for (let i = 1; i <= 10; i++) await finger('touchMove', low - (i * box.height) / 20);
    await finger('touchEnd', 0);
    await until(shown).toBe(Math.floor(COUNT / 2));
    await goTo(3);
  });

  test('grey windows for bone, metal and soft tissue differ, each by key and button', async () => {
    await goTo(truth('ct-tray-posterior-medial').slice);
    const bone = await pixelSum();
    await picture().focus();
    await page.keyboard.press('2');
    await until(() => page.getByRole('button', { name: 'Metal', exact: true }).getAttribute('aria-pressed')).toBe(
      'true',
    );
    expect(await pixelSum()).toBeLessThan(bone);
    await page.getByRole('button', { name: 'Soft tissue', exact: true }).click();
    await until(pixelSum).toBeGreaterThan(bone);
    await page.keyboard.press('1');
    await until(pixelSum).toBe(bone);
  });

  test('a landmark is placed with the mouse on its slice, moved by keys, and keeps its slice across a reload', async () => {
    const tip = truth('ct-tubercle-tip');
    await ask('Tibial tubercle on CT');
    await goTo(tip.slice);
    const at = await placeOf(tip.points[0]!);
    await page.mouse.click(at.x, at.y);
    const handle = page.locator('[data-mark="ct-tubercle-tip"]');
    await handle.waitFor();
    const [mark] = (await onDisk()).marks;
    expect(mark).toMatchObject({ landmark: 'ct-tubercle-tip', side: 'right', slice: tip.slice });
    expect(Math.hypot(mark!.points[0]!.x - tip.points[0]!.x, mark!.points[0]!.y - tip.points[0]!.y)).toBeLessThan(0.5);
    await handle.focus();
    await page.keyboard.press('ArrowRight');
    await until(async () => (await onDisk()).marks[0]?.points[0]?.x).toBeCloseTo(mark!.points[0]!.x + 1, 5);
    // On another slice it is not shown; selected in the list it brings its slice.
    await goTo(tip.slice + 4);
    expect(await handle.count()).toBe(0);
    await ask('Tibial tubercle on CT');
    await until(shown).toBe(tip.slice);
    await page.reload();
    await page.locator('.slice-pixels').waitFor();
    await goTo(tip.slice);
    await handle.waitFor();
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await until(async () => (await onDisk()).marks[0]?.points[0]?.x).toBeCloseTo(mark!.points[0]!.x, 5);
  });

  test('a landmark is placed by keyboard alone', async () => {
    await ask('Lateral epicondyle on CT');
    await goTo(truth('ct-lateral-epicondyle').slice);
    await picture().focus();
    await page.keyboard.press('Enter');
    for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('PageUp');
    await page.keyboard.press('PageDown');
    await page.keyboard.press('Enter');
    await page.locator('[data-mark="ct-lateral-epicondyle"]').waitFor();
    const mark = (await onDisk()).marks.find((m) => m.landmark === 'ct-lateral-epicondyle');
    expect(mark?.slice).toBe(truth('ct-lateral-epicondyle').slice);
    expect(mark!.points[0]!.x).toBeLessThan(60);
  });

  test('marks on several slices give both rotations with their spread, and the combined one waits for the sex', async () => {
    const { films } = await onDisk();
    const state = (await (await page.request.get(`${origin}/api/cases/${caseId}`)).json()) as CaseState;
    const edits = phantom.truth.marks.map((m) => ({
      kind: 'put-mark',
      mark: { ...m, side: 'right', film: films[0]!.id, how: 'by-hand' },
    }));
    await page.request.post(`${origin}/api/cases/${caseId}/edits`, {
      headers: { origin },
      data: { baseRevision: state.revision, label: 'All marks', edits },
    });
    await page.reload();
    await page.locator('.slice-pixels').waitFor();
    await until(() => page.locator('[data-rotation="ct-femoral-rotation"]').textContent()).toMatch(/Femur −5\.0° ± \d/);
    expect(await page.locator('[data-rotation="ct-tibial-rotation"]').textContent()).toContain('−24.0°');
    expect(await page.locator('[data-rotation="ct-combined-rotation"]').count()).toBe(0);
    expect(await page.locator('.spanned').count()).toBe(5);
    // The lines lie within the picture, where they can be seen.
    const inSight = await page.locator('.spanned .drawn-line').evaluateAll((paths) =>
      paths.map((path) => {
        const [line, drawing] = [path.getBoundingClientRect(), path.closest('svg')!.getBoundingClientRect()];
        return (
          line.left >= drawing.left &&
          line.right <= drawing.right &&
          line.top >= drawing.top &&
          line.bottom <= drawing.bottom
        );
      }),
    );
    expect(inSight).toEqual(Array(5).fill(true));
    // The phantom is a woman: with the sex known, the combined excess is there at once.
    const newest = (await (await page.request.get(`${origin}/api/cases/${caseId}`)).json()) as CaseState;
    await page.request.post(`${origin}/api/cases/${caseId}/edits`, {
      headers: { origin },
      data: {
        baseRevision: newest.revision,
        label: 'Sex',
        edits: [{ kind: 'set', field: '/patient/sex', value: 'female' }],
      },
    });
    await page.reload();
    await until(() => page.locator('[data-rotation="ct-combined-rotation"]').textContent()).toContain('−10.7°');
  });

  test('axe finds no violation; on a tablet upright nothing lies over anything else; nothing outside was asked for and nothing failed', async () => {
    await page.locator('.slice-pixels').waitFor();
    expect(await axeProblems(page)).toEqual([]);
    await page.setViewportSize({ width: 800, height: 1280 });
    const boxes = async () => {
      const surface = (await page.locator('.stack-surface').boundingBox())!;
      const [bar, tools] = [(await slider().boundingBox())!, (await page.locator('.stack-tools').boundingBox())!];
      const facts = (await page.locator('.stack-surface .film-facts').boundingBox())!;
      return {
        barInside: bar.y >= surface.y && bar.y + bar.height <= surface.y + surface.height + 1,
        barBesideTools: bar.x + bar.width <= tools.x,
        barIsLong: bar.height >= surface.height / 2,
        factsBesideBar: facts.x + facts.width <= bar.x,
      };
    };
    const sound = { barInside: true, barBesideTools: true, barIsLong: true, factsBesideBar: true };
    await until(boxes).toEqual(sound);
    await page.setViewportSize(DESK.viewport);
    await until(boxes).toEqual(sound);
    expect(desk.watch).toEqual({ outside: [], faults: [] });
  });
});
