import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { SetList } from '@gapline/core/kit/set-list.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeProblems } from './testing/axe-problems.ts';
import { type Desk, openDesk } from './testing/desk.ts';
import { PROJECT } from './testing/start-workbench.ts';

/** Few draws and few sets: what is tested is the page, not the forecast. */
const DRAWS = 100;
const MANY_DRAWS = 10_000;

let desk: Desk;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let origin: string;
let caseId: string;

/** A small hospital of our own: what the knee needs most often, and two sets on loan that it needs seldom. */
const SMALL = 'F-MID T-SMALL I-MID I-THICK S-CEMENT OFFSET M-TIBIA X-REMOVE X-SPACER S-PRESS H-MID'.split(' ');
function smallList(): SetList {
  const whole = JSON.parse(readFileSync(join(PROJECT, 'kits', 'demo.json'), 'utf8')) as SetList;
  return { ...whole, id: 'small', name: 'Small hospital', sets: whole.sets.filter((s) => SMALL.includes(s.ref)) };
}

const savedFile = async (): Promise<CaseFile> => {
  await page.locator('.saving-word.is-saved').waitFor();
  return (await desk.caseState(caseId)).case;
};

beforeAll(async () => {
  desk = await openDesk('surprise', { patienceMs: 60_000 });
  ({ page, origin, browser, context } = desk);
  const [first] = await desk.cases();
  caseId = first!.case.id;
  const list = smallList();
  const made = await desk.post('set-lists', list);
  expect(made.status()).toBe(201);
  await desk.edit(caseId, [
    { kind: 'set', field: '/forecast/draws', value: DRAWS },
    { kind: 'set', field: '/kit/setList', value: list.id },
    { kind: 'set', field: '/kit/surgeryOn', value: null },
  ]);
  await page.goto(`${origin}/#/case/${caseId}/bone-and-kit`);
  await page.locator('.film-pixels').first().waitFor();
});

afterAll(() => desk?.close());

/** How long a thing may take to come about on a busy machine. */
const SOON = { timeout: 60_000 };
const settled = (on: Page = page) => on.locator('.freshness.is-settled').waitFor({ timeout: 150_000 });
const line = (id: 'likely' | 'sure' | 'room') => page.locator(`.lead-line.is-${id}`);
const section = (id: string) => page.locator(`#section-${id}`);
const fold = (id: string, title: string) =>
  section(id).locator('details.fold', { has: page.locator('summary h3', { hasText: title }) });
async function open(id: string): Promise<void> {
  const button = page.locator(`#open-${id}`);
  if ((await button.getAttribute('aria-expanded')) === 'false') await button.click();
}
const axe = (on: Page = page) => axeProblems(on);

