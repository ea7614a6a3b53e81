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
  desk = await openDesk('bone', { patienceMs: 30_000 });
  ({ page, origin, browser, context } = desk);
  const cases = await desk.cases();
  caseId = cases.find((s) => s.case.bone?.tibiaMap && s.case.canals)!.case.id;
  // A small forecast is forecast enough for what is tested here.
  await desk.edit(caseId, [{ kind: 'set', field: '/forecast/draws', value: 100 }]);
  await page.goto(`${origin}/#/case/${caseId}/bone-and-kit`);
  await page.locator('.film-pixels').first().waitFor();
});

afterAll(() => desk?.close());

/** Waits until what is read is as expected; a busy machine gets its time. */
const until = <T>(read: () => T | Promise<T>) => expect.poll(read, { timeout: 20_000 });
const saved = (on: Page = page) => on.locator('.saving-word.is-saved').waitFor();
/** The case as it stands on the disk. */
async function onDisk(on: Page = page): Promise<CaseFile> {
  await saved(on);
  return (await desk.caseState(caseId)).case;
}
const undo = async (on: Page = page): Promise<void> => {
  await on.getByRole('button', { name: 'Undo', exact: true }).click();
  await saved(on);
};
async function open(id: string, on: Page = page): Promise<void> {
  const button = on.locator(`#open-${id}`);
  if ((await button.getAttribute('aria-expanded')) === 'false') await button.click();
  await button.scrollIntoViewIfNeeded();
}
/** The only shown film's picture, in page pixels. */
const filmBox = async (on: Page = page) => (await on.locator('.film-touch').first().boundingBox())!;
const axe = (on: Page = page) => axeProblems(on);
const plateau = () => page.locator('[data-region="plateau-medial"]').first();
const drawn = (on: Page = page) => on.locator('path.defect[data-defect]');
/** A loop about a place of the page, in steps. */
const loop = (x: number, y: number, [rx, ry]: readonly [number, number]) =>
  Array.from({ length: 25 }, (_, i) => {
    const a = (i * 15 * Math.PI) / 180;
    return [x + rx * Math.cos(a), y + ry * Math.sin(a)] as const;
  });
/** Where on the shown AP film the medial plateau of the right knee lies, page pixels. */
async function nearPlateau(on: Page = page): Promise<readonly [number, number]> {
  const block = (await on.locator('[data-layer^="EX-B"], [data-layer*="block"]').first().boundingBox()) ?? null;
  const box = await filmBox(on);
  return block
    ? [block.x + block.width / 2, block.y + block.height / 2 + 8]
    : [box.x + box.width * 0.55, box.y + box.height * 0.55];
}

