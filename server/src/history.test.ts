import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { jsonOf, type WorkbenchUnderTest, workbenchUnderTest } from '../testing/workbench-under-test.ts';
import type { CaseState, ErrorBody, HistoryLine } from './contract.ts';

let bench: WorkbenchUnderTest;
beforeAll(async () => {
  bench = await workbenchUnderTest();
});
afterAll(async () => {
  await bench.close();
  expect(bench.faults).toEqual([]);
});

describe('LM-11 history of a case over the wire', () => {
  test('LM-11 every step says when, by whom and what it did to which mark, undo and redo too', async () => {
    const { case: made } = await jsonOf<CaseState>(
      bench.post('/api/cases', { title: 'Invented knee', side: 'left', films: [] }),
    );
    const at = `/api/cases/${made.id}`;
    const edits = [{ kind: 'set', field: '/note', value: 'seen' }];
    expect((await bench.post(`${at}/edits`, { baseRevision: 1, edits, label: 'Note', by: 'Ada' })).status).toBe(200);
    expect((await bench.post(`${at}/undo`, { baseRevision: 2, by: 'Bo' })).status).toBe(200);
    expect((await bench.post(`${at}/redo`, { baseRevision: 3 })).status).toBe(200);
    const lines = await jsonOf<HistoryLine[]>(bench.get(`${at}/history`));
    expect(lines.map((l) => [l.revision, l.kind, l.label, l.by, l.marks])).toEqual([
      [2, 'edit', 'Note', 'Ada', []],
      [3, 'undo', 'Note', 'Bo', []],
      [4, 'redo', 'Note', undefined, []],
    ]);
    for (const line of lines) expect(line.at).toMatch(/^\d{4}-\d{2}-\d{2}T/);
  });

  test('a case that is not there has no history, and an empty name is refused', async () => {
    const { error } = await jsonOf<ErrorBody>(bench.get('/api/cases/nobody/history'));
    expect(error.code).toBe('no-such-case');
    const { case: made } = await jsonOf<CaseState>(
      bench.post('/api/cases', { title: 'Invented knee', side: 'left', films: [] }),
    );
    const edits = [{ kind: 'set', field: '/note', value: 'x' }];
    const body = { baseRevision: 1, edits, label: 'Note', by: '' };
    expect((await bench.post(`/api/cases/${made.id}/edits`, body)).status).toBe(400);
  });
});
