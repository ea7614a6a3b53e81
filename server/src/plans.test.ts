import { readFileSync } from 'node:fs';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { startPostgresql } from '@gapline/store/testing/postgresql-server.ts';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { jsonOf, type WorkbenchUnderTest, workbenchUnderTest } from '../testing/workbench-under-test.ts';
import type { CaseState, CatalogueSummary, ErrorBody, ImportedFile, PlanBody, SavedPlan } from './contract.ts';

const example = JSON.parse(readFileSync(new URL('../../catalogues/demo.json', import.meta.url), 'utf8')) as Catalogue;
const ctFilm = readFileSync(new URL('../../film/testdata/pydicom/CT_small.dcm', import.meta.url));
const errorOf = async (answer: Promise<Response>) => {
  const got = await answer;
  return { status: got.status, ...(await jsonOf<ErrorBody>(got)).error };
};

let bench: WorkbenchUnderTest;
beforeAll(async () => {
  bench = await workbenchUnderTest();
});
afterAll(async () => {
  await bench.close();
  expect(bench.faults).toEqual([]);
});

const newCase = async (more: object = {}) =>
  jsonOf<CaseState>(bench.post('/api/cases', { title: 'Planned', side: 'left', films: [], ...more }));

describe('catalogues', () => {
  test('a catalogue of one’s own is imported, listed and read back', async () => {
    const own = { ...example, id: 'own', name: 'Own system' };
    const answer = await bench.post('/api/catalogues', own);
    expect(answer.status).toBe(201);
    expect(await jsonOf(answer)).toEqual({ id: 'own', name: 'Own system', invented: true });
    const list = await jsonOf<CatalogueSummary[]>(bench.get('/api/catalogues'));
    expect(list.map((c) => c.id)).toContain('own');
    expect(await jsonOf(bench.get('/api/catalogues/own'))).toEqual(own);
  });

  test('one with a broken reference or without its form is refused by field', async () => {
    const { femurs, ...rest } = example;
    expect(await errorOf(bench.post('/api/catalogues', { ...rest, id: 'bad' }))).toMatchObject({
      status: 422,
      code: 'catalogue-refused',
      field: expect.stringContaining('femurs'),
      mend: expect.any(String),
    });
    const twice = { ...example, id: 'bad', femurs: [...femurs, ...femurs] };
    expect(await errorOf(bench.post('/api/catalogues', twice))).toMatchObject({ code: 'catalogue-refused' });
    expect(await errorOf(bench.post('/api/catalogues', null))).toMatchObject({ status: 422 });
    expect(await errorOf(bench.post('/api/catalogues', { csv: { 'femurs.csv': 'x' } }))).toMatchObject({
      code: 'catalogue-refused',
      mend: expect.any(String),
    });
    expect((await jsonOf<CatalogueSummary[]>(bench.get('/api/catalogues'))).map((c) => c.id)).not.toContain('bad');
  });

  test('the shipped one cannot be replaced', async () => {
    await bench.running.bench.store.catalogues.put({
      id: example.id,
      name: example.name,
      invented: true,
      shipped: true,
      body: JSON.stringify(example),
      at: '2026-01-01T00:00:00.000Z',
    });
    expect(await errorOf(bench.post('/api/catalogues', { ...example, name: 'Other' }))).toMatchObject({
      status: 409,
      code: 'catalogue-is-shipped',
    });
  });
});