describe('Bone stock', () => {
  test('a surface is pressed, a depth tapped, saved, and undone; the picture tells it without colour', async () => {
    await open('bone-stock');
    await plateau().click();
    const before = (await onDisk()).bone?.tibiaMap?.plateau?.medial?.depthMm;
    await page.getByRole('button', { name: 'Depth 15 mm' }).click();
    await until(() => plateau().textContent()).toBe('15 mm');
    expect((await onDisk()).bone?.tibiaMap?.plateau?.medial?.depthMm).toBe(15);
    await undo();
    await until(() => plateau().textContent()).toBe(`${before} mm`);
  });

  test('a depth that is taken away is shown as missing, with what it would change', async () => {
    const lateral = page.locator('[data-region="plateau-lateral"]').first();
    await lateral.click();
    await page.getByRole('button', { name: 'Depth 2 mm' }).click();
    await page.getByRole('button', { name: 'Depth 2 mm' }).click();
    await until(() => lateral.textContent()).toBe('?');
    expect(await lateral.getAttribute('aria-label')).toContain('not known');
    const tibia = page.locator('.bone-card', { has: page.locator('#bone-tibia') });
    await tibia.locator('.class-why summary').click();
    const missing = tibia.locator('.missing-list', { hasText: 'Depth of the loss, lateral plateau' });
    expect(await missing.textContent()).toContain('2B if the lateral side is more than 5 mm deep');
    await undo();
    await undo();
    await plateau().click();
  });

  test('a contradiction is named with its mend, and goes when it is mended', async () => {
    await page.getByRole('button', { name: 'Depth 0 mm' }).click();
    const clash = page.locator('#section-bone-stock .conflicts li', { hasText: 'no depth, but' });
    expect(await clash.textContent()).toContain('set the share to 0 %');
    expect(await page.locator('#open-bone-stock .standing-word').textContent()).toBe('in conflict');
    await undo();
    await clash.waitFor({ state: 'detached' });
  });

  test('the proposed class becomes the surgeon’s by one press, by keyboard', async () => {
    const tibia = page.locator('.bone-card', { has: page.locator('#bone-tibia') });
    const own = tibia.locator('.class-own');
    await own.getByRole('button', { name: '2A' }).click();
    await own.getByText('not stated').waitFor();
    const take = tibia.getByRole('button', { name: /^Take 2A as mine/ });
    await take.focus();
    await page.keyboard.press('Enter');
    await own.getByText('as the map has it').waitFor();
    expect((await onDisk()).bone?.tibiaClass).toBe('2A');
  });

  test('regions are reached and chosen by keyboard alone', async () => {
    const region = page.locator('[data-region="metaphysis"]').last();
    await region.focus();
    await page.keyboard.press('Enter');
    await page.locator('.region-panel legend', { hasText: 'Tibia: metaphysis' }).waitFor();
    await plateau().focus();
    await page.keyboard.press('Enter');
    await page.locator('.region-panel legend', { hasText: 'Tibia: plateau, medial' }).waitFor();
  });
});

