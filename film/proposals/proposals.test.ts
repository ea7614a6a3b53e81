import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { crests, slopes } from './across-profile.ts';
import { edgeShare } from './blurred-edge.ts';
import { cortexPath } from './cortex-path.ts';
import { findBalls } from './find-balls.ts';
import { findComponents } from './find-components.ts';
import { fitHead } from './fit-head.ts';
import type { FilmPoint, GreyFilm } from './grey-film.ts';
import { ROUND_WALL } from './placed-wall.ts';
import { CONFIDENT, weighed } from './proposal.ts';
import { robustCircle } from './robust-circle.ts';
import { snapToEdge } from './snap-to-edge.ts';
import { hull, restingEdge } from './support.ts';
import { traceCanal } from './trace-canal.ts';

// Drawings with a formula of their own: each pixel is the share of it that lies inside, so that edges are known to a fraction of a pixel.

const at = (x: number, y: number): FilmPoint => ({ frame: 'film', x, y });

/** A film from a formula, with a little noise of a fixed pattern. */
function drawn(columns: number, rows: number, grey: (x: number, y: number) => number): GreyFilm {
  const pixels = new Uint16Array(columns * rows);
  for (let y = 0; y < rows; y++)
    for (let x = 0; x < columns; x++) {
      const noise = ((Math.imul(x * 7919 + y * 104729 + 12345, 2654435761) >>> 20) % 21) - 10;
      pixels[y * columns + x] = Math.max(0, Math.round(grey(x, y) + noise));
    }
  return { pixels, columns, rows };
}

/** How much of a pixel lies inside an edge `d` pixels away: 1 = wholly, 0 = not at all. */
const cover = (d: number): number => Math.min(1, Math.max(0, d + 0.5));

/** What a detector's logarithm makes of a mixture of two exposures. */
const mixed = (dark: number, bright: number, share: number, range = 4000): number => {
  const signal = (v: number) => Math.exp((-3.5 * v) / range);
  return (-range / 3.5) * Math.log((1 - share) * signal(dark) + share * signal(bright));
};

const withBall = (centre: FilmPoint, radius: number, more: (x: number, y: number) => number = () => 0): GreyFilm =>
  drawn(500, 700, (x, y) =>
    Math.max(mixed(200, 4000, cover(radius - Math.hypot(x - centre.x, y - centre.y))), more(x, y)),
  );

describe('PRO-1 a proposal says what it rests on', () => {
  test('the confidence is that of the weakest ground, which stands first', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 8 }), (holds) => {
        const trust = weighed(holds.map((h, i) => ({ says: `ground ${i}`, holds: h })));
        expect(trust.confidence).toBe(Math.min(...holds));
        expect(trust.restsOn[0]?.holds).toBe(trust.confidence);
        expect(trust.confident).toBe(trust.confidence >= CONFIDENT);
      }),
    );
    expect(weighed([]).confidence).toBe(0);
  });

  test('a film that does not match its size, a hint off the film and a scale of zero are refused by every proposal', () => {
    const film = withBall(at(250, 300), 40);
    const broken = { ...film, rows: 10 };
    const off = at(-5, 10);
    const answers = [
      findBalls(broken),
      findComponents(broken, { view: 'ap' }),
      fitHead(film, { near: off }),
      snapToEdge(film, { at: off }),
      traceCanal(film, { near: off, far: at(100, 100), mmPerPx: 0.2 }),
      traceCanal(film, { near: at(10, 10), far: at(100, 100), mmPerPx: 0 }),
      findBalls(film, { diameterMm: Number.NaN, detectorMmPerPx: 0.2 }),
    ];
    for (const a of answers) expect(a.ok ? 'proposed' : a.reason.mend?.length).toBeGreaterThan(0);
  });

  test('an even film gives reasons, never proposals', () => {
    const film: GreyFilm = { pixels: new Uint16Array(300 * 300).fill(700), rows: 300, columns: 300 };
    const codes = [
      findBalls(film),
      findComponents(film, { view: 'ap' }),
      fitHead(film, { near: at(150, 150) }),
      snapToEdge(film, { at: at(150, 150) }),
    ];
    expect(codes.map((a) => (a.ok ? '' : a.reason.code))).toEqual(['no-ball', 'no-components', 'no-head', 'no-edge']);
  });
});

