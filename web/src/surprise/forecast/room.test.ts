import type { SetList } from '@gapline/core/kit/set-list.ts';
import { describe, expect, test } from 'vitest';
import { createStore } from 'zustand/vanilla';
import type { SessionState } from '../../case/session.ts';
import { OutOfReach } from '../../wire/api.ts';
import { openRoom, type Shelf } from './room.ts';

const list = (id: string): SetList => ({
  format: 'gapline-sets',
  version: '1.0',
  id,
  name: id,
  catalogue: 'example',
  invented: true,
  currency: 'EUR',
  trayCost: 50,
  sets: [],
});

const session = (setList?: string) =>
  createStore<SessionState>(() => ({ shown: { ...(setList ? { kit: { setList } } : {}) } }) as SessionState);
const shelf = (change: Partial<Shelf> = {}): Shelf => ({
  lists: async () => [],
  list: async (id) => list(id),
  stock: async () => null,
  ...change,
});
const settled = () => new Promise((done) => setTimeout(done, 0));

describe('what can be in the room', () => {
  test('a case that names no list is ready without one', async () => {
    const room = openRoom(session(), shelf());
    await settled();
    expect(room.store.getState()).toMatchObject({ setList: null, ready: true, fault: null });
  });

  test('another list is fetched when the case names another; the last one named counts', async () => {
    const slow: (() => void)[] = [];
    const of = session('first');
    const room = openRoom(of, shelf({ list: (id) => new Promise((done) => slow.push(() => done(list(id)))) }));
    of.setState({ shown: { kit: { setList: 'second' } } } as SessionState);
    slow[1]?.();
    await settled();
    slow[0]?.();
    await settled();
    expect(room.store.getState()).toMatchObject({ ready: true, setList: { id: 'second' } });
  });

  test('a list that is not to be had is said, and keeps nothing waiting', async () => {
    const room = openRoom(session('gone'), shelf({ list: () => Promise.reject(new OutOfReach()) }));
    await settled();
    expect(room.store.getState()).toMatchObject({ ready: true, setList: null });
    expect(room.store.getState().fault).toContain('does not answer');
  });
});