describe('A defect drawn on the film', () => {
  test('is drawn with the mouse in one sweep; depth, width and share appear with their spread', async () => {
    await page
      .locator('.region-panel')
      .getByRole('button', { name: /Draw it: Knee AP/ })
      .click();
    await page.locator('.placing-line', { hasText: 'draw round it' }).waitFor();
    const [x, y] = await nearPlateau();
    const points = loop(x, y, [30, 14]);
    await page.mouse.move(...points[0]!);
    await page.mouse.down();
    for (const point of points.slice(1)) await page.mouse.move(...point);
    await page.mouse.up();
    await drawn().waitFor();
    const file = await onDisk();
    expect(file.bone?.drawn).toHaveLength(1);
    expect(file.bone?.drawn?.[0]).toMatchObject({ surface: 'tibia-plateau', compartment: 'medial' });
    const numbers = page.locator('.drawn-list .drawn-numbers').first();
    expect(await numbers.textContent()).toMatch(/mm deep.*±.*mm wide.*±.*% without support/);
  });

  test('a corner is dragged, and moved and taken away by keyboard; the numbers follow', async () => {
    const numbers = page.locator('.drawn-list .drawn-numbers').first();
    const before = await numbers.textContent();
    const corner = page.locator('[data-handle^="drawn|"]').first();
    const box = (await corner.boundingBox())!;
    const [cx, cy] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(cx, cy);
    await page.mouse.down();
    await page.mouse.move(cx + 10, cy + 16);
    await page.mouse.move(cx + 14, cy + 24);
    await page.mouse.up();
    await until(() => numbers.textContent()).not.toBe(before);
    const outline = (await onDisk()).bone!.drawn![0]!.outline;
    await corner.focus();
    await page.keyboard.press('Shift+ArrowDown');
    await until(async () => (await onDisk()).bone!.drawn![0]!.outline[0]!.y).toBeCloseTo(outline[0]!.y + 10, 1);
    await page.keyboard.press('Delete');
    await until(async () => (await onDisk()).bone!.drawn![0]!.outline.length).toBe(outline.length - 1);
    await undo();
    expect((await onDisk()).bone!.drawn![0]!.outline).toHaveLength(outline.length);
  });

  test('Escape puts the tool down; the outline stays', async () => {
    await page.locator('.film-touch').first().focus();
    await page.keyboard.press('Escape');
    await page.locator('.placing-line').waitFor({ state: 'detached' });
    expect(await drawn().count()).toBe(1);
    expect(await page.locator('[data-handle]').count()).toBe(0);
  });

  test('is drawn by keyboard alone: crosshair, points, one taken back, closed with C; undone', async () => {
    await page
      .locator('.region-panel')
      .getByRole('button', { name: /Draw it: Knee AP/ })
      .focus();
    await page.keyboard.press('Enter');
    await until(() => page.evaluate(() => document.activeElement?.className)).toContain('film-touch');
    await page.keyboard.press('Enter');
    for (const keys of ['ArrowDown', 'ArrowRight', 'ArrowRight']) {
      await page.keyboard.press('Enter');
      await page.keyboard.press(`Shift+${keys}`);
    }
    await page.keyboard.press('Enter');
    await page.locator('.placing-line', { hasText: 'to close it' }).waitFor();
    expect(await page.locator('[data-handle^="open"]').count()).toBe(4);
    await page.keyboard.press('Backspace');
    await until(() => page.locator('[data-handle^="open"]').count()).toBe(3);
    await page.keyboard.press('c');
    await until(() => drawn().count()).toBe(2);
    await undo();
    await until(() => drawn().count()).toBe(1);
  });

  test('pressed point by point it is closed by a press on the first one', async () => {
    await page
      .locator('.region-panel')
      .getByRole('button', { name: /Draw it: Knee AP/ })
      .click();
    const box = await filmBox();
    for (const [dx, dy] of [
      [150, 300],
      [210, 300],
      [180, 350],
      [152, 303],
    ] as const)
      await page.mouse.click(box.x + dx, box.y + dy);
    await until(() => drawn().count()).toBe(2);
    expect((await onDisk()).bone?.drawn?.at(-1)?.outline).toHaveLength(3);
    await undo();
    await page.locator('.film-touch').first().focus();
    await page.keyboard.press('Escape');
  });

  test('an unfinished outline goes with the first Escape, the tool with the second', async () => {
    await page
      .locator('.region-panel')
      .getByRole('button', { name: /Draw it: Knee AP/ })
      .click();
    const box = await filmBox();
    await page.mouse.click(box.x + 200, box.y + 300);
    await page.mouse.click(box.x + 240, box.y + 300);
    await until(() => page.locator('[data-handle^="open"]').count()).toBe(2);
    await page.keyboard.press('Escape');
    await until(() => page.locator('[data-handle^="open"]').count()).toBe(0);
    await page.locator('.placing-line').waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.placing-line').waitFor({ state: 'detached' });
  });

  test('is drawn with a finger on a tablet; two fingers still move the film', async () => {
    const tablet = await browser.newContext({
      viewport: { width: 1024, height: 768 },
      hasTouch: true,
      storageState: await context.storageState(),
    });
    const touched = await desk.watched(tablet);
    await touched.goto(page.url());
    await touched.locator('.film-pixels').first().waitFor();
    await open('bone-stock', touched);
    await touched.locator('[data-region="plateau-lateral"]').first().tap();
    await touched
      .locator('.region-panel')
      .getByRole('button', { name: /Draw it: Knee AP/ })
      .tap();
    await touched.locator('.placing-line').waitFor();
    const cdp = await tablet.newCDPSession(touched);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...at: (readonly [number, number])[]) =>
      cdp.send('Input.dispatchTouchEvent', { type, touchPoints: at.map(([x, y], id) => ({ x, y, id })) });
    const [x, y] = await nearPlateau(touched);
    const outlines = await drawn(touched).count();
    // A second finger takes the begun line back.
    await touch('touchStart', [x, y]);
    await touch('touchMove', [x + 30, y]);
    await touch('touchStart', [x + 30, y], [x + 90, y]);
    await touch('touchMove', [x + 30, y + 20], [x + 90, y + 20]);
    await touch('touchEnd');
    expect(await drawn(touched).count()).toBe(outlines);
    const points = loop(x - 60, y, [34, 22]).filter((_, i) => i % 2 === 0);
    await touch('touchStart', points[0]!);
    for (const point of points.slice(1)) await touch('touchMove', point);
    await touch('touchEnd');
    await until(() => drawn(touched).count()).toBe(outlines + 1);
    expect((await onDisk(touched)).bone?.drawn?.at(-1)?.compartment).toBe('lateral');
    const small = await touched
      .locator('#section-bone-stock button:visible:not(.bone-press)')
      .evaluateAll((all) => all.filter((b) => b.getBoundingClientRect().height < 43.5).map((b) => b.textContent));
    expect(small).toEqual([]);
    await undo(touched);
    await tablet.close();
    await page.reload();
    await page.locator('.film-pixels').first().waitFor();
  });
});

