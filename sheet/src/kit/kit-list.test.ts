import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { squareKnee } from '../../../cases/square-knee.ts';
import { DISCLAIMER } from '../foot.ts';
import { kitList } from './kit-list.ts';
import type { KitListContent, KitListRow } from './kit-list-content.ts';

const folder = mkdtempSync(join(tmpdir(), 'kit-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const row = (n: number, change: Partial<KitListRow> = {}): KitListRow => ({
  ref: `SET-${n}`,
  name: `Invented set number ${n}`,
  owner: n % 2 ? 'loan' : 'own shelf',
  trays: 2,
  cost: 'EUR 120',
  orderBy: n % 2 ? '2026-12-08' : '',
  late: false,
  adds: '1.5 %',
  ...change,
});

const content: KitListContent = {
  hospital: 'Example hospital',
  invented: true,
  surgeryOn: '2026-12-14',
  lead: ['Most likely: invented construct', 'How sure: 62 % of openings', 'In the room: 3 sets'],
  sets: [row(1, { late: true }), row(2), row(3)],
  left: ['Invented set number 4 (SET-4) would add 0.4 %.'],
  uncovered: ['0.8 %: medial tibia more than 20 mm down: no block that thick.'],
  bailOuts: ['If infection is found: spacer, no construct (3 %)'],
  missing: ['Without Invented set number 1 90 % have an answer.'],
  cautions: ['Holidays are not known.'],
  reckoned: '2,000 knees drawn, seed 7.',
};

const tool = (name: string, ...args: string[]): string => {
  const run = spawnSync(name, args, { encoding: 'utf8', maxBuffer: 1e9 });
  if (run.status !== 0) throw new Error(`${name}: ${run.stderr || run.error}`);
  return run.stdout;
};

async function printed(change: Partial<KitListContent> = {}) {
  const bytes = await kitList({
    case: squareKnee(),
    content: { ...content, ...change },
    madeAt: '2026-12-01T09:00:00.000Z',
  });
  const path = join(folder, 'kit.pdf');
  writeFileSync(path, bytes);
  const pages = Number(/Pages:\s+(\d+)/.exec(tool('pdfinfo', path))?.[1]);
  return { bytes, pages, text: tool('pdftotext', '-raw', path, '-').replace(/\s+/g, ' '), path };
}

describe('the kit list', () => {
  test('one page that says the side, who, every set with its box, what is late, what no set answers', async () => {
    const { pages, text } = await printed();
    expect(pages).toBe(1);
    const said = [
      'RIGHT KNEE',
      'Invented, Ida',
      'Example hospital (invented)',
      'Surgery on 2026-12-14',
      ...content.lead,
      ...content.sets.flatMap((s) => [s.ref, s.name]),
      '2026-12-08 LATE',
      ...content.uncovered,
      ...content.bailOuts,
      ...content.missing,
      ...content.left,
      ...content.cautions,
      content.reckoned,
      DISCLAIMER,
    ];
    for (const words of said) expect(text).toContain(words);
  });

  test('a long list goes on to a second page; nothing is lost and the caution stands on each', async () => {
    const sets = Array.from({ length: 36 }, (_, i) => row(i + 1));
    const uncovered = Array.from(
      { length: 40 },
      (_, i) => `${i + 1} of 1000: kind of knee number ${i + 1} has no answer.`,
    );
    const { pages, text } = await printed({ sets, uncovered });
    expect(pages).toBe(2);
    for (const s of sets) expect(text).toContain(s.ref);
    for (const line of uncovered) expect(text).toContain(line);
    expect(text.split(DISCLAIMER).length - 1).toBe(2);
  });

  test('without a day of surgery it says that there are no order-by dates; the same request gives the same bytes', async () => {
    const one = await printed({ surgeryOn: null });
    expect(one.text).toContain('Day of surgery not set: no order-by dates');
    expect(Buffer.from((await printed({ surgeryOn: null })).bytes).equals(Buffer.from(one.bytes))).toBe(true);
  });
});
