import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import { decode } from 'fast-png';
import { afterAll, describe, expect, test } from 'vitest';
import { squareKnee } from '../../cases/square-knee.ts';
import type { SheetPicture } from './film-picture.ts';
import { DISCLAIMER } from './foot.ts';
import { planSheet } from './plan-sheet.ts';

const example = JSON.parse(readFileSync(new URL('../../catalogues/demo.json', import.meta.url), 'utf8')) as Catalogue;
const folder = mkdtempSync(join(tmpdir(), 'sheet-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const grey: SheetPicture = { rows: 4500, columns: 2000, grey: new Uint8Array(9_000_000).fill(70) };
const MADE_AT = '2026-11-25T05:00:00.000Z';

/** The sheet of a case, written where the PDF tools can read it. */
async function sheetOf(
  file: CaseFile,
  more: { catalogue?: Catalogue | null; madeAt?: string; pictures?: boolean } = {},
) {
  const catalogue = more.catalogue === undefined ? example : more.catalogue;
  const pictures = new Map(more.pictures === false ? [] : file.films.map((f) => [f.id, grey]));
  const plan = makePlan(file, catalogue);
  const bytes = await planSheet({ plan, case: file, catalogue, pictures, madeAt: more.madeAt ?? MADE_AT });
  const path = join(folder, `${Math.abs(hash(bytes))}.pdf`);
  writeFileSync(path, bytes);
  return { path, bytes, plan };
}
const hash = (bytes: Uint8Array) => bytes.reduce((h, b) => (h * 31 + b) | 0, 7);

const tool = (name: string, ...args: string[]): string => {
  const run = spawnSync(name, args, { encoding: 'utf8', maxBuffer: 1e9 });
  if (run.status !== 0) throw new Error(`${name}: ${run.stderr || run.error}`);
  return run.stdout;
};
const textOf = (path: string) => tool('pdftotext', '-raw', path, '-').replace(/\s+/g, ' ');
const pagesOf = (path: string) => /Pages:\s+(\d+)/.exec(tool('pdfinfo', path))?.[1];

describe('the plan sheet', () => {
  test('one A4 page that says the side in words, who, the parts, the gaps and what it is not', async () => {
    const { path, plan } = await sheetOf(squareKnee());
    expect(pagesOf(path)).toBe('1');
    expect(tool('pdfinfo', path)).toMatch(/Page size:\s+595\.28 x 841\.89 pts \(A4\)/);
    const text = textOf(path);
    expect(text).not.toContain('Fixed by hand');
    if (plan.construct.kind !== 'solved') throw new Error('not solved');
    const { construct, effect } = plan.construct.answer.best;
    for (const said of [
      'RIGHT KNEE',
      'Invented, Ida',
      'SQ-1',
      construct.femur,
      construct.tray,
      construct.insert,
      'Posterior-stabilised',
    ]) {
      expect(text).toContain(said);
    }
    expect(text).toContain(`+${effect.extensionLaxityMm.medial.toFixed(1)}`);
    expect(text).toContain('raised');
    expect(text).toContain('Bone lost at removal, tibia');
    expect(text).toContain('invented system');
    expect(text).toContain(DISCLAIMER);
    expect(text).toContain(`core ${plan.versions.core}`);
    expect(text).toMatch(/sha-256 [0-9a-f]{64}/);
  });

  test('GAP-41 what was fixed by hand stands on the sheet with what it costs', async () => {
    const file = squareKnee();
    const pinned = { femurSize: 5, femurProximalMm: 1.5, insertMm: 12 };
    const { path, plan } = await sheetOf({ ...file, settings: { ...file.settings, pinned } }, { pictures: false });
    if (plan.construct.kind !== 'solved') throw new Error('not solved');
    const more = plan.construct.answer.pinned?.more.toFixed(2);
    expect(textOf(path)).toContain(
      `Fixed by hand: femur size 5; femoral joint line 1.5 mm proximal; insert 12 mm. Costs ${more} more than the free optimum.`,
    );
    expect(pagesOf(path)).toBe('1');
  });

  test('names outside Latin are printed as they are', async () => {
    const { path } = await sheetOf({ ...squareKnee(), patient: { name: 'Łódź-Müller^Иван', id: 'Ω-1' } });
    expect(textOf(path)).toContain('Łódź-Müller, Иван');
  });

  test('same request, same bytes; another time changes the date and nothing that is read of the plan', async () => {
    const [a, b, later] = [
      await sheetOf(squareKnee()),
      await sheetOf(squareKnee()),
      await sheetOf(squareKnee(), { madeAt: '2027-01-01T00:00:00Z' }),
    ];
    expect(Buffer.compare(a.bytes, b.bytes)).toBe(0);
    expect(Buffer.compare(a.bytes, later.bytes)).not.toBe(0);
    const dateless = (path: string) => textOf(path).replace(/Made \S+ \S+ UTC/, '');
    expect(dateless(later.path)).toBe(dateless(a.path));
  });

  test('the ruler is 50 mm long on paper (rendered at 10 dots per millimetre by an independent renderer)', async () => {
    const { path } = await sheetOf(squareKnee());
    tool('pdftoppm', '-r', '254', '-gray', '-png', '-singlefile', path, join(folder, 'page'));
    const png = decode(readFileSync(join(folder, 'page.png')));
    // The ruler's line, 794 points from the top, 28 from the left.
    const row = Math.round((794 / 72) * 254);
    const channels = png.data.length / (png.width * png.height);
    const dark = (x: number) => (png.data[(row * png.width + x) * channels] ?? 255) < 128;
    const xs = Array.from({ length: 650 }, (_, x) => x).filter(dark);
    const long = (Math.max(...xs) - Math.min(...xs) + 1) / 10;
    expect(long).toBeGreaterThan(49.7);
    expect(long).toBeLessThan(50.5);
  });

  const long = (n: number) => 'Abcdefghij '.repeat(n).trim();
  test.each<[string, (f: CaseFile) => CaseFile, Catalogue | null, string]>([
    [
      'very long names',
      (f) => ({ ...f, title: long(40), patient: { name: long(30), id: long(20) } }),
      example,
      'RIGHT KNEE',
    ],
    [
      'nothing but the side',
      (f) => ({ ...f, patient: {}, films: [], marks: [], title: 'x' }),
      example,
      'The case holds no film',
    ],
    ['no catalogue', (f) => f, null, 'NO CONSTRUCT PROPOSED'],
    ['no examination', (f) => ({ ...f, examination: {} }), example, 'Opening of each side under stress in flexion'],
    ['no lateral film', (f) => ({ ...f, films: f.films.slice(0, 1) }), example, 'NO CONSTRUCT PROPOSED'],
    [
      'a film held',
      (f) => ({ ...f, films: f.films.map((x) => ({ ...x, side: 'left' as const })) }),
      example,
      'IN CONFLICT',
    ],
    [
      'a system in which nothing fits',
      (f) => f,
      { ...example, limits: { ...example.limits, overhangMm: -30 } },
      'NO CONSTRUCT FITS',
    ],
  ])('%s: still one page, and said plainly', async (_what, change, catalogue, said) => {
    const { path } = await sheetOf(change(squareKnee()), { catalogue });
    expect(pagesOf(path)).toBe('1');
    expect(textOf(path)).toContain(said);
    expect(textOf(path)).toContain('the operating surgeon and local protocols decide');
  });

  test('a left knee says so, and a film without its picture says that', async () => {
    const file = squareKnee();
    const left: CaseFile = {
      ...file,
      side: 'left',
      films: file.films.map((f) => ({ ...f, side: 'left' })),
      marks: file.marks.map((m) => ({ ...m, side: 'left' })),
    };
    const { path } = await sheetOf(left, { pictures: false });
    expect(textOf(path)).toContain('LEFT KNEE');
    expect(textOf(path)).toContain('picture not at hand');
  });
});
