import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CaseState, HistoryLine } from '../server/src/contract.ts';
import { axeProblems } from './testing/axe-problems.ts';
import { type Desk, openDesk } from './testing/desk.ts';
import { DESK } from './testing/launch-chromium.ts';

let desk: Desk;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let origin: string;
/** The knee AP film of the demonstration case by itself, nothing marked; and where its landmarks are marked in that case. */
let caseId: string;
let known: readonly Mark[];

beforeAll(async () => {
  desk = await openDesk('marking', { patienceMs: 20_000, withConsole: true });
  ({ page, origin, browser, context } = desk);
  await page.locator('.cases a').first().waitFor();
  const demo = await desk.caseState('demo');
  known = demo.case.marks.filter((m) => m.film === 'ap');
  const films = demo.case.films.filter((f) => f.id === 'ap');
  const made = await desk.post('cases', { title: 'Marked anew', side: demo.case.side, films });
  caseId = ((await made.json()) as CaseState).case.id;
  await page.goto(`${origin}/#/case/${caseId}`);
  await page.locator('.film-pixels').first().waitFor({ timeout: 60_000 });
});

afterAll(() => desk?.close());

/** What must come to be, however busy the machine is. */
const soon = <T>(read: () => T | Promise<T>) => expect.poll(read, { timeout: 20_000 });
const fileNow = async (): Promise<CaseFile> => (await desk.caseState(caseId)).case;
const saved = (on: Page = page) => on.locator('.saving-word.is-saved').waitFor();
const next = (on: Page = page) => on.locator('.next-mark h3').first();
const film = (on: Page = page) => on.locator('.film-touch').first();
const knownAt = (landmark: string): { x: number; y: number } => {
  const at = known.find((m) => m.landmark === landmark)?.points[0];
  if (!at) throw new Error(`${landmark} is not marked in the demonstration case`);
  return at;
};

