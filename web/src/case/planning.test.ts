import { bareCase } from '@gapline/core/plan/bare-case.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { CaseState } from '../../../server/src/contract.ts';
import { openPlanning } from './planning.ts';
import { type Outside, openSession } from './session.ts';

const CASE: CaseFile = { ...bareCase, id: 'c' };
const state = (file: CaseFile, revision: number): CaseState => ({
  case: file,
  revision,
  canUndo: false,
  canRedo: false,
  undoLabel: null,
  redoLabel: null,
});

/** A session whose server never answers: everything stays as the page shows it. */
function silentSession() {
  const never = () => new Promise<never>(() => {});
  const outside: Outside = {
    send: never,
    undo: never,
    redo: never,
    reload: never,
    keeper: { keep: () => {}, takeOver: async () => [] },
    newId: () => 'p',
    later: () => {},
  };
  return openSession(state(CASE, 1), [], outside);
}

let frames: (() => void)[] = [];
vi.stubGlobal('requestAnimationFrame', (frame: () => void) => frames.push(frame));
vi.stubGlobal('cancelAnimationFrame', () => {});
const nextFrame = () => {
  const due = frames;
  frames = [];
  for (const frame of due) frame();
};
afterEach(() => {
  frames = [];
});

const alignment = (value: string) => [{ kind: 'set', field: '/settings/targetAlignment', value }] as const;
const noCatalogue = async () => {
  throw new Error('none');
};

describe('planning beside the case', () => {
  test('several changes within one frame make one plan', () => {
    const session = silentSession();
    const planning = openPlanning(session, null, noCatalogue);
    const first = planning.store.getState().plan;
    session.draft(alignment('neutral'), 'a');
    session.draft(alignment('constitutional'), 'b');
    expect(frames).toHaveLength(1);
    expect(planning.store.getState().plan).toBe(first);
    nextFrame();
    expect(planning.store.getState().of.settings?.targetAlignment).toBe('constitutional');
  });

  test('a drag settles only when it is let go, and what did not change keeps its identity', () => {
    const session = silentSession();
    const planning = openPlanning(session, null, noCatalogue);
    const before = planning.store.getState();
    session.draft(alignment('constitutional'), 'Alignment');
    nextFrame();
    const during = planning.store.getState();
    expect(during.plan).not.toBe(before.plan);
    expect(during.plan.measurements).toBe(before.plan.measurements);
    expect(during.settled.plan).toBe(before.plan);
    session.commitDraft();
    nextFrame();
    expect(planning.store.getState().settled.plan).toBe(during.plan);
  });

  test('a field that the plan does not read, typed letter by letter, settles the case once it is taken', () => {
    const session = silentSession();
    const planning = openPlanning(session, null, noCatalogue);
    session.draft([{ kind: 'set', field: '/forecast/draws', value: 500 }], 'Draws');
    nextFrame();
    expect(planning.store.getState().settled.of.forecast).toBeUndefined();
    session.commitDraft();
    nextFrame();
    expect(planning.store.getState().settled.of.forecast).toEqual({ draws: 500 });
  });

  test('a note or title that no plan reads is not told as a change of measurements', () => {
    const session = silentSession();
    const planning = openPlanning(session, null, noCatalogue);
    session.commit([{ kind: 'set', field: '/note', value: 'x' }], 'Note set');
    nextFrame();
    expect(planning.store.getState().changes).toEqual({ label: 'Note set', lines: [], why: null });
  });
});