describe('A canal traced on the film', () => {
  const button = (on: Page = page) =>
    on
      .locator('.bone-card', { has: on.locator('#stems-femur') })
      .getByRole('button', { name: /Trace( on)?: Knee AP|Done/ });
  const levels = async () => {
    const { canals, films } = await onDisk();
    const ap = films.find((f) => f.view === 'ap' && f.role === 'present')!;
    return canals?.find((t) => t.bone === 'femur' && t.film === ap.id)?.levels ?? [];
  };

  test('both walls are pressed with the mouse, and the level stands in its order', async () => {
    await open('stems');
    const before = (await levels()).length;
    await button().click();
    await page.locator('.placing-line', { hasText: 'inner wall, one side' }).waitFor();
    const box = await filmBox();
    // Beside the bone: no wall of another level lies there to be taken hold of.
    const y = box.y + 260;
    await page.mouse.click(box.x + 130, y);
    await page.locator('.placing-line', { hasText: 'other side' }).waitFor();
    expect(await page.locator('.canal-guide').count()).toBe(1);
    await page.mouse.click(box.x + 160, y);
    await until(async () => (await levels()).length).toBe(before + 1);
    const rows = (await levels()).map((l) => l.innerA.y + l.innerB.y);
    expect(rows).toEqual(rows.toSorted((a, b) => b - a));
  });

  test('Backspace takes back a press, then the last level; undo brings it again', async () => {
    const before = (await levels()).length;
    const box = await filmBox();
    await page.mouse.click(box.x + 130, box.y + 330);
    await until(() => page.locator('[data-handle^="press"]').count()).toBe(1);
    await page.keyboard.press('Backspace');
    await until(() => page.locator('[data-handle^="press"]').count()).toBe(0);
    expect(await levels()).toHaveLength(before);
    await page.keyboard.press('Backspace');
    await until(async () => (await levels()).length).toBe(before - 1);
    await undo();
    expect(await levels()).toHaveLength(before);
  });

  test('a wall is moved by keyboard, a level traced by keyboard, and taken away from the list', async () => {
    const handle = page.locator('[data-handle="wall 0"]');
    const x = (await levels())[0]!.innerA.x;
    await handle.focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await until(async () => Math.abs((await levels())[0]!.innerA.x - x)).toBeCloseTo(2, 1);
    await undo();
    const before = (await levels()).length;
    await page.locator('.film-touch').first().focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Enter');
    await until(async () => (await levels()).length).toBe(before + 1);
    await page.keyboard.press('Escape');
    await page.locator('.placing-line').waitFor({ state: 'detached' });
    const table = page.locator('.bone-card', { has: page.locator('#stems-femur') }).locator('.canal-levels', {
      hasText: 'Knee AP',
    });
    await table.locator('summary').click();
    await table
      .getByRole('button', { name: /Take away level/ })
      .first()
      .click();
    await until(async () => (await levels()).length).toBe(before);
    await undo();
    await undo();
    expect(await levels()).toHaveLength(before);
  });

  test('stems are judged with numbers; the narrowest width is offered and taken only when pressed', async () => {
    const femur = page.locator('.bone-card', { has: page.locator('#stems-femur') });
    const planned = femur.locator('.stem-card').first();
    expect(await planned.textContent()).toMatch(/In the plan.*(passes|does not pass|not known)/);
    expect(await planned.locator('table').textContent()).toMatch(
      /Forced tilt of the tip.*Least clearance.*Greatest fill/,
    );
    expect(await femur.locator('.stem-card').count()).toBeGreaterThan(1);
    const take = femur.locator('.offered-canal button');
    const was = (await onDisk()).bone?.femurCanalMm;
    const offered = Number((await take.textContent())!.match(/[\d.]+/)![0]);
    await take.click();
    await until(async () => (await onDisk()).bone?.femurCanalMm).toBe(offered);
    await undo();
    expect((await onDisk()).bone?.femurCanalMm).toBe(was);
  });
});

