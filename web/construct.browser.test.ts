import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeProblems } from './testing/axe-problems.ts';
import { type Desk, openDesk } from './testing/desk.ts';

let desk: Desk;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let origin: string;
let caseId: string;

beforeAll(async () => {
  desk = await openDesk('construct', { patienceMs: 30_000 });
  ({ page, origin, browser, context } = desk);
  const cases = await desk.cases();
  caseId = cases.find((s) => s.case.bone?.tibiaMap && s.case.canals)!.case.id;
  await page.goto(`${origin}/#/case/${caseId}`);
  await page.locator('.film-pixels').first().waitFor();
});

afterAll(() => desk?.close());

/** Waits until what is read is as expected; a busy machine gets its time. */
const until = <T>(read: () => T | Promise<T>) => expect.poll(read, { timeout: 20_000 });
const saved = (on: Page = page) => on.locator('.saving-word.is-saved').waitFor();
const pinned = async (on: Page = page): Promise<NonNullable<NonNullable<CaseFile['settings']>['pinned']>> => {
  await saved(on);
  return (await desk.caseState(caseId)).case.settings?.pinned ?? {};
};
const undo = async (on: Page = page): Promise<void> => {
  await on.getByRole('button', { name: 'Undo', exact: true }).click();
  await saved(on);
};
const grip = (name: string, on: Page = page) => on.locator(`[data-handle="${name} 0"]`).first();
const line = (on: Page = page) => on.locator('.placing-line');
const readout = (what: string, on: Page = page) => on.locator('.hand-readout tr', { hasText: what }).locator('td');
const pin = (id: string) => page.locator(`[data-pin="${id}"]`);
const take = async (view: string, on: Page = page): Promise<void> => {
  await on.getByRole('button', { name: `Move it: ${view}` }).click();
  await on.locator('.hand-readout').waitFor();
};
const middle = async (name: string, on: Page = page) => {
  const box = (await grip(name, on).boundingBox())!;
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};
async function drag(name: string, by: { readonly x: number; readonly y: number }): Promise<void> {
  const from = await middle(name);
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (const part of [0.3, 0.6, 1]) await page.mouse.move(from.x + by.x * part, from.y + by.y * part);
}

describe('The construct moved on the film', () => {
  test('GAP-44 a component follows the mouse in its freedom; gaps follow live; let go, it is fixed and saved', async () => {
    await take('Knee AP');
    // A short way: where the femur goes further the insert follows, and the gap may be told as before.
    const told = () => Promise.all(['Joint line', 'Flexion'].map((what) => readout(what).textContent()));
    const before = await told();
    await drag('femur', { x: 14, y: -2 });
    await until(async () => (await told()).filter((text, i) => text === before[i])).toEqual([]);
    await page.mouse.up();
    await until(async () => Object.keys(await pinned())).toEqual(['femurProximalMm']);
    const fixed = await page.locator('.hand-fixed-list > summary').textContent();
    expect(fixed).toMatch(/^1 fixed by hand, costing [\d.]+ more than the free optimum$/);
    expect(await readout('Cost').textContent()).toContain('by hand');
  });

  test('GAP-43 it stops at a hard limit, which is named; undo brings it back to where it was', async () => {
    const { femurProximalMm } = await pinned();
    await drag('femur', { x: 0, y: -260 });
    await until(() => line().textContent()).toMatch(/Stop: .*(cement|cut|opening|constraint)/);
    await page.mouse.up();
    await until(async () => (await pinned()).femurProximalMm).not.toBe(femurProximalMm);
    await undo();
    expect((await pinned()).femurProximalMm).toBe(femurProximalMm);
  });

  test('GAP-44 arrow keys move by half a millimetre, with Shift by two; brackets change the size; Delete releases', async () => {
    await grip('tray').focus();
    await page.keyboard.press('ArrowDown');
    await until(async () => (await pinned()).trayMm).toBeTypeOf('number');
    const from = (await pinned()).trayMm!;
    await page.keyboard.press('ArrowUp');
    await until(async () => (await pinned()).trayMm).toBeCloseTo(from + 0.5, 6);
    await page.keyboard.press('Shift+ArrowDown');
    await until(async () => (await pinned()).trayMm).toBeCloseTo(from - 1.5, 6);
    await page.keyboard.press(']');
    await until(async () => (await pinned()).traySize).toBeTypeOf('number');
    expect(await line().textContent()).toContain(`size ${(await pinned()).traySize}, fixed`);
    await page.keyboard.press('Delete');
    await until(async () => Object.keys(await pinned())).toEqual(['femurProximalMm']);
    await page.keyboard.press('Escape');
    await page.locator('.hand-readout').waitFor({ state: 'detached' });
  });

  test('GAP-41 the panel tells what each pin costs and what it changes, and releases it; no fault for axe', async () => {
    await pin('insertMm').getByRole('button', { name: 'Insert: more' }).click();
    await until(async () => (await pinned()).insertMm).toBeTypeOf('number');
    expect(await pin('femurProximalMm').locator('.pin-cost').textContent()).toMatch(
      /^Fixed by hand; released: .*saves/,
    );
    expect(await page.locator('.pinned-terms tbody tr').count()).toBeGreaterThan(0);
    expect(await axeProblems(page)).toEqual([]);
    await page.getByRole('button', { name: 'Release: Insert' }).click();
    await until(async () => (await pinned()).insertMm).toBeUndefined();
    await page.getByRole('button', { name: 'Release: Femoral joint line' }).click();
    await page.getByText('Nothing fixed by hand').waitFor();
    expect(await pinned()).toEqual({});
  });

  test('GAP-44 on a lateral film the femur goes along or across, never both, and the tray takes the next slope', async () => {
    await take('Knee lateral');
    await drag('femur', { x: 6, y: 2 });
    await page.mouse.up();
    await until(async () => Object.keys(await pinned())).toEqual(['femurAnteriorMm']);
    await grip('slope').focus();
    await page.keyboard.press('ArrowUp');
    await until(async () => (await pinned()).slopeDeg).toBeTypeOf('number');
    await page.keyboard.press('Delete');
    await until(async () => Object.keys(await pinned())).toEqual(['femurAnteriorMm']);
  });

  test('GAP-44 a finger takes the component by its outline and moves it', async () => {
    const tablet = await browser.newContext({
      viewport: { width: 800, height: 1200 },
      hasTouch: true,
      storageState: await context.storageState(),
    });
    const touched = await desk.watched(tablet);
    await touched.goto(page.url());
    await touched.locator('.film-pixels').first().waitFor();
    await take('Knee AP', touched);
    const { x, y } = await middle('femur', touched);
    const cdp = await tablet.newCDPSession(touched);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...at: (readonly [number, number])[]) =>
      cdp.send('Input.dispatchTouchEvent', { type, touchPoints: at.map(([px, py]) => ({ x: px, y: py, id: 0 })) });
    await touch('touchStart', [x, y]);
    for (const up of [8, 14, 16]) await touch('touchMove', [x, y - up]);
    await touch('touchEnd');
    await until(async () => (await pinned(touched)).femurProximalMm).toBeTypeOf('number');
    expect(desk.watch.faults).toEqual([]);
    expect(desk.watch.outside).toEqual([]);
    await tablet.close();
  });
});
