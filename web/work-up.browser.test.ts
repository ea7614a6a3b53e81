import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { axeProblems, axeProblemsOfLayout } from './testing/axe-problems.ts';
import { type Desk, openDesk } from './testing/desk.ts';

let desk: Desk;
let context: BrowserContext;
let page: Page;
let origin: string;
let caseId: string;

beforeAll(async () => {
  desk = await openDesk('work-up', { patienceMs: 12_000 });
  ({ page, origin, context } = desk);
  const [demo] = await desk.cases();
  const made = await desk.post('cases', { title: 'Work-up by keyboard', side: 'right', films: demo!.case.films });
  expect(made.status()).toBe(201);
  caseId = ((await made.json()) as { case: { id: string } }).case.id;
  await page.goto(`${origin}/#/case/${caseId}`);
});

afterAll(() => desk?.close());

const saved = () => page.locator('.saving-word.is-saved').waitFor();
const gateBar = () => page.locator('.gate-bar').textContent();
const classOf = (definition: string) =>
  page.locator(`[data-definition="${definition}"] .definition-class`).textContent();
const fold = (title: string) =>
  page.locator('details.fold', { has: page.locator('summary h3', { hasText: title }) }).first();
const open = async (title: string) => {
  await fold(title).evaluate((e: HTMLDetailsElement) => {
    e.open = true;
  });
  return fold(title);
};
async function history(): Promise<NonNullable<NonNullable<CaseFile['workUp']>['history']>> {
  await saved();
  return (await desk.caseState(caseId)).case.workUp?.history ?? {};
}
const axe = (on: Page = page) => axeProblems(on);

