import { readFileSync } from 'node:fs';
import type { SetList } from '@gapline/core/kit/set-list.ts';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { uncertainSquareKnee } from '../../cases/uncertain-knee.ts';
import { jsonOf, type WorkbenchUnderTest, workbenchUnderTest } from '../testing/workbench-under-test.ts';
import type { ErrorBody, LearntCase, SetListSummary, StockBody } from './contract.ts';

const read = (path: string) => readFileSync(new URL(path, import.meta.url), 'utf8');
const example = JSON.parse(read('../../kits/demo.json')) as SetList;
const stock = read('../../kits/demo-stock.csv');
const catalogue = read('../../catalogues/demo.json');
const AT = '2026-01-01T00:00:00.000Z';
const errorOf = async (answer: Promise<Response>) => {
  const got = await answer;
  return { status: got.status, ...(await jsonOf<ErrorBody>(got)).error };
};

let bench: WorkbenchUnderTest;
beforeAll(async () => {
  bench = await workbenchUnderTest();
  const { store } = bench.running.bench;
  await store.catalogues.put({
    id: 'example',
    name: 'Example',
    invented: true,
    shipped: true,
    body: catalogue,
    at: AT,
  });
  await store.cases.create(uncertainSquareKnee(), AT);
});
afterAll(async () => {
  await bench.close();
  expect(bench.faults).toEqual([]);
});

describe('sets of a hospital', () => {
  test('a list is imported, listed and read back; a broken one changes nothing', async () => {
    const answer = await bench.post('/api/set-lists', example);
    expect(answer.status).toBe(201);
    const row = { id: example.id, name: example.name, catalogue: 'example', invented: true };
    expect(await jsonOf(answer)).toEqual(row);
    expect(await jsonOf<SetListSummary[]>(bench.get('/api/set-lists'))).toEqual([row]);
    expect(await jsonOf(bench.get(`/api/set-lists/${example.id}`))).toEqual(example);
    const [head, ...rest] = example.sets;
    const broken = { ...example, sets: [{ ...head, trays: -1 }, ...rest] };
    expect(await errorOf(bench.post('/api/set-lists', broken))).toMatchObject({
      status: 422,
      code: 'set-list-refused',
      field: expect.stringContaining('trays'),
      mend: expect.any(String),
    });
    expect(await jsonOf(bench.get(`/api/set-lists/${example.id}`))).toEqual(example);
    expect(await errorOf(bench.get('/api/set-lists/none'))).toMatchObject({ status: 404, code: 'no-such-set-list' });
  });

  test('a shipped list cannot be replaced', async () => {
    const row = { id: 'shipped', name: 'S', catalogue: 'example', invented: true, shipped: true };
    await bench.running.bench.store.setLists.put({ ...row, body: JSON.stringify(example), at: AT });
    expect(await errorOf(bench.post('/api/set-lists', { ...example, id: 'shipped' }))).toMatchObject({
      status: 409,
      code: 'set-list-is-shipped',
    });
  });
});

describe('stock', () => {
  test('none at first; an import stands in for the one before; a refused one changes nothing', async () => {
    expect(await jsonOf(bench.get('/api/stock'))).toBeNull();
    const answer = await bench.post('/api/stock', { name: 'shelf.csv', csv: stock });
    expect(answer.status).toBe(201);
    const kept = await jsonOf<StockBody>(answer);
    expect(kept.from).toBe('shelf.csv');
    expect(kept.items.length).toBeGreaterThan(5);
    const refused = await errorOf(bench.post('/api/stock', { name: 'bad.csv', csv: 'ref,lot\nA,1\n' }));
    expect(refused).toMatchObject({ status: 422, code: 'stock-refused', mend: expect.any(String) });
    expect(await jsonOf(bench.get('/api/stock'))).toEqual(kept);
    expect(await errorOf(bench.post('/api/stock', { csv: 'x' }))).toMatchObject({
      status: 400,
      code: 'body-not-valid',
    });
  });
});

describe('the kit list of a saved case', () => {
  const list = (kind: string, body: object) => bench.post(`/api/cases/uncertain-knee/kit-list.${kind}`, body);

  test('as a table and on paper, with the sets that are asked for', async () => {
    const csv = await list('csv', { bring: ['F-MID', 'T-MID', 'I-MID', 'S-PRESS', 'X-REMOVE'] });
    expect(csv.headers.get('content-type')).toContain('text/csv');
    const rows = (await csv.text()).split('\r\n').filter((row) => row.startsWith('yes,'));
    expect(rows.map((row) => row.split(',')[1])).toEqual(['F-MID', 'T-MID', 'I-MID', 'S-PRESS', 'X-REMOVE']);
    const pdf = await list('pdf', {});
    expect(pdf.headers.get('content-type')).toBe('application/pdf');
    expect(
      Buffer.from(await pdf.arrayBuffer())
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
  });

  test('refused with its reason where sets are not chosen; unknown cases and kinds are told', async () => {
    const { kit: _, ...bare } = uncertainSquareKnee();
    await bench.running.bench.store.cases.create({ ...bare, id: 'bare' }, AT);
    expect(await errorOf(bench.post('/api/cases/bare/kit-list.pdf', {}))).toMatchObject({
      status: 422,
      code: 'kit-refused',
      field: 'kit.setList',
    });
    expect(await errorOf(bench.post('/api/cases/none/kit-list.csv', {}))).toMatchObject({ code: 'no-such-case' });
    expect(await errorOf(list('csv', { bring: [1] }))).toMatchObject({ status: 400, code: 'body-not-valid' });
  });
});

describe('learning', () => {
  test('gives what was forecast and found, of the cases in which it was noted', async () => {
    expect(await jsonOf(bench.get('/api/learning'))).toEqual([]);
    const edits = [{ kind: 'set', field: '/found', value: { on: '2026-06-15', tibiaClass: '2B', fracture: false } }];
    const change = await bench.post('/api/cases/uncertain-knee/edits', { baseRevision: 1, edits, label: 'Found' });
    expect(change.status).toBe(200);
    expect(await jsonOf<LearntCase[]>(bench.get('/api/learning'))).toEqual([
      {
        id: 'uncertain-knee',
        title: 'Uncertain knee, worked by hand',
        found: { on: '2026-06-15', tibiaClass: '2B', fracture: false },
      },
    ]);
  });
});
