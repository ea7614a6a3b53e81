import { applyEdit } from '@gapline/core/plan/apply-edit.ts';
import { bareCase } from '@gapline/core/plan/bare-case.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { describe, expect, test } from 'vitest';
import type { CaseState, EditRequest } from '../../../server/src/contract.ts';
import { OutOfReach, Refused } from '../wire/api.ts';
import { type Pending, pendingOf, rebase } from './pending.ts';
import { type Outside, openSession } from './session.ts';

const CASE: CaseFile = { ...bareCase, id: 'c' };
const set = (field: string, value: unknown) => ({ kind: 'set', field, value }) as const;
const NO_UNDO = { canUndo: false, canRedo: false, undoLabel: null, redoLabel: null };

/** A server in a few lines: applies edits in order, refuses an old revision, and can be unplugged. */
function server() {
  let state: CaseState = { case: CASE, revision: 1, ...NO_UNDO };
  const kept: Pending[][] = [];
  const later: (() => void)[] = [];
  const self = {
    plugged: true,
    /** Applies the next request but loses its answer on the way. */
    loseAnswer: false,
    get state() {
      return state;
    },
    change(edit: ReturnType<typeof set>) {
      const next = applyEdit(state.case, edit);
      if (!next.ok) throw new Refused(400, { ...next.reason });
      state = { ...state, case: next.value, revision: state.revision + 1 };
    },
    kept,
    later,
    outside: null as unknown as Outside,
  };
  let ids = 0;
  self.outside = {
    async send(request: EditRequest) {
      if (!self.plugged) throw new OutOfReach();
      if (request.baseRevision !== state.revision) throw new Refused(409, { code: 'old', message: 'Old.' });
      for (const edit of request.edits) self.change(edit as ReturnType<typeof set>);
      if (self.loseAnswer) {
        self.loseAnswer = false;
        throw new OutOfReach();
      }
      return state;
    },
    undo: async () => state,
    redo: async () => state,
    reload: async () => {
      if (!self.plugged) throw new OutOfReach();
      return state;
    },
    keeper: { keep: (pending) => kept.push([...pending]), takeOver: async () => [] },
    newId: () => String(++ids),
    later: (what) => later.push(what),
  };
  return self;
}

describe('session of one case', () => {
  test('a change is shown at once, kept on the disk, and saved only after the answer', async () => {
    const s = server();
    const session = openSession(s.state, [], s.outside);
    session.commit([set('/title', 'New')], 'Title');
    expect(session.store.getState().shown.title).toBe('New');
    expect(session.store.getState().saving).toBe('saving');
    expect(s.kept.at(-1)).toHaveLength(1);
    expect(await session.settled()).toBe(true);
    expect(session.store.getState().saving).toBe('saved');
    expect(s.kept.at(-1)).toHaveLength(0);
    expect(s.state.case.title).toBe('New');
  });

  test('changes go to the server in the order in which they were made', async () => {
    const s = server();
    const session = openSession(s.state, [], s.outside);
    for (const title of ['A', 'B', 'C']) session.commit([set('/title', title)], title);
    await session.settled();
    expect(s.state.case.title).toBe('C');
    expect(s.state.revision).toBe(4);
  });

  test('without a server changes wait, and are sent when it answers again', async () => {
    const s = server();
    s.plugged = false;
    const session = openSession(s.state, [], s.outside);
    session.commit([set('/title', 'Offline')], 'Title');
    expect(await session.settled()).toBe(false);
    expect(session.store.getState().saving).toBe('out-of-reach');
    s.plugged = true;
    for (const what of s.later.splice(0)) what();
    expect(await session.settled()).toBe(true);
    expect(s.state.case.title).toBe('Offline');
  });

  test('an answer that was lost on the way is not made twice and raises no alarm', async () => {
    const s = server();
    s.loseAnswer = true;
    const session = openSession(s.state, [], s.outside);
    session.commit([set('/title', 'Once')], 'Title');
    await session.settled();
    session.retry();
    expect(await session.settled()).toBe(true);
    expect(s.state.revision).toBe(2);
    expect(session.store.getState().notice).toBeNull();
  });

  test('a change elsewhere to another field is kept beside ours', async () => {
    const s = server();
    const session = openSession(s.state, [], s.outside);
    s.change(set('/note', 'theirs'));
    session.commit([set('/title', 'ours')], 'Title');
    expect(await session.settled()).toBe(true);
    expect(s.state.case).toMatchObject({ note: 'theirs', title: 'ours' });
    expect(session.store.getState().notice).toContain('another window');
  });

  test('a change elsewhere to the same field wins, and ours is named', async () => {
    const s = server();
    const session = openSession(s.state, [], s.outside);
    s.change(set('/title', 'theirs'));
    session.commit([set('/title', 'ours')], 'Title set');
    await session.settled();
    expect(session.store.getState().shown.title).toBe('theirs');
    expect(session.store.getState().notice).toContain('Title set');
  });

  test('what the server refuses is taken back and said', async () => {
    const s = server();
    s.outside = {
      ...s.outside,
      send: async () => {
        throw new Refused(422, { code: 'no', message: 'Not so.', mend: 'Otherwise.' });
      },
    };
    const session = openSession(s.state, [], s.outside);
    session.commit([set('/title', 'refused')], 'Title');
    await session.settled();
    expect(session.store.getState().shown.title).toBe('Trial');
    expect(session.store.getState().notice).toBe('Not saved: Title. Not so. Otherwise.');
  });

  test('changes left by an earlier page are sent first', async () => {
    const s = server();
    const left = [pendingOf('x', CASE, { edits: [set('/title', 'Left over')], label: 'Title' })];
    const session = openSession(s.state, left, s.outside);
    expect(session.store.getState().shown.title).toBe('Left over');
    expect(await session.settled()).toBe(true);
    expect(s.state.case.title).toBe('Left over');
  });
});

describe('rebase', () => {
  test('a change that the case holds already is done, neither kept nor dropped', () => {
    const change = pendingOf('x', CASE, { edits: [set('/title', 'Done')], label: 'Title' });
    expect(rebase({ ...CASE, title: 'Done' }, [change])).toEqual({ kept: [], beside: [], dropped: [] });
  });

  test('of two changes in a row to one field both are kept', () => {
    const first = pendingOf('1', CASE, { edits: [set('/title', 'A')], label: 'A' });
    const second = pendingOf('2', { ...CASE, title: 'A' }, { edits: [set('/title', 'B')], label: 'B' });
    expect(rebase(CASE, [first, second]).kept).toEqual([first, second]);
  });
});