describe('PRO-2 calibration ball', () => {
  test('a disc is found anywhere, its centre within 0.1 px and its radius within 0.3 px', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 80, max: 420, noNaN: true }),
        fc.double({ min: 80, max: 620, noNaN: true }),
        fc.double({ min: 16, max: 44, noNaN: true }),
        (x, y, r) => {
          const film = withBall(at(x, y), r);
          const found = findBalls(film, { diameterMm: 25, detectorMmPerPx: (1.15 * 12.5) / r });
          const ball = found.ok ? found.value[0] : undefined;
          expect(ball?.confident).toBe(true);
          expect(Math.hypot((ball?.centre.x ?? 0) - x, (ball?.centre.y ?? 0) - y)).toBeLessThan(0.1);
          expect(Math.abs((ball?.radiusPx ?? 0) - r)).toBeLessThan(0.3);
        },
      ),
      { numRuns: 5, seed: 5 },
    );
  });

  test('two discs alike are both offered and neither is confident; the diameter tells them apart', () => {
    const film = withBall(at(120, 200), 22, (x, y) => mixed(200, 4000, cover(34 - Math.hypot(x - 380, y - 500))));
    const found = findBalls(film);
    expect(found.ok && found.value.map((b) => Math.round(b.radiusPx)).sort()).toEqual([22, 34]);
    expect(found.ok && found.value.some((b) => b.confident)).toBe(false);
    const told = findBalls(film, { diameterMm: 20, detectorMmPerPx: 20 / (2 * 30) });
    expect(told.ok && told.value.map((b) => Math.round(b.radiusPx))).toEqual([34]);
    expect(told.ok && told.value[0]?.confident).toBe(true);
  });

  test('without its diameter a ball is offered and not confident: a coin looks the same', () => {
    const found = findBalls(withBall(at(250, 300), 30));
    expect(found.ok && found.value[0]?.radiusPx).toBeCloseTo(30, 0);
    expect(found.ok && found.value[0]?.confident).toBe(false);
    expect(found.ok && found.value[0]?.restsOn[0]?.says).toContain('size could not be judged');
  });

  test('a square is no ball', () => {
    const film = drawn(500, 700, (x, y) => (Math.abs(x - 200) < 30 && Math.abs(y - 300) < 30 ? 4000 : 200));
    const found = findBalls(film);
    expect(found.ok && found.value.some((b) => b.confident)).toBe(false);
  });
});

describe('PRO-3 femoral head', () => {
  /** A head of 75 px on a neck, a third of its outline gone. */
  const head = drawn(600, 600, (x, y) => {
    const round = cover(75 - Math.hypot(x - 300, y - 280));
    const neck = x > 300 && Math.abs(y - 280 - 0.8 * (x - 300)) < 55 ? 1 : 0;
    return 1500 + 500 * Math.max(round, neck);
  });

  test('the circle is found with a neck in its outline, and with a scale it is confident', () => {
    const found = fitHead(head, { near: at(280, 300), mmPerPx: 0.32 });
    expect(found.ok && Math.hypot(found.value.centre.x - 300, found.value.centre.y - 280)).toBeLessThan(1);
    expect(found.ok && Math.abs(found.value.radiusPx - 75)).toBeLessThan(1);
    expect(found.ok && found.value.confident).toBe(true);
  });

  test('without a scale its size cannot be judged, and it is not confident', () => {
    const found = fitHead(head, { near: at(280, 300) });
    expect(found.ok && found.value.confident).toBe(false);
    expect(found.ok && found.value.restsOn.some((g) => g.says.includes('no scale') && g.holds < CONFIDENT)).toBe(true);
  });
});

