import { describe, expect, test } from 'vitest';
import { type Wheel, wheelWish } from './wheel.ts';

const wheel = (more: Partial<Wheel>): Wheel => ({
  dx: 0,
  dy: 0,
  at: { x: 5, y: 6 },
  shift: false,
  alt: false,
  ctrl: false,
  ...more,
});

describe('wheel over the film', () => {
  test('zooms about the pointer, and as far back by the same turn', () => {
    const [out, back] = [wheelWish(wheel({ dy: 100 }), false), wheelWish(wheel({ dy: -100 }), false)];
    expect(out).toMatchObject({ kind: 'zoom', at: { x: 5, y: 6 } });
    expect(out.kind === 'zoom' && back.kind === 'zoom' && out.factor * back.factor).toBeCloseTo(1, 12);
    expect(out.kind === 'zoom' && out.factor).toBeLessThan(1);
  });

  test('with Shift the film moves, also where the system turns the wheel sideways', () => {
    expect(wheelWish(wheel({ dy: 40, shift: true }), false)).toEqual({ kind: 'pan', dx: -0, dy: -40 });
    expect(wheelWish(wheel({ dx: 40, shift: true }), false)).toEqual({ kind: 'pan', dx: -40, dy: 0 });
  });

  test('with Alt or in grey mode sets brightness, with Shift contrast', () => {
    expect(wheelWish(wheel({ dy: 40, alt: true }), false)).toEqual({ kind: 'window', dx: 0, dy: 10 });
    expect(wheelWish(wheel({ dy: 40 }), true)).toEqual({ kind: 'window', dx: 0, dy: 10 });
    expect(wheelWish(wheel({ dx: 40, shift: true }), true)).toEqual({ kind: 'window', dx: 10, dy: 0 });
  });

  test('a pinch on a touch pad zooms in finer steps than a wheel would', () => {
    const pinch = wheelWish(wheel({ dy: -4, ctrl: true }), false);
    expect(pinch.kind === 'zoom' && pinch.factor).toBeCloseTo(Math.exp(0.04), 12);
  });
});
