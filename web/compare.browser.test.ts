import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeProblems } from './testing/axe-problems.ts';
import { type Desk, openDesk } from './testing/desk.ts';

let desk: Desk;
let page: Page;
let origin: string;
let caseId: string;

const filmOf = async (view: CaseFilm['view']): Promise<CaseFilm> => {
  const film = (await desk.caseState(caseId)).case.films.find((f) => f.view === view);
  if (!film) throw new Error(`the demo case has no ${view} film`);
  return film;
};

// The demo case with its AP film put back to the first date after the replacement, and a lateral film whose file names another person.
beforeAll(async () => {
  desk = await openDesk('compare', { patienceMs: 15_000 });
  ({ page, origin } = desk);
  const [first] = await desk.cases();
  caseId = first!.case.id;
  const [ap, long, lateral] = [await filmOf('ap'), await filmOf('long-leg'), await filmOf('lateral')];
  await desk.edit(caseId, [
    { kind: 'put-film', film: { ...ap, takenOn: '2021-05-04', role: 'after-first-replacement', personMark: 'aaaa' } },
    { kind: 'put-film', film: { ...long, personMark: 'aaaa' } },
    { kind: 'put-film', film: { ...lateral, personMark: 'bbbb' } },
  ]);
  await page.goto(`${origin}/#/case/${caseId}`);
  await page.locator('.film-pixels').first().waitFor();
});

afterAll(() => desk?.close());

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
    const [span] = (await desk.caseState(caseId)).case.interfaceSpans ?? [];
    expect(span?.kind).toBe('lucent-line');
    await page.getByRole('button', { name: /Put the widest lines into the chart/ }).click();
    await saved();
    const widths = (await desk.caseState(caseId)).case.workUp?.lucentLines?.['tibia-ap']?.widths ?? [];
    expect(widths[(span?.zone ?? 0) - 1]).toBeGreaterThan(0);
    await list.getByRole('button', { name: /Take away/ }).click();
    await saved();
    expect((await desk.caseState(caseId)).case.interfaceSpans).toBeUndefined();
    expect(await axeProblems(page)).toEqual([]);
  });

  test('nothing went wrong on the page and nothing was asked from outside', () => {
    expect(desk.watch.faults).toEqual([]);
    expect(desk.watch.outside).toEqual([]);
  });
});