describe('PRO-4 edge', () => {
  test('the steepest place of a step is met within 0.15 px from wherever it is pressed within reach', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 95, max: 105, noNaN: true }),
        fc.double({ min: -6, max: 6, noNaN: true }),
        (edge, off) => {
          const film = drawn(200, 200, (x, y) => (y < 40 ? (x < 100 ? 0 : 4000) : mixed(1000, 1400, cover(x - edge))));
          const found = snapToEdge(film, { at: at(edge + off, 100), reachPx: 8 });
          expect(found.ok && Math.abs(found.value.at.x - edge)).toBeLessThan(0.15);
          expect(found.ok && found.value.towardsBright.x).toBeCloseTo(1, 1);
          expect(found.ok && found.value.kind).toBe('bone-soft-tissue');
        },
      ),
      { numRuns: 15, seed: 3 },
    );
  });

  test('an edge of metal is told by its height, or by the grey of metal where that is known', () => {
    const film = drawn(200, 200, (x) => (x < 100 ? 600 : 3900));
    const found = snapToEdge(film, { at: at(97, 100) });
    expect(found.ok && found.value.kind).toBe('metal-bone');
    const told = snapToEdge(film, { at: at(97, 100), metalFrom: 4000 });
    expect(told.ok && told.value.kind).toBe('bone-soft-tissue');
    const meant = snapToEdge(film, { at: at(97, 100), kind: 'bone-soft-tissue' });
    expect(found.ok && found.value.confident).toBe(true);
    expect(meant.ok && meant.value.confident).toBe(false);
  });

  test('two edges within reach leave no confidence', () => {
    const film = drawn(200, 200, (x) => (Math.abs(x - 100) < 5 ? 2000 : 1000));
    const found = snapToEdge(film, { at: at(100, 100), across: { x: 1, y: 0 }, reachPx: 12 });
    expect(found.ok && found.value.confident).toBe(false);
  });

  test('half the exposure passes half way up a faint edge and near the foot of a strong one', () => {
    expect(edgeShare(0)).toBe(0.5);
    expect(edgeShare(0.01)).toBeCloseTo(0.5, 2);
    expect(edgeShare(1)).toBeCloseTo(Math.log(2 / (1 + Math.exp(-3.5))) / 3.5, 12);
  });
});

describe('PRO-5 components', () => {
  /** Two condyles, a tray with a keel and a ball, drawn as seen from in front. */
  const knee = drawn(600, 800, (x, y) => {
    const condyle = (cx: number) => Math.hypot((x - cx) / 38, (y - 330) / 45) < 1;
    const bridge = Math.abs(x - 300) < 60 && y > 240 && y < 320;
    const tray = Math.abs(x - 300) < 85 && y > 410 && y < 420;
    const keel = Math.abs(x - 300) < 14 && y > 419 && y < 500;
    if (condyle(255) || condyle(345) || bridge || tray || keel) return 3900;
    if (Math.hypot(x - 90, y - 500) < 30) return 3900;
    return Math.abs(x - 300) < 70 ? 1800 : 700;
  });

  test('tangent, edges, tray line and stem are those of the drawing, within two pixels', () => {
    const found = findComponents(knee, { view: 'ap' });
    if (!found.ok) throw new Error(found.reason.message);
    const { femoral, tray } = found.value;
    expect(femoral.confident && tray.confident).toBe(true);
    for (const p of femoral.distalTangent ?? []) expect(Math.abs(p.y - 375)).toBeLessThan(1);
    expect(Math.abs(tray.line[0].x - 215.5) + Math.abs(tray.line[1].x - 384.5)).toBeLessThan(2);
    for (const p of tray.line) expect(Math.abs(p.y - 410.5)).toBeLessThan(2);
    expect(Math.abs((tray.stem?.tip.y ?? 0) - 499.5)).toBeLessThan(1);
    expect(Math.abs((tray.stem?.widthPx ?? 0) - 27)).toBeLessThan(1.5);
  });

  test('a film upside down is read with the foot upwards, and two screws are no components', () => {
    const turned = { ...knee, pixels: knee.pixels.toReversed() };
    const found = findComponents(turned, { view: 'ap', distally: { x: 0, y: -1 } });
    expect(found.ok && Math.abs((found.value.femoral.distalTangent?.[0].y ?? 0) - (799 - 375))).toBeLessThan(1);
    const screws = drawn(600, 800, (x, y) =>
      Math.abs(x - 300) < 60 && (Math.abs(y - 300) < 5 || Math.abs(y - 360) < 5) ? 3900 : 700,
    );
    expect(findComponents(screws, { view: 'ap' }).ok).toBe(false);
  });

  test('the hull holds every point, and its resting side faces the asked direction', () => {
    const coordinate = fc.integer({ min: -50, max: 50 });
    fc.assert(
      fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 3, maxLength: 40 }), (list) => {
        const points = list.map(([x, y]) => at(x, y));
        const corners = hull(points);
        for (const p of points)
          corners.forEach((a, i) => {
            const b = corners[(i + 1) % corners.length] ?? a;
            if ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x) < 0) throw new Error('a point lies outside');
          });
      }),
    );
    expect(
      restingEdge([at(0, 0), at(4, 10), at(16, 10), at(20, 0)], { x: 0, y: 1 })
        ?.map((p) => p.x)
        .sort((a, b) => a - b),
    ).toEqual([4, 16]);
  });
});

