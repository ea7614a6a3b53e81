// The stack viewer in headless Chromium: 400 slices of 512 x 512 as the real server delivers them, gone through by the wheel.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CtSlice, writeCtSlice } from '@gapline/film/write/ct.ts';
import { uidOf } from '@gapline/film/write/uid.ts';
import { ctPhantom } from '@gapline/phantoms/src/ct.ts';
import type { Page } from 'playwright-core';
import { fillSmallDataFolder } from '../server/testing/small-data-folder.ts';
import { DESK, launchChromium } from '../web/testing/launch-chromium.ts';
import { endWorkbench, startWorkbench } from '../web/testing/start-workbench.ts';
import type { Bench } from './bench-types.ts';

const SLICES = 400;
const SIZE = 512;
/** Slices asked for at once by the viewer. */
const RUN = 16;

/** A long stack from a short one: the same pictures again and again, each at a place of its own. */
function longStack(): readonly { readonly name: string; readonly bytes: Uint8Array }[] {
  const { slices } = ctPhantom({ seed: 1, side: 'right', femoralDeg: -3, tibialDeg: -20, size: SIZE, thicknessMm: 8 });
  return Array.from({ length: SLICES }, (_, i) => {
    const like = slices[i % slices.length] as CtSlice;
    const [x, y] = like.originMm;
    const slice: CtSlice = {
      ...like,
      originMm: [x, y, 500 + i * 0.5],
      instance: { uid: uidOf(`bench/stack/${i}`), number: i + 1 },
    };
    return { name: `slice-${i}.dcm`, bytes: writeCtSlice(slice) };
  });
}

/** Imports the stack as the page does, and makes a case of it. Gives the address of the case. */
async function caseOf(page: Page, origin: string): Promise<string> {
  const cookie = (await page.context().cookies()).map((c) => `${c.name}=${c.value}`).join('; ');
  const headers = { cookie, origin };
  const form = new FormData();
  for (const { name, bytes } of longStack()) form.append('files', new Blob([new Uint8Array(bytes)]), name);
  const imported = await fetch(`${origin}/api/imports?strip=0`, { method: 'POST', headers, body: form });
  const [stack] = (await imported.json()) as { film: object }[];
  if (!stack?.film) throw new Error('the import gave no stack');
  const made = await fetch(`${origin}/api/cases`, {
    method: 'POST',
    headers: { ...headers, 'content-type': 'application/json' },
    body: JSON.stringify({ title: 'Stack', side: 'right', films: [stack.film] }),
  });
  const state = (await made.json()) as { case: { id: string } };
  return `${origin}/#/case/${state.case.id}`;
}

async function onStack<T>(measure: (page: Page) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'gapline-bench-'));
  await fillSmallDataFolder(folder);
  const bench = await startWorkbench(folder);
  const browser = await launchChromium();
  try {
    const page = await (await browser.newContext(DESK)).newPage();
    await page.goto(bench.address);
    await page.locator('.cases a').first().waitFor();
    const address = await caseOf(page, new URL(bench.address).origin);
    let runs = 0;
    page.on('requestfinished', (request) => {
      if (request.url().includes('/slices?')) runs += 1;
    });
    await page.goto(address);
    await page.locator('.slice-pixels').waitFor({ timeout: 120_000 });
    while (runs < SLICES / RUN) await page.waitForTimeout(100);
    await page.waitForTimeout(500);
    return await measure(page);
  } finally {
    await browser.close();
    await endWorkbench(bench, 'SIGTERM');
    rmSync(folder, { recursive: true, force: true });
  }
}

// Run in the page, as text: one notch of the wheel a frame, and how many other slices were painted a second.
const THROUGH_THE_STACK = `new Promise((done) => {
  const touch = document.querySelector('.stack-surface .film-touch');
  const canvas = document.querySelector('.slice-pixels');
  let [painted, last, frames] = [0, canvas.dataset.slice, 0];
  const start = performance.now();
  const tick = () => {
    if (canvas.dataset.slice !== last) painted += 1;
    last = canvas.dataset.slice;
    frames += 1;
    if (frames > 300) return done((1000 * painted) / (performance.now() - start));
    touch.dispatchEvent(new WheelEvent('wheel', { deltaY: frames < 150 ? -100 : 100, bubbles: true, cancelable: true }));
    requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
})`;

// The alternative: a picture of the same size put on a canvas of the same size and nothing else, a frame at a time.
const PLAIN_CANVAS = `new Promise((done) => {
  const like = document.querySelector('.slice-pixels');
  const canvas = document.createElement('canvas');
  canvas.width = like.width;
  canvas.height = like.height;
  canvas.style.cssText = 'position:fixed;inset:0;z-index:99';
  document.body.append(canvas);
  const context = canvas.getContext('2d', { alpha: false });
  const picture = new OffscreenCanvas(${SIZE}, ${SIZE});
  const image = new ImageData(${SIZE}, ${SIZE});
  let frames = 0;
  const start = performance.now();
  const tick = () => {
    new Uint32Array(image.data.buffer).fill(0xff000000 + frames * 0x010101);
    picture.getContext('2d', { alpha: false }).putImageData(image, 0, 0);
    context.drawImage(picture, 0, 0, canvas.width, canvas.height);
    frames += 1;
    if (frames <= 300) return requestAnimationFrame(tick);
    canvas.remove();
    done((1000 * frames) / (performance.now() - start));
  };
  requestAnimationFrame(tick);
})`;

const scrolling: Bench = {
  name: 'stack: slices painted a second, 400 slices of 512 x 512, one notch of the wheel a frame',
  target: '30 slices a second or more; alternative = a plain canvas that paints a picture of that size each frame',
  run: () =>
    onStack(async (page) => {
      const ours = await page.evaluate<number>(THROUGH_THE_STACK);
      const theirs = await page.evaluate<number>(PLAIN_CANVAS);
      return { ours, theirs, unit: 'slices/s', ratio: ours / theirs };
    }),
};

export const benches: readonly Bench[] = [scrolling];
