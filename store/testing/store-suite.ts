import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PlanRecord, Store } from '../src/port.ts';

/** A store under test, and a way past the port to its tables. */
export interface StoreUnderTest {
  readonly store: Store;
  /** Runs SQL on the same data by another connection. */
  sql(text: string): Promise<void>;
  /** Closes and opens the same data again. */
  reopen(): Promise<StoreUnderTest>;
  close(): Promise<void>;
}

const AT = '2026-01-02T03:04:05.000Z';
const LATER = '2026-01-02T03:04:06.000Z';

const newCase = (id: string): CaseFile => ({
  format: 'gapline-case',
  version: '1.0',
  id,
  title: 'Invented knee \u{1f9b5} Łódź',
  side: 'left',
  patient: { id: '0007' },
  films: [],
  marks: [],
});

const film = (id: string): CaseFilm => ({
  id,
  file: `${id}.dcm`,
  view: 'ap',
  side: 'left',
  role: 'present',
  scaleFacts: { volumetric: false, rows: 10, columns: 20, derived: false },
});

const setMcl = (value: string): Edit => ({ kind: 'set', field: '/examination/mcl', value });

const planOf = (caseId: string, id: string): PlanRecord => ({
  id,
  caseId,
  revision: 1,
  madeAt: AT,
  coreVersion: '0.1.0',
  sha256: 'f'.repeat(64),
  body: '{"plan":1}',
  caseBody: '{"case":1}',
  catalogueBody: null,
});