describe('PRO-6 cortices', () => {
  const [inner, outer] = [24, 46];
  /** A round tube in soft tissue, seen from the side: what a ray meets of its wall. */
  const tube = drawn(400, 700, (x, y) => {
    const d = Math.abs(x - 200 - 0.04 * (y - 350)) / Math.hypot(1, 0.04);
    const chord = (r: number) => (d < r ? 2 * Math.sqrt(r * r - d * d) : 0);
    // A corner of air and one of metal give the film its range of grey.
    if (y < 32) return x < 200 ? 0 : 5000;
    return 800 + 14 * (chord(outer) - chord(inner));
  });
  const found = traceCanal(tube, { near: at(195, 60), far: at(205, 640), mmPerPx: 0.3 });

  test('the walls of a round tube are met within half a pixel, and its width within one', () => {
    if (!found.ok) throw new Error(found.reason.message);
    expect(found.value.levels.length).toBeGreaterThan(10);
    for (const l of found.value.levels) {
      expect(l.trust.confident).toBe(true);
      expect(Math.abs(l.widthPx - 2 * inner)).toBeLessThan(1);
      expect(Math.abs(l.outerWidthPx - 2 * outer)).toBeLessThan(1);
    }
  });

  test('metal across a level takes its confidence and leaves that of the others', () => {
    const pixels = tube.pixels.map((v, i) =>
      Math.floor(i / 400) > 300 && Math.floor(i / 400) < 360 && i % 400 > 215 && i % 400 < 235 ? 4000 : v,
    );
    const answer = traceCanal({ ...tube, pixels }, { near: at(195, 60), far: at(205, 640), mmPerPx: 0.3 });
    if (!answer.ok) throw new Error(answer.reason.message);
    const touched = answer.value.levels.filter((l) => l.level.innerA.y > 305 && l.level.innerA.y < 355);
    expect(touched.length).toBeGreaterThan(0);
    expect(touched.some((l) => l.trust.confident)).toBe(false);
    expect(answer.value.levels.filter((l) => l.trust.confident).length).toBeGreaterThan(5);
  });

  test('a blur moves the steepest place of a square root 0.765 of its spread inwards', () => {
    const fine = 200;
    const root = Float64Array.from({ length: 4000 }, (_, i) => Math.sqrt(Math.max(0, i - 2000 + 0.5)));
    const top = crests(slopes(root, fine)).reduce((a, b) => (b.height > a.height ? b : a));
    expect(Math.abs((top.at - 2000) / fine - ROUND_WALL)).toBeLessThan(0.01);
  });

  test('the path is the best of all paths, tried one by one on small strips', () => {
    const worth = fc.array(fc.integer({ min: -3, max: 9 }), { minLength: 18, maxLength: 18 });
    fc.assert(
      fc.property(worth, worth, (a, b) => {
        const walls = { inner: Float32Array.from(a), outer: Float32Array.from(b), rows: 3, reach: 6 };
        const limits = { inner: { least: 0, most: 3 }, thickness: { least: 1, most: 3 }, stepCost: 1 };
        const states = [0, 1, 2, 3].flatMap((i) => [1, 2, 3].map((t) => [i, t] as const)).filter(([i, t]) => i + t < 6);
        let best = Number.NEGATIVE_INFINITY;
        const own = (row: number, [i, t]: readonly [number, number]) =>
          (a[row * 6 + i] ?? 0) + (b[row * 6 + i + t] ?? 0);
        for (const p of states)
          for (const q of states)
            for (const r of states) {
              const steps = [q[0] - p[0], q[1] - p[1], r[0] - q[0], r[1] - q[1]].map(Math.abs);
              if (steps.every((s) => s <= 2))
                best = Math.max(best, own(0, p) + own(1, q) + own(2, r) - steps.reduce((s, v) => s + v, 0));
            }
        expect(cortexPath(walls, limits)?.worth).toBeCloseTo(best, 5);
      }),
      { numRuns: 60 },
    );
  });
});

test('a circle is fitted past points that are not on it', () => {
  const on = Array.from({ length: 60 }, (_, k) => at(100 + 40 * Math.cos(k / 9.55), 80 + 40 * Math.sin(k / 9.55)));
  const stray = Array.from({ length: 20 }, (_, k) => at(130 + k, 60 + 2 * k));
  const fit = robustCircle([...on, ...stray], { centre: at(98, 82), radius: 42 }, 1);
  expect(Math.hypot((fit?.centre.x ?? 0) - 100, (fit?.centre.y ?? 0) - 80)).toBeLessThan(0.05);
});