/** Middle of the picture, page pixels. */
async function middle(on: Page = page): Promise<{ x: number; y: number }> {
  const box = await film(on).boundingBox();
  if (!box) throw new Error('no film is shown');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function open(summary: string): Promise<void> {
  const details = page.locator('details', { has: page.locator('summary', { hasText: summary }) }).last();
  if (!(await details.evaluate((d: HTMLDetailsElement) => d.open))) await details.locator('summary').first().click();
}

describe('marking in a real browser', () => {
  test('LM-8 landmarks are asked for one after the other: a press places one and brings the next', async () => {
    await page.getByLabel('Marked by').fill('Ada');
    await page.getByLabel('Marked by').press('Enter');
    const first = await next().textContent();
    await page.getByRole('button', { name: 'Place it on the film' }).click();
    const at = await middle();
    await page.mouse.click(at.x, at.y - 120);
    await soon(() => next().textContent()).not.toBe(first);
    const second = await next().textContent();
    expect(await page.locator('.placing-line').textContent()).toContain(second ?? 'nothing');
    // The next one by keyboard alone: Enter for a crosshair, arrows, Enter.
    await film().focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await soon(() => next().textContent()).not.toBe(second);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Place it on the film' }).waitFor();
    await saved();
    const { marks } = await fileNow();
    expect(marks).toHaveLength(2);
    expect(marks.map((m) => [m.by, m.how])).toEqual([
      ['Ada', 'by-hand'],
      ['Ada', 'by-hand'],
    ]);
  });

  test('LM-8 one that is skipped keeps its reason in the case, and can be asked for again', async () => {
    const asked = await next().textContent();
    await page.getByRole('combobox', { name: /^Skip/ }).selectOption({ label: 'bone destroyed' });
    await soon(() => next().textContent()).not.toBe(asked);
    await saved();
    expect((await fileNow()).skipped).toMatchObject([{ reason: 'destroyed', by: 'Ada', film: 'ap' }]);
    await open('landmarks of this film');
    await page.locator('.mark-list li', { hasText: 'bone destroyed' }).waitFor();
    expect(await page.locator('.mark-list .gives').count()).toBeGreaterThan(5);
    await page.getByRole('button', { name: 'Ask for it again' }).click();
    await saved();
    expect((await fileNow()).skipped).toBeUndefined();
  });

  test('what is found is offered dashed with its confidence: Enter takes it, arrows move it, Escape leaves it', async () => {
    await page.getByRole('button', { name: 'Look for what can be found' }).click();
    await page.locator('.offered-now').waitFor({ timeout: 60_000 });
    await page.locator('.offered-line').first().waitFor();
    expect(
      await page
        .locator('.offered-line')
        .first()
        .evaluate((p) => getComputedStyle(p).strokeDasharray),
    ).not.toBe('none');
    expect(await page.locator('.placing-line').textContent()).toMatch(/confidence \d+ %/);
    expect(await axeProblems(page)).toEqual([]);
    const label = page.locator('.offered-now strong');
    const taken: string[] = [];
    while ((await label.count()) > 0) {
      const what = (await label.textContent()) ?? '';
      if (what.startsWith('Distal tangent')) {
        await page.keyboard.press('Escape');
      } else if (what.startsWith('Tray')) {
        await page.keyboard.press('ArrowRight');
        await page.keyboard.press('Enter');
      } else {
        await page.keyboard.press('Enter');
        taken.push(what);
      }
      await soon(async () => ((await label.count()) > 0 ? label.textContent() : null)).not.toBe(what);
    }
    await saved();
    const { marks } = await fileNow();
    const how = (id: string) => marks.find((m) => m.landmark === id)?.how;
    expect(taken).toContain('Calibration ball');
    expect(how('calibration-ball')).toBe('proposed-and-accepted');
    expect(how('tray-medial-edge')).toBe('by-hand');
    expect(how('medial-condyle-distal')).toBeUndefined();
    const ball = marks.find((m) => m.landmark === 'calibration-ball')?.points ?? [];
    const centre = (points: Mark['points'], axis: 'x' | 'y') => points.reduce((s, p) => s + p[axis] / points.length, 0);
    const truth = known.find((m) => m.landmark === 'calibration-ball')?.points ?? [];
    expect(Math.hypot(centre(ball, 'x') - centre(truth, 'x'), centre(ball, 'y') - centre(truth, 'y'))).toBeLessThan(3);
    const edge = marks.find((m) => m.landmark === 'tray-medial-edge')?.points[0];
    const edgeAt = knownAt('tray-medial-edge');
    expect(Math.hypot((edge?.x ?? 0) - edgeAt.x, (edge?.y ?? 0) - edgeAt.y)).toBeLessThan(12);
  });

  test('LM-9 marking again is blind, and the spread between the placings is shown with who placed them', async () => {
    await page.getByLabel('Marked by').fill('Bo');
    await page.getByLabel('Marked by').press('Enter');
    await open('Mark again, blind');
    await page.getByRole('button', { name: /landmarks again as Bo$/ }).click();
    await page.locator('.placing-line', { hasText: 'placing 2' }).waitFor();
    expect(await page.locator('.mark[data-mark]').count()).toBe(0);
    expect(await page.locator('.drawn').count()).toBe(0);
    const many = (await fileNow()).marks.length;
    const at = await middle();
    for (let i = 0; i < many; i++) {
      const line = (await page.locator('.placing-line').textContent()) ?? '';
      const isOutline = line.includes('along the outline');
      for (const turn of isOutline ? [0, 2, 4] : [0])
        await page.mouse.click(at.x - 200 + 45 * i + 18 * Math.cos(turn), at.y - 60 + 18 * Math.sin(turn));
      if (isOutline) await page.keyboard.press('c');
      await soon(() => page.locator('.placing-line').allTextContents()).not.toContain(line);
    }
    await saved();
    const { repeats } = await fileNow();
    expect(repeats).toHaveLength(many);
    expect(new Set(repeats?.map((r) => `${r.round} ${r.why} ${r.by}`))).toEqual(new Set(['2 repeat Bo']));
    expect(await page.locator('.mark[data-mark]').count()).toBeGreaterThan(0);
    await page.locator('.second-marking').getByText('1 further set').waitFor();
  });

  test('LM-11 the history tells every mark with who and when, shows it, and puts one back by itself', async () => {
    await page.locator('[data-mark="tray-medial-edge"]').focus();
    await page.locator('.is-selected[data-mark="tray-medial-edge"]').waitFor();
    const column = page.getByRole('textbox', { name: 'Column', exact: true });
    const before = Number(await column.inputValue());
    await column.fill(String(before + 40));
    await column.press('Enter');
    await saved();
    await open('History of marks');
    const line = page.locator('.marks-history ol > li').first();
    await line.getByText('Tray, medial edge of its upper face moved').waitFor();
    expect(await line.textContent()).toContain('Bo');
    expect(await axeProblems(page)).toEqual([]);
    await page.keyboard.press('Control+z');
    await page.locator('.marks-history', { hasText: 'Undone: Tray, medial edge' }).waitFor();
    await page.reload();
    await page.locator('.film-pixels').first().waitFor();
    await page.keyboard.press('Control+Shift+Z');
    await soon(async () => markX(await fileNow(), 'tray-medial-edge')).toBe(before + 40);
    await open('History of marks');
    const moved = page
      .locator('.marks-history ol > li', { hasText: /^Tray, medial edge of its upper face moved/ })
      .first();
    await moved.getByRole('button', { name: /^Show/ }).click();
    expect(await page.locator('.mark.is-selected').getAttribute('data-mark')).toBe('tray-medial-edge');
    await moved.getByRole('button', { name: /^Put back/ }).click();
    await soon(async () => markX(await fileNow(), 'tray-medial-edge')).toBe(before);
    const history = (await (await page.request.get(`${origin}/api/cases/${caseId}/history`)).json()) as HistoryLine[];
    expect(history.at(-1)).toMatchObject({ by: 'Bo', label: expect.stringContaining('put back') });
  });

  test('LM-10 two browsers move one mark: nothing is lost, both places are shown, one is taken', async () => {
    const other = await browser.newContext({ ...DESK, storageState: await context.storageState() });
    const second = await desk.watched(other);
    await second.goto(`${origin}/#/case/${caseId}`);
    await second.locator('[data-mark="tray-lateral-edge"]').waitFor();
    const start = markX(await fileNow(), 'tray-lateral-edge') ?? 0;
    const moved = async (on: Page, by: number, name: string) => {
      await on.getByLabel('Marked by').fill(name);
      await on.getByLabel('Marked by').press('Enter');
      await on.locator('[data-mark="tray-lateral-edge"]').focus();
      await on.locator('.is-selected[data-mark="tray-lateral-edge"]').waitFor();
      await on.getByRole('textbox', { name: 'Column', exact: true }).fill(String(start + by));
      await on.getByRole('textbox', { name: 'Column', exact: true }).press('Enter');
    };
    await moved(page, 30, 'Ada');
    await soon(async () => markX(await fileNow(), 'tray-lateral-edge')).toBe(start + 30);
    await moved(second, -30, 'Cy');
    await second.locator('.notice', { hasText: 'Both places are kept' }).waitFor();
    await saved(second);
    const kept = await fileNow();
    expect(markX(kept, 'tray-lateral-edge')).toBe(start + 30);
    const conflict = kept.repeats?.find((r) => r.why === 'conflict');
    expect(conflict).toMatchObject({ landmark: 'tray-lateral-edge', by: 'Cy' });
    expect(conflict?.points[0]?.x).toBe(start - 30);
    await second.locator('.second-place rect').waitFor();
    await second.locator('.mark-conflicts li', { hasText: 'Ada' }).waitFor();
    expect(await axeProblems(second)).toEqual([]);
    await second.getByRole('button', { name: 'Take the second' }).click();
    await soon(async () => markX(await fileNow(), 'tray-lateral-edge')).toBe(start - 30);
    expect((await fileNow()).repeats?.filter((r) => r.why === 'conflict')).toEqual([]);
    await other.close();
  });

  test('a finger marks on a tablet in both directions, with targets of 44 pixels and nothing outside the page', async () => {
    const tablet = await browser.newContext({
      viewport: { width: 768, height: 1024 },
      hasTouch: true,
      storageState: await context.storageState(),
    });
    const touched = await desk.watched(tablet);
    await touched.goto(`${origin}/#/case/${caseId}`);
    await touched.locator('.film-pixels').first().waitFor();
    await touched.locator('#step-marks').scrollIntoViewIfNeeded();
    const before = (await fileNow()).marks.length;
    await touched.getByRole('button', { name: 'Place it on the film' }).tap();
    const asked = await next(touched).textContent();
    const at = await middle(touched);
    await touched.touchscreen.tap(at.x + 20, at.y + 140);
    await soon(async () => (await fileNow()).marks.length).toBe(before + 1);
    await soon(() => next(touched).textContent()).not.toBe(asked);
    const small = await touched
      .locator('#step-marks button:visible, #step-marks select:visible, #step-marks summary:visible')
      .evaluateAll((all) => all.filter((b) => b.getBoundingClientRect().height < 43.5).map((b) => b.textContent));
    expect(small).toEqual([]);
    for (const [width, height] of [
      [768, 1024],
      [1024, 768],
      [1366, 768],
    ] as const) {
      await touched.setViewportSize({ width, height });
      await touched.locator('.film-pixels').first().waitFor();
      expect(await touched.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    }
    expect(await axeProblems(touched)).toEqual([]);
    await tablet.close();
  });

  test('no request left this machine, and no page reported a fault', () => {
    expect(desk.watch).toEqual({ outside: [], faults: [] });
  });
});

const markX = (file: CaseFile, landmark: string): number | undefined =>
  file.marks.find((m) => m.landmark === landmark)?.points[0]?.x;
