import { describe, expect, test } from 'vitest';
import { type KeyPress, keyWish } from './keys.ts';

const press = (key: string, more: Partial<KeyPress> = {}): KeyPress => ({
  key,
  shift: false,
  alt: false,
  ctrl: false,
  ...more,
});

describe('keys on the film', () => {
  test('arrow keys nudge a selected point by 1, with Shift by 10, with Alt by 0.1 film pixels', () => {
    expect(keyWish(press('ArrowRight'), 'point')).toEqual({ kind: 'nudge', dx: 1, dy: 0 });
    expect(keyWish(press('ArrowUp', { shift: true }), 'point')).toEqual({ kind: 'nudge', dx: 0, dy: -10 });
    expect(keyWish(press('ArrowLeft', { alt: true }), 'point')).toEqual({ kind: 'nudge', dx: -0.1, dy: 0 });
  });

  test('without a point they move the film against the arrow, while placing the crosshair with it', () => {
    expect(keyWish(press('ArrowRight'), 'film')).toEqual({ kind: 'pan', dx: -60, dy: 0 });
    expect(keyWish(press('ArrowRight'), 'crosshair')).toEqual({ kind: 'crosshair', dx: 12, dy: 0 });
  });

  test('letters work in either case, with Ctrl they are left to the page', () => {
    expect(keyWish(press('I'), 'film')).toEqual({ kind: 'invert' });
    expect(keyWish(press('i'), 'film')).toEqual({ kind: 'invert' });
    expect(keyWish(press('i', { ctrl: true }), 'film')).toBeNull();
    expect(keyWish(press('c'), 'crosshair')).toEqual({ kind: 'close' });
    expect(keyWish(press('Tab'), 'film')).toBeNull();
  });

  test('T turns by a quarter and with Shift back, Q and E by one degree, with Shift by five', () => {
    expect(keyWish(press('t'), 'film')).toEqual({ kind: 'turn', deg: 90 });
    expect(keyWish(press('T', { shift: true }), 'film')).toEqual({ kind: 'turn', deg: -90 });
    expect(keyWish(press('q'), 'film')).toEqual({ kind: 'turn', deg: -1 });
    expect(keyWish(press('E', { shift: true }), 'point')).toEqual({ kind: 'turn', deg: 5 });
  });
});
