import { readFileSync } from 'node:fs';
import { everyPart } from '@gapline/core/catalogue/every-part.ts';
import type { KitWorth } from '@gapline/core/kit/kit-answer.ts';
import type { SetList } from '@gapline/core/kit/set-list.ts';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import { demoSetList, demoStock, setListText, stockText } from '../../kits/make-demo.ts';
import { kitCsv } from './kit-csv.ts';
import { PUBLISHED, publishedText } from './publish-schema.ts';
import { readSetList } from './read-set-list.ts';
import { readStockCsv } from './read-stock-csv.ts';
import { SAME_AS_SET_LIST, setListSchemaDocument } from './set-list-schema.ts';

const kits = (file: string) => readFileSync(new URL(`../../kits/${file}`, import.meta.url), 'utf8');
const demo = demoSetList();

type Draft<T> = T extends readonly (infer E)[]
  ? Draft<E>[]
  : T extends object
    ? { -readonly [K in keyof T]: Draft<T[K]> }
    : T extends string
      ? string
      : T;
/** Reads the example list after one value was changed; its fault. */
const faultAfter = (change: (list: Draft<SetList>) => void) => {
  const copy: Draft<SetList> = JSON.parse(JSON.stringify(demo));
  change(copy);
  const read = readSetList(JSON.stringify(copy), 'mine.json');
  if (read.ok) throw new Error('should have been refused');
  return read.reason;
};

describe('the example hospital', () => {
  test('its files are what their generator writes', () => {
    expect(kits('demo.json')).toBe(setListText(demo));
    expect(kits('demo-stock.csv')).toBe(stockText(demoStock()));
  });

  test('KIT-12 KIT-13 its files are read without a fault, and come back as they are', () => {
    expect(readSetList(kits('demo.json'), 'demo.json')).toEqual({ ok: true, value: demo, warnings: [] });
    expect(readStockCsv(kits('demo-stock.csv'), 'demo-stock.csv')).toEqual({
      ok: true,
      value: demoStock(),
      warnings: [],
    });
  });

  test('it says that it is invented, holds every part of the example catalogue, and each set more than nothing', () => {
    expect(demo.invented).toBe(true);
    const held = new Set(demo.sets.flatMap((s) => s.parts.map((p) => p.ref)));
    const parts = everyPart(demoCatalogue());
    expect(parts.filter((p) => !held.has(p.ref)).map((p) => p.ref)).toEqual([]);
    expect(held.size).toBe(parts.length);
  });
});

describe('schema of a list of sets', () => {
  test('KIT-12 the published schema is up to date, valid 2020-12, and of the core type', () => {
    expect(SAME_AS_SET_LIST).toBe(true);
    expect(readFileSync(PUBLISHED, 'utf8')).toBe(publishedText());
    expect(new Ajv2020({ strict: true }).validateSchema(setListSchemaDocument())).toBe(true);
  });
});

describe('KIT-12 faults of a list name the file, the field and the mend', () => {
  test.each<[string, (list: Draft<SetList>) => void, string, string]>([
    [
      'a count that is no whole number',
      (l) => Object.assign(l.sets[1]?.parts[0] ?? {}, { count: 1.5 }),
      'sets[1].parts[0].count',
      'wrong-type',
    ],
    ['a negative fee', (l) => Object.assign(l.sets[0] ?? {}, { fee: -1 }), 'sets[0].fee', 'out-of-range'],
    [
      'an owner that is none',
      (l) => Object.assign(l.sets[0] ?? {}, { owner: 'nobody' }),
      'sets[0].owner',
      'not-in-list',
    ],
    ['a field that is none', (l) => Object.assign(l.sets[0] ?? {}, { leadDay: 3 }), 'sets[0].leadDay', 'field-unknown'],
    ['a currency that is none', (l) => Object.assign(l, { currency: 'euro' }), 'currency', 'wrong-form'],
    ['a reference twice', (l) => Object.assign(l.sets[2] ?? {}, { ref: 'F-MID' }), 'sets[2].ref', 'reference-twice'],
    [
      'a part twice',
      (l) => l.sets[1]?.parts.push({ ref: 'EX-F3R', count: 1 }),
      'sets[1].parts[32].ref',
      'reference-twice',
    ],
    ['an empty set', (l) => Object.assign(l.sets[1] ?? {}, { parts: [] }), 'sets[1]', 'set-is-empty'],
    ['an own set with a fee', (l) => Object.assign(l.sets[1] ?? {}, { fee: 5 }), 'sets[1].fee', 'own-set-with-fee'],
    [
      'an own set that has to be ordered',
      (l) => Object.assign(l.sets[1] ?? {}, { leadDays: 2 }),
      'sets[1].leadDays',
      'own-set-with-lead',
    ],
    ['too many sets', (l) => l.sets.push(...l.sets.map((s, i) => ({ ...s, ref: `N${i}` }))), 'sets', 'not-allowed'],
    ['another format', (l) => Object.assign(l, { format: 'gapline-case' }), 'format', 'not-a-set-list'],
    ['a newer version', (l) => Object.assign(l, { version: '2.0' }), 'version', 'other-version'],
  ])('%s', (_, change, field, code) => {
    const reason = faultAfter(change);
    expect([reason.file, reason.field, reason.code]).toEqual(['mine.json', field, code]);
    expect(reason.mend?.length).toBeGreaterThan(5);
  });

  test('what is not JSON, and several faults at once', () => {
    expect(readSetList('{', 'x.json')).toMatchObject({ ok: false, reason: { code: 'not-json', file: 'x.json' } });
    const two = faultAfter((l) => Object.assign(l, { trayCost: -1, name: '' }));
    expect(two.message).toContain('(and 1 more)');
  });
});