describe('The work-up page', () => {
  test('the film page says first where the gate stands and leads to the work-up', async () => {
    const line = page.locator('.work-up-line');
    expect(await line.textContent()).toContain('Not ready: infection has not been assessed');
    await line.click();
    await page.locator('.work-up').waitFor();
    expect(await page.locator('.case-switch [aria-current]').textContent()).toBe('Work-up');
  });

  test('a history is filled by keyboard alone: operation, symptoms by Y, N, U, pulses by arrows', async () => {
    await page.getByRole('button', { name: 'Add operation' }).focus();
    await page.keyboard.press('Enter');
    await page.getByLabel('Day or year').fill('2019-05');
    await page.keyboard.press('Enter');
    const first = page.getByRole('radiogroup', { name: 'Start-up pain' });
    await first.getByRole('radio', { name: 'not known' }).focus();
    await page.keyboard.type('ynyuy');
    await expect
      .poll(() => page.getByRole('radiogroup', { name: 'Giving way' }).getByRole('radio', { name: 'yes' }).isChecked())
      .toBe(true);
    const kept = await history();
    expect(kept).toMatchObject({
      operations: [{ kind: 'first-replacement', on: '2019-05' }],
      symptoms: { 'start-up': 'yes', 'weight-bearing': 'no', 'rest-night': 'yes', 'giving-way': 'yes' },
    });
    expect(kept.symptoms).not.toHaveProperty('stairs');
  });

  test('the other answers of a list are set to no at one press, and undone at once', async () => {
    await page.getByRole('button', { name: /No to the other \d+ of symptoms/ }).click();
    await expect
      .poll(() =>
        page
          .getByRole('radiogroup', { name: 'Trouble on stairs' })
          .getByRole('radio', { name: 'no', exact: true })
          .isChecked(),
      )
      .toBe(true);
    await saved();
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect
      .poll(() =>
        page
          .getByRole('radiogroup', { name: 'Trouble on stairs' })
          .getByRole('radio', { name: 'not known' })
          .isChecked(),
      )
      .toBe(true);
    await saved();
  });

  test('results typed on one line change the class; a wrong unit is kept and marked at its field', async () => {
    const form = page.getByRole('form', { name: 'Add a result' });
    const add = async (test: string, value: string, unit: string) => {
      await form.getByLabel('Test').selectOption(test);
      await form.getByLabel('Value').fill(value);
      await form.getByLabel('Unit').fill(unit);
      await form.getByLabel('Day').fill('2026-02-01');
      await form.getByLabel('Day').press('Enter');
    };
    expect(await classOf('ebjis-2021')).toBe('Not assessed');
    await add('crp', '25', 'mmol/L');
    const unit = page.getByLabel('Unit of C-reactive protein');
    await expect.poll(() => unit.getAttribute('aria-invalid')).toBe('true');
    await page.locator('.fault-row', { hasText: 'no unit of C-reactive protein' }).waitFor();
    await unit.fill('mg/L');
    await unit.press('Enter');
    await expect.poll(() => unit.getAttribute('aria-invalid')).toBe('false');
    await add('synovial-wbc', '52', 'x10^9/L');
    await expect.poll(() => classOf('ebjis-2021')).toBe('Infection confirmed');
    expect(await page.locator('.sentence').textContent()).toMatch(/\S{3}/);
  });

  test('a definition opens to every line with its status, version and source', async () => {
    await page.locator('[data-definition="ebjis-2021"]').click();
    const lines = page.locator('.definition-lines');
    expect(await lines.locator('.definition-line').count()).toBeGreaterThan(5);
    expect(await lines.textContent()).toContain('Source:');
    await page.locator('[data-definition="ebjis-2021"]').click();
    await page.getByRole('button', { name: /other definitions/ }).click();
    expect(await page.locator('.definition-card').count()).toBe(8);
  });

  test('pasted rows are read by the server; a row of an unknown test is shown, not dropped', async () => {
    const box = page.getByLabel(/Many at once/);
    await box.fill(
      'date,test,value,unit\n2026-01-10,crp,31,mg/L\n2026-01-20,esr,44,mm/h\n2026-01-20,sodium,140,mmol/L',
    );
    await page.getByRole('button', { name: 'Read', exact: true }).click();
    await page.getByText('2 results added.').waitFor();
    await page.locator('.not-taken li', { hasText: 'sodium' }).waitFor();
    await page.locator('.trend svg').waitFor();
    expect(await page.locator('.trend-crp').count()).toBe(2);
  });

  test('a scanned label gives device, lot and expiry; a wrong check digit is refused', async () => {
    const part = await open('Implants in the knee');
    const box = part.getByLabel(/Implant label/);
    await box.fill('(01)09501101020918');
    await box.press('Enter');
    await part.locator('.field-fault').waitFor();
    await box.fill('01095011010209171730050810AB-123');
    await box.press('Enter');
    await part.locator('.label-facts', { hasText: 'check digit verified' }).waitFor();
    expect(await part.locator('.part-facts').textContent()).toContain('lot AB-123');
    await part.getByLabel('Part 1', { exact: true }).selectOption('femoral-component');
    expect(await history()).toMatchObject({
      parts: [{ part: 'femoral-component', lot: 'AB-123', expires: '2030-05-08', from: 'label' }],
    });
  });

  test('a photograph of a label is read by the reader from this server alone', async () => {
    const { prepareZXingModule, writeBarcode } = await import('zxing-wasm/writer');
    const binary = readFileSync(fileURLToPath(import.meta.resolve('zxing-wasm/writer/zxing_writer.wasm')));
    const wasmBinary = new Uint8Array(binary).buffer;
    prepareZXingModule({ overrides: { wasmBinary } });
    const { image } = await writeBarcode('+A123BJC5D6E71G', { format: 'DataMatrix', scale: 6 });
    const part = await open('Implants in the knee');
    await part.getByRole('button', { name: 'Camera' }).click();
    await part.locator('.camera').waitFor();
    await part.locator('input[type="file"]').setInputFiles({
      name: 'label.png',
      mimeType: 'image/png',
      buffer: Buffer.from(await image!.arrayBuffer()),
    });
    await part.locator('.label-facts', { hasText: 'HIBC label, check digit verified' }).waitFor();
    await part.getByRole('button', { name: 'Take away part 2' }).click();
    await saved();
  });

  test('a scar is drawn with the mouse and moved by the arrow keys', async () => {
    const scars = await open('Scars');
    const outline = scars.locator('svg[role="img"]').first();
    await outline.scrollIntoViewIfNeeded();
    const box = (await outline.boundingBox())!;
    const at = (x: number, y: number) => [box.x + x * box.width, box.y + y * box.height] as const;
    await page.mouse.move(...at(0.5, 0.2));
    await page.mouse.down();
    for (const y of [0.3, 0.4, 0.5, 0.6]) await page.mouse.move(...at(0.45 + 0.1 * (y - 0.1), y));
    await page.mouse.up();
    await scars.locator('path.scar').waitFor();
    await scars.getByRole('button', { name: /Scar 1, end/ }).focus();
    await page.keyboard.press('ArrowRight');
    const [scar] = (await history()).scars ?? [];
    // A right knee from the front: to the right is towards medial, where x is 0.
    expect(scar?.points.at(-1)?.[0]).toBeCloseTo(0.48, 3);
    expect(scar?.points[0]?.[0]).toBeCloseTo(0.5, 1);
  });

  test('every lucent-line chart is filled zone by zone and read in both published ways', async () => {
    const charts = await open('Lucent lines by zone');
    const tibia = charts.locator('.lucent-chart', { hasText: 'Tibia, AP' });
    for (let i = 1; i <= 7; i++) {
      await tibia.getByLabel(`Zone ${i}`, { exact: true }).fill(i <= 5 ? '2' : '0');
      await tibia.getByLabel(`Zone ${i}`, { exact: true }).press('Enter');
    }
    await expect.poll(() => tibia.locator('.said-line').textContent()).toContain('possible or impending failure');
    expect(await tibia.locator('.said-line').textContent()).toContain('partial, 2 mm or more');
  });

  test('the gate opens once infection is classified and a cause is named with its reason', async () => {
    expect(await gateBar()).toContain('No cause is named'.toLowerCase());
    await page.getByLabel('Name a cause').selectOption('infection');
    expect(await gateBar()).toContain('Not ready');
    await page.getByLabel('Infection, because').fill('two definitions met');
    await page.getByLabel('Infection, because').press('Enter');
    await expect.poll(gateBar).toBe('Ready: infection settled, cause named');
    await saved();
  });

  test('the letter is a PDF of this case', async () => {
    const answered = page.waitForResponse((r) => r.url().includes('/letters'), { timeout: 60_000 });
    const opened = context.waitForEvent('page');
    await page.getByRole('button', { name: 'Letter as PDF' }).click();
    const answer = await answered;
    expect(answer.headers()['content-type']).toContain('application/pdf');
    await page.getByRole('link', { name: 'Save letter' }).waitFor();
    await (await opened).close();
  });

  test('the switch leads to the films and back, with nothing lost', async () => {
    await page.getByRole('link', { name: 'Films and plan' }).click();
    await page.locator('.work-up-line', { hasText: 'Ready' }).waitFor();
    await page.locator('.film-pixels').first().waitFor();
    await page.getByRole('link', { name: 'Work-up', exact: true }).click();
    await page.locator('.gate-bar.is-ready').waitFor();
  });

  test('a reload keeps all of it, and undo still takes back the last change', async () => {
    await page.reload();
    await page.locator('.work-up').waitFor();
    expect(await gateBar()).toBe('Ready: infection settled, cause named');
    expect(await page.locator('.lab-table tbody tr').count()).toBeGreaterThanOrEqual(2);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(gateBar).toContain('Not ready');
    await page.getByRole('button', { name: 'Redo' }).click();
    await expect.poll(gateBar).toContain('Ready');
  });

  test('no barrier that axe can find, everything open, at three sizes; nothing wider than the window', async () => {
    await page.evaluate(() => {
      for (const d of document.querySelectorAll('details')) d.open = true;
    });
    for (const [width, height] of [
      [1366, 768],
      [1024, 768],
      [768, 1024],
    ] as const) {
      await page.setViewportSize({ width, height });
      expect(width === 1366 ? await axe() : await axeProblemsOfLayout(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(
        0,
      );
    }
  });

  test('nothing was asked of any other machine, and no page reported a fault', () => {
    expect(desk.watch).toEqual({ outside: [], faults: [] });
  });
});