describe('Treatment, arc and what was found', () => {
  test('each defect has its options; one opens to its rule, its figures with n, and its source', async () => {
    await open('treatment');
    const block = page.locator('.option', { hasText: 'Block augment' }).first();
    await block.locator('summary').click();
    const body = block.locator('.option-body');
    expect(await body.textContent()).toMatch(/TRE-\d+/);
    expect(await body.locator('.reported tbody tr').count()).toBeGreaterThan(0);
    await body.locator('.experts').first().waitFor();
    await page.locator('.defect-choice button').nth(1).click();
    expect(await page.locator('.defect-choice [aria-pressed="true"]').count()).toBe(1);
  });

  test('the arc moves with the insert on trial, tells what the trial costs, and goes back to the plan', async () => {
    await open('arc');
    const line = page.locator('.arc-line.is-medial');
    const before = await line.getAttribute('d');
    await page.getByRole('button', { name: 'Insert: thicker' }).focus();
    await page.keyboard.press('Enter');
    await until(() => line.getAttribute('d')).not.toBe(before);
    expect(await page.locator('.trial-line').textContent()).toMatch(/A trial, not the plan\..*Cost .* of the plan/);
    await page.locator('.on-trial', { hasText: 'insert' }).waitFor();
    const revision = (await onDisk()).title;
    await page.locator('.trial-line').getByRole('button', { name: 'Back to plan' }).click();
    await until(() => line.getAttribute('d')).toBe(before);
    expect((await onDisk()).title).toBe(revision);
    expect(await page.locator('.on-trial').count()).toBe(0);
  });

  test('the forecast is kept, what was found is entered by presses, and both are compared', async () => {
    await open('found');
    const keep = page.getByRole('button', { name: 'Keep this forecast' });
    await keep.click({ timeout: 90_000 });
    await page.locator('.keep-forecast', { hasText: 'Kept on' }).waitFor();
    await page.getByRole('button', { name: /all as planned/ }).click();
    await page.getByRole('group', { name: 'Tibia, class' }).getByRole('button', { name: '2B' }).click();
    const file = await onDisk();
    expect(file.found).toMatchObject({ tibiaClass: '2B', fracture: false, kitSufficed: true });
    expect(file.found?.used?.insert).toBeTruthy();
    const tibia = page.locator('.came-list li', { hasText: 'Tibia, class' });
    expect(await tibia.textContent()).toMatch(/2B.*%/);
    await page.locator('.practice h3', { hasText: '1 case' }).waitFor();
    expect(await page.locator('.calibration-dot').count()).toBeGreaterThan(1);
    expect(await page.locator('.practice').textContent()).toContain('from 5 noted cases on');
  });

  test.each(['bone-stock', 'treatment', 'stems', 'arc', 'found'])(
    'no barrier that axe can find with %s open to its last detail; nothing wider than the window at three sizes',
    async (id) => {
      await page.evaluate(() => {
        for (const other of document.querySelectorAll<HTMLElement>('h2 button[aria-expanded="true"]')) other.click();
      });
      await open(id);
      if (id === 'bone-stock') await plateau().click();
      // Of what there are many alike, the first stands for all.
      await page.evaluate(() => {
        const alike = new Set<Element>();
        for (const many of document.querySelectorAll('.canals, .stem-others, .option-list, .cavity-list'))
          for (const later of [...many.querySelectorAll('details')].slice(1)) alike.add(later);
        for (const d of document.querySelectorAll('details')) d.open = !alike.has(d);
      });
      expect(await axe()).toEqual([]);
      for (const [width, height] of [
        [768, 1024],
        [1024, 768],
        [1366, 768],
      ] as const) {
        await page.setViewportSize({ width, height });
        expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(
          0,
        );
      }
    },
  );

  test('nothing was asked of any other machine, and no page reported a fault', () => {
    expect(desk.watch).toEqual({ outside: [], faults: [] });
  });
});