/** What every engine behind the port must do. The same for all. */
export function storeSuite(engine: string, open: () => Promise<StoreUnderTest>): void {
  describe(`store on ${engine}`, () => {
    let under: StoreUnderTest;
    beforeAll(async () => {
      under = await open();
    });
    afterAll(async () => under.close());
    const cases = () => under.store.cases;
    const change = (id: string, baseRevision: number, edit: Edit, label = '') =>
      cases().change(id, { baseRevision, edits: [edit], label, at: LATER });
    const mclOf = async (id: string) => (await cases().read(id))?.case.examination?.mcl;

    test('a case is kept as it was given', async () => {
      const made = await cases().create(newCase('kept'), AT);
      expect(made).toMatchObject({ ok: true, value: { revision: 1, undoLabel: null, redoLabel: null } });
      expect((await cases().read('kept'))?.case).toEqual(newCase('kept'));
      expect(await cases().read('absent')).toBeNull();
    });

    test('a second case of the same id is refused and the first is left alone', async () => {
      await cases().create(newCase('twice'), AT);
      const second = await cases().create({ ...newCase('twice'), title: 'Other' }, AT);
      expect(second).toMatchObject({ ok: false, reason: { code: 'case-exists', field: 'id' } });
      expect((await cases().read('twice'))?.case.title).toBe(newCase('twice').title);
    });

    test('the list tells title, films, revision and the last plan, newest change first', async () => {
      await cases().create(newCase('listed'), '2026-03-01T00:00:00.000Z');
      await cases().change('listed', {
        baseRevision: 1,
        edits: [{ kind: 'put-film', film: film('a') }],
        label: '',
        at: '2026-03-02T00:00:00.000Z',
      });
      await under.store.plans.append({ ...planOf('listed', 'plan-listed'), madeAt: '2026-03-03T00:00:00.000Z' });
      const [first] = await cases().list();
      expect(first).toEqual({
        id: 'listed',
        title: newCase('listed').title,
        side: 'left',
        invented: false,
        films: 1,
        revision: 2,
        changedAt: '2026-03-02T00:00:00.000Z',
        lastPlanAt: '2026-03-03T00:00:00.000Z',
      });
    });

    test('undo takes the last edit back, redo brings it again, and both survive closing', async () => {
      await cases().create(newCase('undo'), AT);
      await change('undo', 1, setMcl('intact'));
      await change('undo', 2, setMcl('absent'), 'Valgus stress');
      under = await under.reopen();
      const undone = await cases().undo('undo', { baseRevision: 3, at: LATER });
      expect(undone).toMatchObject({
        ok: true,
        value: { revision: 4, undoLabel: 'Medial collateral ligament set to intact', redoLabel: 'Valgus stress' },
      });
      expect(await mclOf('undo')).toBe('intact');
      await cases().undo('undo', { baseRevision: 4, at: LATER });
      expect((await cases().read('undo'))?.case).toEqual(newCase('undo'));
      under = await under.reopen();
      await cases().redo('undo', { baseRevision: 5, at: LATER });
      const redone = await cases().redo('undo', { baseRevision: 6, at: LATER });
      expect(redone).toMatchObject({ ok: true, value: { revision: 7, undoLabel: 'Valgus stress', redoLabel: null } });
      expect(await mclOf('undo')).toBe('absent');
    });

    test('a new edit after undo drops what could have been redone', async () => {
      await cases().create(newCase('drop'), AT);
      await change('drop', 1, setMcl('intact'));
      await cases().undo('drop', { baseRevision: 2, at: LATER });
      await change('drop', 3, setMcl('unknown'));
      expect(await cases().redo('drop', { baseRevision: 4, at: LATER })).toMatchObject({
        ok: false,
        reason: { code: 'nothing-to-redo' },
      });
      expect(await mclOf('drop')).toBe('unknown');
    });

    test('undo with nothing to undo says so', async () => {
      await cases().create(newCase('fresh'), AT);
      const undone = await cases().undo('fresh', { baseRevision: 1, at: LATER });
      expect(undone).toMatchObject({ ok: false, reason: { code: 'nothing-to-undo' } });
    });

    test('a change on an older revision is refused and changes nothing', async () => {
      await cases().create(newCase('stale'), AT);
      await change('stale', 1, setMcl('intact'));
      const late = await change('stale', 1, setMcl('absent'));
      expect(late).toMatchObject({ ok: false, reason: { code: 'revision-conflict', field: 'baseRevision' } });
      expect(await mclOf('stale')).toBe('intact');
      expect(await change('absent', 1, setMcl('absent'))).toMatchObject({
        ok: false,
        reason: { code: 'no-such-case' },
      });
    });

    test('of two changes at once on one revision exactly one wins', async () => {
      await cases().create(newCase('race'), AT);
      const both = await Promise.all([
        change('race', 1, setMcl('intact')),
        change('race', 1, setMcl('absent')),
        change('race', 1, setMcl('unknown')),
      ]);
      expect(both.filter((o) => o.ok)).toHaveLength(1);
      expect((await cases().read('race'))?.revision).toBe(2);
    });

    test('several edits are one step, and none is kept when one is refused', async () => {
      await cases().create(newCase('group'), AT);
      const edits: Edit[] = [setMcl('intact'), { kind: 'remove-film', film: 'none' }];
      const refused = await cases().change('group', { baseRevision: 1, edits, label: 'Two', at: LATER });
      expect(refused).toMatchObject({ ok: false, reason: { code: 'no-such-film' } });
      expect((await cases().read('group'))?.case).toEqual(newCase('group'));
      const two: Edit[] = [setMcl('intact'), { kind: 'put-film', film: film('a') }];
      await cases().change('group', { baseRevision: 1, edits: two, label: 'Two', at: LATER });
      await cases().undo('group', { baseRevision: 2, at: LATER });
      expect((await cases().read('group'))?.case).toEqual(newCase('group'));
    });

    test('every earlier revision can be read again', async () => {
      await cases().create(newCase('past'), AT);
      const seen: (CaseFile | undefined)[] = [undefined, newCase('past')];
      for (const [i, value] of ['intact', 'absent', 'attenuated'].entries()) {
        await change('past', i + 1, setMcl(value));
        seen.push((await cases().read('past'))?.case);
      }
      await cases().undo('past', { baseRevision: 4, at: LATER });
      for (let revision = 1; revision <= 4; revision += 1) {
        expect(await cases().readAt('past', revision)).toEqual(seen[revision]);
      }
      expect(await cases().readAt('past', 6)).toBeNull();
      expect((await cases().history('past')).map((h) => h.kind)).toEqual(['edit', 'edit', 'edit', 'undo']);
    });

    test('LM-11 each step keeps who made it, and what takes it back', async () => {
      await cases().create(newCase('who'), AT);
      await cases().change('who', { baseRevision: 1, edits: [setMcl('absent')], label: 'A', at: AT, by: 'Ada' });
      await cases().undo('who', { baseRevision: 2, at: LATER, by: 'Bo' });
      await cases().redo('who', { baseRevision: 3, at: LATER });
      const steps = await cases().history('who');
      expect(steps.map((s) => [s.kind, s.at, s.by])).toEqual([
        ['edit', AT, 'Ada'],
        ['undo', LATER, 'Bo'],
        ['redo', LATER, undefined],
      ]);
      expect(steps[0]?.inverse).toEqual(steps[1]?.edit);
    });

    test('plans are added and read, and there is no way to change or delete one', async () => {
      await cases().create(newCase('plans'), AT);
      await under.store.plans.append(planOf('plans', 'plan-1'));
      await under.store.plans.append({ ...planOf('plans', 'plan-2'), madeAt: LATER });
      expect((await under.store.plans.list('plans')).map((p) => p.id)).toEqual(['plan-2', 'plan-1']);
      expect(await under.store.plans.read('plan-1')).toEqual(planOf('plans', 'plan-1'));
      await expect(under.store.plans.append(planOf('plans', 'plan-1'))).rejects.toThrow();
      await expect(under.sql(`update plans set body = 'x' where id = 'plan-1'`)).rejects.toThrow(/append-only/);
      await expect(under.sql(`delete from plans where id = 'plan-1'`)).rejects.toThrow(/append-only/);
      await expect(under.sql(`update history set label = 'x'`)).rejects.toThrow(/append-only/);
      expect((await under.store.plans.read('plan-1'))?.body).toBe('{"plan":1}');
      expect(Object.keys(under.store.plans).sort()).toEqual(['append', 'list', 'read']);
    });

    test('a plan of no case is refused by the tables', async () => {
      await expect(under.store.plans.append(planOf('no-case', 'plan-x'))).rejects.toThrow();
    });

    test('a film is entered once, and the same picture under another header is found', async () => {
      const row = {
        sha256: 'a'.repeat(64),
        pixelsSha256: 'b'.repeat(64),
        file: 'knee.dcm',
        bytes: 10,
        importedAt: AT,
        about: { rows: 2, columns: 3, window: { low: 0, high: 9 }, least: 0, most: 9 },
      };
      await under.store.films.add(row);
      await under.store.films.add({ ...row, file: 'again.dcm' });
      expect(await under.store.films.read(row.sha256)).toEqual(row);
      expect((await under.store.films.samePicture(row.pixelsSha256))?.file).toBe('knee.dcm');
      expect(await under.store.films.samePicture('c'.repeat(64))).toBeNull();
    });

    test('a shipped list of sets is not replaced by an import, one of the user is', async () => {
      const put = (id: string, shipped: boolean, body: string) =>
        under.store.setLists.put({ id, name: id, catalogue: 'example', invented: shipped, shipped, body, at: AT });
      expect((await put('sets-shipped', true, '{"v":1}')).ok).toBe(true);
      expect(await put('sets-shipped', false, '{"v":9}')).toMatchObject({
        ok: false,
        reason: { code: 'set-list-is-shipped' },
      });
      await put('sets-own', false, '{"v":1}');
      await put('sets-own', false, '{"v":2}');
      expect(await under.store.setLists.read('sets-shipped')).toBe('{"v":1}');
      expect(await under.store.setLists.read('sets-own')).toBe('{"v":2}');
      expect(await under.store.setLists.read('sets-absent')).toBeNull();
      expect((await under.store.setLists.list()).map((l) => [l.id, l.catalogue, l.shipped])).toEqual([
        ['sets-own', 'example', false],
        ['sets-shipped', 'example', true],
      ]);
    });

    test('the newest stock counts', async () => {
      expect(await under.store.stock.newest()).toBeNull();
      await under.store.stock.put({ file: 'a.csv', importedAt: LATER, body: '[1]' });
      await under.store.stock.put({ file: 'b.csv', importedAt: AT, body: '[2]' });
      expect(await under.store.stock.newest()).toEqual({ file: 'b.csv', importedAt: AT, body: '[2]' });
    });

    test('only cases with something found are given to be learnt from', async () => {
      await cases().create({ ...newCase('learnt'), note: 'x "found":{ y' }, AT);
      expect((await cases().withFindings()).map((c) => c.id)).not.toContain('learnt');
      await change('learnt', 1, { kind: 'set', field: '/found/on', value: '2026-01-09' });
      expect((await cases().withFindings()).find((c) => c.id === 'learnt')?.found).toEqual({ on: '2026-01-09' });
    });

    test('a shipped catalogue is not replaced by an import, one of the user is', async () => {
      const put = (id: string, shipped: boolean, body: string) =>
        under.store.catalogues.put({ id, name: id, invented: shipped, shipped, body, at: AT });
      await put('shipped', true, '{"v":1}');
      await put('own', false, '{"v":1}');
      expect(await put('shipped', false, '{"v":9}')).toMatchObject({
        ok: false,
        reason: { code: 'catalogue-is-shipped' },
      });
      expect((await put('shipped', true, '{"v":2}')).ok).toBe(true);
      expect((await put('own', false, '{"v":2}')).ok).toBe(true);
      expect(await under.store.catalogues.read('shipped')).toBe('{"v":2}');
      expect(await under.store.catalogues.read('own')).toBe('{"v":2}');
      expect((await under.store.catalogues.list()).map((c) => [c.id, c.shipped])).toEqual([
        ['own', false],
        ['shipped', true],
      ]);
    });

    test('a session is open until it ends or is closed', async () => {
      const { sessions } = under.store;
      await sessions.open({ tokenHash: 'h1', openedAt: AT, endsAt: LATER });
      expect(await sessions.isOpen('h1', AT)).toBe(true);
      expect(await sessions.isOpen('h1', LATER)).toBe(false);
      await sessions.open({ tokenHash: 'h2', openedAt: LATER, endsAt: '2027-01-01T00:00:00.000Z' });
      await sessions.close('h2');
      expect(await sessions.isOpen('h2', LATER)).toBe(false);
    });

    test('data of a newer version is refused and left alone', async () => {
      await under.sql(
        `insert into kysely_migration (name, timestamp) values ('9999-from-the-future', '2099-01-01T00:00:00.000Z')`,
      );
      await expect(under.reopen()).rejects.toThrow(/newer version/);
      under = await open();
    });
  });
}
