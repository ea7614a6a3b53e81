import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { errorAt, inverse, type MarkedPair, mapped, register, type Similarity, type Spot } from './register.ts';

const spot = (x: number, y: number): Spot => ({ x, y });
const value = (pairs: readonly MarkedPair[]) => {
  const fit = register(pairs);
  if (!fit.ok) throw new Error(fit.reason.message);
  return fit.value;
};
const coordinate = fc.double({ min: -500, max: 500, noNaN: true });
const spots = (least: number) =>
  fc.array(fc.record({ x: coordinate, y: coordinate }), { minLength: least, maxLength: 8 });
const similarity = fc
  .record({
    scale: fc.double({ min: 0.2, max: 5, noNaN: true }),
    turn: fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }),
    dx: coordinate,
    dy: coordinate,
  })
  .map(({ scale, turn, dx, dy }): Similarity => ({ re: scale * Math.cos(turn), im: scale * Math.sin(turn), dx, dy }));
const spread = (all: readonly Spot[]) =>
  Math.max(...all.flatMap((a) => all.map((b) => Math.hypot(a.x - b.x, a.y - b.y))));
const cost = (s: Similarity, pairs: readonly MarkedPair[]) =>
  pairs.reduce((sum, p) => sum + Math.hypot(mapped(s, p.from).x - p.onto.x, mapped(s, p.from).y - p.onto.y) ** 2, 0);

describe('VIEW-2 registration of two films', () => {
  // Umeyama, IEEE Trans Pattern Anal Mach Intell 1991; 13:376: its numerical example, and its mean square error,
  // variance of the one less squared scale times variance of the other: both are 10/9 here.
  test('agrees with the worked example of the source', () => {
    const {
      similarity: s,
      scale,
      residuals,
    } = value([
      { from: spot(0, 0), onto: spot(0, 0) },
      { from: spot(1, 0), onto: spot(-1, 0) },
      { from: spot(0, 2), onto: spot(0, 2) },
    ]);
    expect(scale).toBeCloseTo(0.721, 3);
    expect(s.re / scale).toBeCloseTo(0.832, 3);
    expect(-s.im / scale).toBeCloseTo(0.555, 3);
    expect(s.dx).toBeCloseTo(-0.8, 3);
    expect(s.dy).toBeCloseTo(0.4, 3);
    expect(residuals.reduce((sum, r) => sum + r * r, 0) / 3).toBeCloseTo(10 / 9 - (scale * scale * 10) / 9, 9);
  });

  test('finds the similarity that points were moved by, without residual', () => {
    fc.assert(
      fc.property(spots(3), similarity, (from, moved) => {
        fc.pre(spread(from) > 1);
        const fit = value(from.map((p) => ({ from: p, onto: mapped(moved, p) })));
        for (const key of ['re', 'im'] as const) expect(fit.similarity[key]).toBeCloseTo(moved[key], 7);
        expect(fit.rms).toBeLessThan(1e-7);
      }),
    );
  });

  test('no other similarity near it brings the points nearer', () => {
    fc.assert(
      fc.property(spots(3), spots(3), fc.integer({ min: 0, max: 3 }), (from, onto, which) => {
        const pairs = from.flatMap((p, i) => (onto[i] ? [{ from: p, onto: onto[i] }] : []));
        const fit = register(pairs);
        if (!fit.ok) return;
        const s = fit.value.similarity;
        const key = (['re', 'im', 'dx', 'dy'] as const)[which] ?? 're';
        const best = cost(s, pairs);
        const slack = 1e-9 * (1 + best);
        for (const by of [1e-3, -1e-3]) expect(cost({ ...s, [key]: s[key] + by }, pairs)).toBeGreaterThan(best - slack);
      }),
    );
  });

  test('there and back is where it was', () => {
    fc.assert(
      fc.property(similarity, coordinate, coordinate, (s, x, y) => {
        const back = mapped(inverse(s), mapped(s, spot(x, y)));
        expect(Math.hypot(back.x - x, back.y - y)).toBeLessThan(1e-7);
      }),
    );
  });

  test('points in one place, and too few, are refused', () => {
    const here = { from: spot(3, 4), onto: spot(1, 2) };
    expect(register([here, here])).toMatchObject({ ok: false, reason: { code: 'too-few-points' } });
    expect(register([here, here, here])).toMatchObject({ ok: false, reason: { code: 'points-coincide' } });
  });

  // Drawn: points marked again and again with a known spread; the spread of where a far place lands is the formula's.
  test('the stated error of a far place is the spread that marking gives it', () => {
    const from = [spot(0, 0), spot(60, 10), spot(20, 50)];
    const far = spot(150, -80);
    let seed = 7;
    const uniform = () => {
      seed = (seed * 48271) % 2147483647;
      return seed / 2147483647;
    };
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const places = Array.from({ length: 4000 }, () =>
      mapped(
        value(from.map((p) => ({ from: p, onto: spot(p.x + 0.5 * normal(), p.y + 0.5 * normal()) }))).similarity,
        far,
      ),
    );
    const seen = Math.sqrt(places.reduce((sum, p) => sum + (p.x - far.x) ** 2 + (p.y - far.y) ** 2, 0) / 8000);
    const told = errorAt(value(from.map((p) => ({ from: p, onto: p }))), far, 0.5);
    expect(seen / told).toBeGreaterThan(0.96);
    expect(seen / told).toBeLessThan(1.04);
  });
});