describe('Bone and kit', () => {
  test('leads with the film, the construct on it, and three lines that say what, how sure, and with which sets', async () => {
    await settled();
    expect(await page.locator('.case-switch [aria-current]').textContent()).toBe('Bone and kit');
    expect(await page.locator('.drawn-component.of-plan').count()).toBeGreaterThan(0);
    expect(await line('likely').textContent()).toMatch(/femur.\d, tray.\d, insert.\d+/);
    expect(await line('sure').textContent()).toMatch(/\d.% of drawn knees keep the plan.*100 knees drawn/);
    expect(await line('room').textContent()).toMatch(/\d+ sets?, EUR [\d,]+: an answer in/);
    for (const title of ['Bone stock', 'What it may become', 'Bail-outs', 'Nine cells', 'Kit', 'After surgery'])
      expect(await page.locator('.section-title', { hasText: title }).count()).toBe(1);
    expect(await axe()).toEqual([]);
  });

  test('a long forecast shows how far it is, leaves the page free, and is stopped; the answer before stays, marked', async () => {
    const before = await line('sure').locator('.lead-figure').textContent();
    await open('becomes');
    await section('becomes').getByText('Chances, draws and seed').click();
    await page.getByLabel('Draws').fill(String(MANY_DRAWS));
    await page.getByLabel('Draws').press('Enter');
    await page.locator('.freshness progress[value]').waitFor();
    expect(await page.locator('.freshness-part').textContent()).toMatch(/\d+ of 10000 knees/);
    expect(await line('sure').locator('.lead-figure').textContent()).toBe(before);
    expect(await page.locator('.lead-line.is-old').count()).toBe(3);
    // While it runs the page does what it is told.
    await open('arc');
    await section('arc').locator('svg').first().waitFor();
    await page.locator('#open-arc').click();
    await page.locator('.freshness').getByRole('button', { name: 'Stop' }).click();
    await page.locator('.freshness.is-stopped', { hasText: 'of the state before' }).waitFor();
    expect(await line('sure').locator('.lead-figure').textContent()).toBe(before);
    await page.getByRole('button', { name: 'Reckon again' }).click();
    await page.locator('.freshness.is-running').waitFor();
  });

  test('undo by keyboard calls the run off and begins the one for the state that is back', async () => {
    await page.locator('#open-becomes').focus();
    await page.keyboard.press('Control+z');
    await settled();
    expect((await savedFile()).forecast?.draws).toBe(DRAWS);
    await expect.poll(() => line('sure').textContent(), SOON).toContain('100 knees drawn');
    await expect.poll(() => page.locator('.lead-line.is-old').count(), SOON).toBe(0);
  });

  test('a spread that is missing is asked for with what it would change, and nothing is reckoned without it', async () => {
    const stated = (await savedFile()).forecast?.spreads ?? {};
    const [field] = Object.keys(stated);
    expect(field).toBeDefined();
    const { [field!]: value, ...rest } = stated;
    await page.evaluate(() => window.scrollTo(0, 0));
    await desk.edit(caseId, [
      { kind: 'set', field: '/forecast/spreads', value: Object.keys(rest).length > 0 ? rest : null },
    ]);
    await page.reload();
    await page.locator('.lead-line.is-sure.is-open').waitFor();
    await settled();
    await line('sure').click();
    await section('becomes').locator('.not-attempted dt').first().waitFor();
    await expect
      .poll(() => section('becomes').locator('.not-attempted dd').first().textContent(), SOON)
      .toMatch(/\w{4}/);
    await expect.poll(() => page.locator('#open-becomes .standing-word').textContent(), SOON).toBe('open');
    const name = await section('becomes').locator('.spreads .is-asked th').first().textContent();
    const asked = section('becomes').getByLabel(`Standard deviation, ${name}`);
    await asked.fill('soon');
    await asked.press('Enter');
    await section('becomes').getByText('wants a plain number').waitFor();
    await asked.fill(String(value));
    await asked.press('Enter');
    await page.locator('.lead-line.is-sure .lead-figure').waitFor();
    await settled();
    expect((await savedFile()).forecast?.spreads?.[field!]).toBe(value);
  });

  test('loss at removal is edited in place, is labelled as the practice’s own, and goes back to the default', async () => {
    const loss = fold('becomes', 'Loss at removal');
    await loss.locator('summary').click();
    await loss.getByText("The practice's own estimate", { exact: true }).waitFor();
    const most = loss.getByLabel('Tibia, most, mm', { exact: true });
    await most.fill('0.1');
    await most.press('Enter');
    await loss.getByText('must rise in this order').waitFor();
    await most.fill('6');
    await most.press('Enter');
    const own = (await savedFile()).bone?.removalEstimates;
    expect(own).toMatchObject([{ surface: 'tibia', mostMm: 6 }]);
    await loss.getByRole('button', { name: 'Back to default' }).click();
    expect((await savedFile()).bone?.removalEstimates).toBeUndefined();
    await settled();
    await page.locator('#open-becomes').click();
  });

  test('an end of the bail-outs is drawn on the film in place of the first choice, named there, and taken back', async () => {
    await line('sure').click();
    const drawn = () =>
      page
        .locator('.drawn-component.of-plan .drawn-line, .drawn-augment .drawn-line')
        .evaluateAll((all) => all.map((p) => p.getAttribute('d')).join());
    const before = await drawn();
    const leaves = page.locator('button.tree-leaf');
    expect(await leaves.count()).toBeGreaterThan(1);
    const shares = (await page.locator('.tree-share').allTextContents()).map((t) => Number.parseFloat(t));
    expect(Math.abs(shares.reduce((a, b) => a + b, 0) - 100)).toBeLessThan(3);
    const changed: boolean[] = [];
    for (let i = 0; i < (await leaves.count()); i++) {
      await leaves.nth(i).focus();
      await page.keyboard.press('Enter');
      await page.locator('.on-trial', { hasText: 'Not the first choice' }).waitFor();
      changed.push((await drawn()) !== before);
    }
    expect(changed).toContain(true);
    expect(await leaves.last().getAttribute('aria-pressed')).toBe('true');
    expect(await axe()).toEqual([]);
    await page.getByRole('button', { name: 'Back to the plan' }).click();
    expect(await drawn()).toBe(before);
    await page.locator('#open-bail-outs').click();
  });

  test('nine cells name real parts, the middle one is the plan; a cell is drawn and opens each lever', async () => {
    await open('cells');
    await page.locator('.cell').nth(8).waitFor();
    expect(await page.locator('.cell').nth(4).textContent()).toBe('the plan');
    const other = page.locator('.cell:has(li)').first();
    expect(await other.textContent()).toMatch(/\d/);
    await other.click();
    await page.locator('.on-trial').waitFor();
    await page.locator('.levers tbody tr').first().waitFor();
    await other.click();
    expect(await page.locator('.on-trial').count()).toBe(0);
    await page.locator('#open-cells').click();
  });

  test('a set is left at home by its tick; the room says so, and undo brings it back', async () => {
    await line('room').click();
    const proposed = await line('room').textContent();
    const first = section('kit').locator('tr.is-brought').first();
    const ref = (await first.getAttribute('data-set'))!;
    const box = section('kit').locator(`[data-set="${ref}"] input`).first();
    await box.focus();
    await page.keyboard.press('Space');
    await section('kit').getByText('Decided by hand').waitFor();
    await settled();
    expect((await savedFile()).kit?.bring).not.toContain(ref);
    await expect.poll(() => line('room').textContent(), SOON).not.toBe(proposed);
    await page.locator('#open-kit').focus();
    await page.keyboard.press('Control+z');
    await expect.poll(() => box.isChecked(), SOON).toBe(true);
    await settled();
    expect((await savedFile()).kit?.bring).toBeUndefined();
    await expect.poll(() => line('room').textContent(), SOON).toBe(proposed);
  });

  test('a room is chosen on the curve by mouse and by arrow key, and the proposal is taken back by its button', async () => {
    const points = section('kit').locator('.curve-point input');
    expect(await points.count()).toBeGreaterThan(2);
    await points.first().click();
    const cheapest = (await savedFile()).kit?.bring;
    expect(cheapest).toBeDefined();
    await settled();
    await expect.poll(() => points.first().isChecked(), SOON).toBe(true);
    await points.first().focus();
    await page.keyboard.press('ArrowRight');
    await settled();
    await expect.poll(() => points.nth(1).isChecked(), SOON).toBe(true);
    expect((await savedFile()).kit?.bring).not.toEqual(cheapest);
    await page.getByRole('button', { name: 'Take the proposal' }).click();
    await settled();
    expect((await savedFile()).kit?.bring).toBeUndefined();
  });

  test('a share that no room reaches is said with its reason, and the states left are told in plain words', async () => {
    const share = page.getByLabel('Openings that must have an answer');
    await share.fill('100');
    await share.press('Enter');
    await section('kit').locator('.warning').first().waitFor();
    await settled();
    await expect
      .poll(() => section('kit').locator('.warning').first().textContent(), SOON)
      .toContain('cannot be reached');
    await expect
      .poll(() => section('kit').locator('.uncovered li p').first().textContent(), SOON)
      .toMatch(/\w+ \w+ \w+/);
    await expect.poll(() => page.locator('#open-kit .standing-word').textContent(), SOON).toBe('in conflict');
    expect(await axe()).toEqual([]);
  });

  test('a set that will not arrive is left out of the room, and what if none arrives is told for each', async () => {
    const brought = section('kit').locator('tr.is-brought').first();
    const ref = (await brought.getAttribute('data-set'))!;
    await section('kit').locator(`[data-set="${ref}"] input`).nth(1).click();
    await settled();
    expect((await savedFile()).kit?.missing).toEqual([ref]);
    await expect
      .poll(() => section('kit').locator(`[data-set="${ref}"]`).getAttribute('class'), SOON)
      .toContain('is-missing');
    await expect.poll(() => section('kit').locator('.without tbody tr').count(), SOON).toBeGreaterThan(0);
    await section('kit').locator(`[data-set="${ref}"] input`).nth(1).click();
    await settled();
    expect((await savedFile()).kit?.missing).toBeUndefined();
  });

  test('stock is pasted: a fault names its line, a good list is taken over and its expired lots are shown', async () => {
    const stock = fold('kit', 'Stock');
    await stock.locator('summary').click();
    const text = stock.getByLabel('Stock list as CSV');
    const good = readFileSync(join(PROJECT, 'kits', 'demo-stock.csv'), 'utf8');
    await text.fill(`${good.trimEnd()}\nthis is no stock\n`);
    await stock.getByRole('button', { name: 'Take over' }).click();
    await stock.getByRole('alert').waitFor();
    expect(await stock.getByRole('alert').textContent()).toMatch(/line|row/i);
    await text.fill(good);
    await stock.getByRole('button', { name: 'Take over' }).click();
    await stock.getByText('taken over').waitFor();
    await stock.locator('.expired li').first().waitFor();
    await settled();
  });

  test('without a list of sets the page says which one is wanted, and the forecast stands all the same', async () => {
    await page.getByLabel('List of sets').selectOption('');
    await settled();
    await expect.poll(() => line('room').textContent(), SOON).toContain('No list of sets is chosen');
    await expect.poll(() => line('sure').locator('.lead-figure').count(), SOON).toBe(1);
    await page.locator('#open-kit').focus();
    await page.keyboard.press('Control+z');
    await expect.poll(() => line('room').locator('.lead-figure').count(), SOON).toBe(1);
    await settled();
  });

  test('without a catalogue nothing is proposed and each line says what is wanted', async () => {
    const { catalogue } = await savedFile();
    await desk.edit(caseId, [{ kind: 'set', field: '/catalogue', value: null }]);
    await page.reload();
    await page.locator('.lead-line.is-likely.is-open').waitFor();
    await settled();
    await expect.poll(() => line('likely').textContent(), SOON).toContain('No construct yet');
    await expect.poll(() => line('sure').textContent(), SOON).toMatch(/catalogue/i);
    expect(await axe()).toEqual([]);
    await desk.edit(caseId, [{ kind: 'set', field: '/catalogue', value: catalogue }]);
  });

  test.each([
    [1024, 768],
    [768, 1024],
  ])(
    'on a tablet of %i by %i a finger opens the tree and draws an end; nothing stands over the edge',
    async (width, height) => {
      const tablet = await browser.newContext({
        viewport: { width, height },
        hasTouch: true,
        storageState: await context.storageState(),
      });
      const on = await desk.watched(tablet);
      await on.goto(`${origin}/#/case/${caseId}/bone-and-kit`);
      await settled(on);
      await on.locator('.lead-line.is-sure').tap();
      await on.locator('button.tree-leaf').last().tap();
      await on.locator('.on-trial').waitFor();
      await on.locator('#open-kit').tap();
      await on.locator('.curve-point').first().waitFor();
      await on.locator('#open-cells').tap();
      await on.locator('.cell').nth(8).waitFor();
      const over = await on.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(over).toBeLessThanOrEqual(0);
      expect(await axe(on)).toEqual([]);
      await tablet.close();
    },
  );

  test('nothing was asked for outside of the workbench, and the page met no fault', () => {
    expect(desk.watch).toEqual({ outside: [], faults: [] });
  });
});