describe('KIT-13 a stock list in CSV', () => {
  const head = 'ref,lot,expires,count,set\n';

  test('columns in any order, semicolons, a set or none, a byte order mark', () => {
    const text = '\uFEFFcount;set;ref;lot;expires\r\n2;;EX-F4R;"L;1";2028-02-29\r\n1;F-MID;EX-F5R;L2;2027-01-01\r\n';
    expect(readStockCsv(text, 's.csv')).toEqual({
      ok: true,
      value: [
        { ref: 'EX-F4R', lot: 'L;1', expires: '2028-02-29', count: 2 },
        { ref: 'EX-F5R', lot: 'L2', expires: '2027-01-01', count: 1, set: 'F-MID' },
      ],
      warnings: [],
    });
  });

  test.each([
    ['a day that is none', `${head}EX-F4R,L1,2027-02-30,1,\n`, 'line 2, column expires', 'not-a-day'],
    ['a day in another form', `${head}EX-F4R,L1,30.06.2028,1,\n`, 'line 2, column expires', 'not-a-day'],
    ['a count that is none', `${head}A,L,2028-01-01,1,\nB,L,2028-01-01,two,\n`, 'line 3, column count', 'not-a-count'],
    ['a negative count', `${head}A,L,2028-01-01,-1,\n`, 'line 2, column count', 'not-a-count'],
    ['an empty reference', `${head},L,2028-01-01,1,\n`, 'line 2, column ref', 'cell-empty'],
    ['an empty lot', `${head}A,,2028-01-01,1,\n`, 'line 2, column lot', 'cell-empty'],
    ['a missing column', 'ref,expires,count\nA,2028-01-01,1\n', 'line 1, column lot', 'column-missing'],
    ['an unknown column', 'ref,lot,expires,count,shelf\n', 'line 1, column shelf', 'column-unknown'],
    ['a column twice', 'ref,lot,expires,count,lot\n', 'line 1, column lot', 'column-unknown'],
    ['too few cells', `${head}A,L\n`, 'line 2', 'not-a-table'],
    ['an open quotation mark', `${head}A,"L,2028-01-01,1,\n`, 'line 2', 'not-a-table'],
    ['an empty file', '', 'line 1, column ref', 'column-missing'],
  ])('%s', (_, text, field, code) => {
    const read = readStockCsv(text, 'stock.csv');
    if (read.ok) throw new Error('should have been refused');
    expect([read.reason.file, read.reason.code]).toEqual(['stock.csv', code]);
    expect(read.reason.field).toBe(field);
    expect(read.reason.mend?.length).toBeGreaterThan(5);
  });

  test('lines are counted as in an editor, empty ones too; the faults of other lines are counted', () => {
    const read = readStockCsv(`${head}\n\nA,L,x,1,\nB,L,y,1,\n`, 's.csv');
    expect(read).toMatchObject({ ok: false, reason: { field: 'line 4, column expires' } });
    expect(!read.ok && read.reason.message).toContain('(and 1 more lines)');
  });
});

describe('KIT-14 the kit as CSV', () => {
  const worth = (ref: string, more: Partial<KitWorth> = {}): KitWorth => ({
    ref,
    name: `Set "${ref}", whole`,
    brought: true,
    owner: 'loan',
    trays: 2,
    cost: 360,
    adds: 0.12345,
    leadDays: 3,
    orderBy: '2026-12-08',
    late: false,
    failShare: null,
    ...more,
  });
  const room = { bring: ['A'], cost: 360, share: 0.99, uncovered: [] };

  test('what comes stands first; quotation marks, commas and what is not known survive', () => {
    const sets = [worth('C', { brought: false, owner: 'own-shelf', orderBy: null }), worth('A', { failShare: 0.02 })];
    const rows: Record<string, string>[] = parse(kitCsv({ ...room, sets }, demo), { columns: true });
    expect(rows.map((r) => [r.bring, r.ref, r.name, r.order_by, r.adds_percent, r.fail_percent, r.currency])).toEqual([
      ['yes', 'A', 'Set "A", whole', '2026-12-08', '12.35', '2.00', 'EUR'],
      ['no', 'C', 'Set "C", whole', '', '12.35', '', 'EUR'],
    ]);
  });

  test('a name that a spreadsheet would reckon with is kept as text', () => {
    expect(kitCsv({ ...room, sets: [worth('A', { name: '=1+1' })] }, demo)).toContain(",'=1+1,");
  });
});