describe('plans', () => {
  test('a plan is computed from the saved case, the same case gives the same plan', async () => {
    const { case: file } = await newCase();
    const answer = await bench.post(`/api/cases/${file.id}/plans`, {});
    expect(answer.status).toBe(201);
    const first = await jsonOf<SavedPlan>(answer);
    const second = await jsonOf<SavedPlan>(bench.post(`/api/cases/${file.id}/plans`, {}));
    expect(second.sha256).toBe(first.sha256);
    expect(second.id).not.toBe(first.id);
    const list = await jsonOf<SavedPlan[]>(bench.get(`/api/cases/${file.id}/plans`));
    expect(list.map((p) => p.id).sort()).toEqual([first.id, second.id].sort());
    const plan = await jsonOf<PlanBody>(bench.get(`/api/plans/${first.id}`));
    expect(plan).toMatchObject({ format: 'gapline-plan', caseId: file.id, construct: { kind: 'not-attempted' } });
  });

  test('a plan stays as it was made when the case changes after it, and its sheet too', async () => {
    const [imported] = await jsonOf<ImportedFile[]>(
      bench.upload('/api/imports', [{ name: 'CT_small.dcm', bytes: ctFilm }]),
    );
    if (!imported?.accepted) throw new Error('the film was refused');
    const { case: file } = await newCase({ films: [imported.film], catalogue: example.id });
    const made = await jsonOf<SavedPlan>(bench.post(`/api/cases/${file.id}/plans`, {}));
    const before = await (await bench.get(`/api/plans/${made.id}`)).text();
    const sheet = Buffer.from(await (await bench.get(`/api/plans/${made.id}/sheet.pdf`)).arrayBuffer());
    const edits = [
      { kind: 'remove-film', film: imported.film.id },
      { kind: 'set', field: '/title', value: 'Renamed' },
    ];
    await bench.post(`/api/cases/${file.id}/edits`, { baseRevision: 1, edits, label: '' });
    expect(await (await bench.get(`/api/plans/${made.id}`)).text()).toBe(before);
    const again = await bench.get(`/api/plans/${made.id}/sheet.pdf`);
    expect(again.headers.get('content-type')).toBe('application/pdf');
    expect(Buffer.from(await again.arrayBuffer()).equals(sheet)).toBe(true);
    const later = await jsonOf<SavedPlan>(bench.post(`/api/cases/${file.id}/plans`, {}));
    expect(later.revision).toBe(2);
  });

  test('there is no way to change or delete a plan', async () => {
    const { case: file } = await newCase();
    const made = await jsonOf<SavedPlan>(bench.post(`/api/cases/${file.id}/plans`, {}));
    for (const method of ['DELETE', 'PUT', 'PATCH']) {
      const answer = await fetch(`${bench.base}/api/plans/${made.id}`, {
        method,
        headers: { cookie: bench.cookie, origin: bench.base },
      });
      expect(answer.status).toBe(404);
    }
    expect((await bench.get(`/api/plans/${made.id}`)).status).toBe(200);
  });

  test('a case that names a catalogue which is not here cannot be planned', async () => {
    const { case: file } = await newCase({ catalogue: 'lost' });
    expect(await errorOf(bench.post(`/api/cases/${file.id}/plans`, {}))).toMatchObject({
      status: 404,
      code: 'no-such-catalogue',
      message: expect.stringContaining('lost'),
      field: 'catalogue',
    });
    expect(await errorOf(bench.post('/api/cases/none/plans', {}))).toMatchObject({ code: 'no-such-case' });
  });
});

describe('the server on PostgreSQL', () => {
  test('does the whole thread as well', async () => {
    const database = await startPostgresql();
    const on = await workbenchUnderTest({ databaseUrl: database.url });
    expect(await jsonOf(on.get('/api/about'))).toMatchObject({ storage: 'postgresql' });
    const { case: file } = await jsonOf<CaseState>(on.post('/api/cases', { title: 'On it', side: 'right', films: [] }));
    const edits = [{ kind: 'set', field: '/note', value: 'kept' }];
    await on.post(`/api/cases/${file.id}/edits`, { baseRevision: 1, edits, label: '' });
    const undone = await jsonOf<CaseState>(on.post(`/api/cases/${file.id}/undo`, { baseRevision: 2 }));
    expect(undone).toMatchObject({ revision: 3, redoLabel: 'Note set to kept' });
    expect((await on.post(`/api/cases/${file.id}/plans`, {})).status).toBe(201);
    expect(on.faults).toEqual([]);
    await database.stop();
    expect(await errorOf(on.get('/api/cases'))).toMatchObject({ status: 503, code: 'storage-unreachable' });
    await on.close();
  });
});
