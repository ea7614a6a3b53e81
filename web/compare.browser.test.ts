import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CaseState } from '../server/src/contract.ts';
import { axeProblems } from './testing/axe-problems.ts';
import { DESK, launchChromium } from './testing/launch-chromium.ts';
import { endWorkbench, startWorkbench, type Workbench } from './testing/start-workbench.ts';
import { openWatched, type Watch } from './testing/watch-page.ts';

let folder: string;
let bench: Workbench;
let browser: Browser;
let context: BrowserContext;
let page: Page;
let origin: string;
let caseId: string;
const watch: Watch = { outside: [], faults: [] };

const state = async (): Promise<CaseState> =>
  (await (await page.request.get(`${origin}/api/cases/${caseId}`)).json()) as CaseState;

/** Edits sent beside the page, as another program would. */
async function edit(...edits: readonly Edit[]): Promise<void> {
  const { revision } = await state();
  const answer = await page.request.post(`${origin}/api/cases/${caseId}/edits`, {
    headers: { origin },
    data: { baseRevision: revision, edits, label: 'prepared' },
  });
  expect(answer.status()).toBe(200);
}

const filmOf = async (view: CaseFilm['view']): Promise<CaseFilm> => {
  const film = (await state()).case.films.find((f) => f.view === view);
  if (!film) throw new Error(`the demo case has no ${view} film`);
  return film;
};

// The demo case with its AP film put back to the first date after the replacement, and a lateral film whose file names another person.
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'gapline-compare-'));
  bench = await startWorkbench(folder);
  origin = new URL(bench.address).origin;
  browser = await launchChromium();
  context = await browser.newContext(DESK);
  page = await openWatched(context, watch, { patienceMs: 15_000 });
  await page.goto(bench.address);
  await page.locator('.cases a').first().waitFor();
  const [first] = (await (await page.request.get(`${origin}/api/cases`)).json()) as { id: string }[];
  caseId = first?.id ?? '';
  const [ap, long, lateral] = [await filmOf('ap'), await filmOf('long-leg'), await filmOf('lateral')];
  await edit(
    { kind: 'put-film', film: { ...ap, takenOn: '2021-05-04', role: 'after-first-replacement', personMark: 'aaaa' } },
    { kind: 'put-film', film: { ...long, personMark: 'aaaa' } },
    { kind: 'put-film', film: { ...lateral, personMark: 'bbbb' } },
  );
  await page.goto(`${origin}/#/case/${caseId}`);
  await page.locator('.film-pixels').first().waitFor();
});

afterAll(async () => {
  await browser?.close();
  if (bench) await endWorkbench(bench, 'SIGTERM');
  rmSync(folder, { recursive: true, force: true });
});

const saved = () => page.locator('.saving-word.is-saved').waitFor();

describe('measurements, two dates and films that do not belong', () => {
  test('measurements stand in groups, with component position among them', async () => {
    await page.locator('[data-measurement="component-alpha"]').first().waitFor();
    await page.getByRole('heading', { name: 'Component position' }).waitFor();
    await page.locator('[data-measurement="patellar-tilt"]').first().waitFor();
  });

  test('FILM-8 a film whose file names another person is told with the mend, and used once confirmed', async () => {
    const card = page.locator('.film-card', { hasText: 'names another person' });
    await card.getByLabel('Your name or initials').last().fill('KB');
    expect(await page.locator('[data-measurement="tibial-slope"]').count()).toBe(0);
    await card.getByRole('button', { name: 'same patient' }).click();
    await page.getByText('Same patient, confirmed by KB').waitFor();
    await page.locator('[data-measurement="tibial-slope"]').first().waitFor();
    await saved();
    expect((await filmOf('lateral')).personConfirmed?.by).toBe('KB');
  });

  test('CMP-1 two dates: a table with changes, their spread, a picture and a reading, opened by keyboard', async () => {
    await page.locator('.compare-dates > summary').focus();
    await page.keyboard.press('Enter');
    const row = page.locator('[data-compared="tray-height"]');
    await row.waitFor();
    expect(await row.textContent()).toMatch(/±/);
    expect(await row.locator('.change-picture .change-dot').count()).toBe(1);
    expect(await row.textContent()).toMatch(/moved|within error|changed/);
    expect(await page.getByLabel('Older').inputValue()).toBe('2021-05-04');
    expect(await axeProblems(page)).toEqual([]);
  });

  test('LIMB-37 a lucent line is marked by two presses, put into the chart and taken away', async () => {
    await page.locator('.interface-spans > summary').click();
    await page.getByRole('button', { name: /Mark it on: Long leg/ }).click();
    const touch = page.locator('.film-touch').first();
    const box = await touch.boundingBox();
    if (!box) throw new Error('the film is not shown');
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await page.mouse.click(at.x, at.y);
    await page.mouse.click(at.x, at.y + 12);
    const list = page.getByRole('list', { name: 'Widths marked' });
    await list.getByText(/Lucent line, tibia, AP, zone \d/).waitFor();
    await saved();
    const [span] = (await state()).case.interfaceSpans ?? [];
    expect(span?.kind).toBe('lucent-line');
    await page.getByRole('button', { name: /Put the widest lines into the chart/ }).click();
    await saved();
    const widths = (await state()).case.workUp?.lucentLines?.['tibia-ap']?.widths ?? [];
    expect(widths[(span?.zone ?? 0) - 1]).toBeGreaterThan(0);
    await list.getByRole('button', { name: /Take away/ }).click();
    await saved();
    expect((await state()).case.interfaceSpans).toBeUndefined();
    expect(await axeProblems(page)).toEqual([]);
  });

  test('nothing went wrong on the page and nothing was asked from outside', () => {
    expect(watch.faults).toEqual([]);
    expect(watch.outside).toEqual([]);
  });
});
