import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { onFilm, squareKnee } from '../../cases/square-knee.ts';
import type { CanalLevel, CanalTrace } from '../stems/canal-trace.ts';
import { calibrateFilms } from './calibrate-films.ts';
import { bestTrace } from './canal-on-film.ts';
import type { CaseFile } from './case.ts';
import { evidenceFor } from './make-plan.ts';
import { type StemScene, tracedCanal } from './stem-plan-canals.ts';

// The square knee: present joint line at 0, middle of both bones at x = 0, anterior cortex of the femur at 30, 0.2 mm a pixel.
const TARGET = 2;
const BOX = 18;
const FACE = 12;
const VALGUS = 6;
const SLOPE = 3;

const rad = (deg: number) => (deg * Math.PI) / 180;
type XY = readonly [number, number];

const sceneOf = (file: CaseFile): StemScene => ({
  file,
  evidence: evidenceFor(file, calibrateFilms(file)),
  tilt: { femurDeg: 0, tibiaDeg: 0, valgusCutDeg: 6 },
  targetMm: TARGET,
  seats: {
    femur: { seatMm: BOX, valgusDeg: VALGUS, behindFlangeMm: 14 },
    tibia: { seatMm: 45, faceMm: FACE, slopeDeg: SLOPE },
    from: 'by hand',
  },
  maps: { femur: {}, tibia: {} },
});

/** Places on the planned stems, worked out apart from the estimator: mm along from the target, mm across, to mm of the square knee. */
const PLACES: Readonly<Record<string, (z: number, y: number) => XY>> = {
  // From the middle of the box's roof, leaning 6 degrees to lateral going up.
  'femur long': (z, y) => [
    (z - BOX) * Math.sin(rad(VALGUS)) + y * Math.cos(rad(VALGUS)),
    TARGET + BOX + (z - BOX) * Math.cos(rad(VALGUS)) - y * Math.sin(rad(VALGUS)),
  ],
  'femur side': (z, y) => [30 + y, TARGET + z],
  'tibia long': (z, y) => [y, TARGET - z],
  // From the middle of the tray's upper face at x = 4, square to a tray whose front stands 3 degrees up.
  'tibia side': (z, y) => [
    4 + (z - FACE) * Math.sin(rad(SLOPE)) + y * Math.cos(rad(SLOPE)),
    TARGET - FACE - (z - FACE) * Math.cos(rad(SLOPE)) + y * Math.sin(rad(SLOPE)),
  ],
};

/** Walls at four levels, lower and upper, mm across. */
const WALLS: readonly (readonly [number, number, number])[] = [
  [60, -12, 14],
  [90, -9, 9],
  [120, -7, 6],
  [150, -6, 7],
];

function trace(bone: 'femur' | 'tibia', film: 'long' | 'side', walls = WALLS): CanalTrace {
  const at = (z: number, y: number) => onFilm(film, PLACES[`${bone} ${film}`]?.(z, y) ?? [0, 0]);
  return {
    bone,
    film,
    levels: walls.map(([z, low, high]): CanalLevel => ({ innerA: at(z, low), innerB: at(z, high) })),
  };
}

const read = (file: CaseFile, bone: 'femur' | 'tibia') => tracedCanal(bone, sceneOf(file));
const withTraces = (...canals: readonly CanalTrace[]): CaseFile => ({ ...squareKnee(), canals });

/** The same limb on the other side: AP films mirrored about a column; lateral films show the same. */
function mirrored(file: CaseFile): CaseFile {
  const flip = (film: string, p: { readonly x: number; readonly y: number }) =>
    film === 'long' ? { x: 2000 - p.x, y: p.y } : p;
  return {
    ...file,
    side: 'left',
    films: file.films.map((f) => ({ ...f, side: 'left' })),
    marks: file.marks.map((m) => ({ ...m, side: 'left', points: m.points.map((p) => flip(m.film, p)) })),
    canals: (file.canals ?? []).map((c) => ({
      ...c,
      levels: c.levels.map((l) => ({ innerA: flip(c.film, l.innerA), innerB: flip(c.film, l.innerB) })),
    })),
  };
}

describe('a canal from a film to the frame of its stem', () => {
  const cases = [
    ['femur', 'long', 'ap'],
    ['femur', 'side', 'lateral'],
    ['tibia', 'long', 'ap'],
    ['tibia', 'side', 'lateral'],
  ] as const;

  test.each(cases)(
    'STM-6 %s on film %s: heights from the target along the stem, walls across it, as worked out by hand',
    (bone, film, view) => {
      const { canal, refused } = read(withTraces(trace(bone, film)), bone);
      expect(refused).toEqual([]);
      const sections = canal[view]?.sections ?? [];
      expect(sections).toHaveLength(WALLS.length);
      WALLS.forEach(([z, low, high], i) => {
        expect(sections[i]?.zMm).toBeCloseTo(z, 6);
        expect(sections[i]?.lowMm).toBeCloseTo(low, 6);
        expect(sections[i]?.highMm).toBeCloseTo(high, 6);
      });
      expect(canal[view]?.wallSdMm).toBe(1);
    },
  );

  test('STM-6 the order of the two walls does not matter, the same at every level', () => {
    const swapped = trace('femur', 'long');
    const other = { ...swapped, levels: swapped.levels.map((l) => ({ innerA: l.innerB, innerB: l.innerA })) };
    expect(read(withTraces(other), 'femur').canal.ap?.sections).toEqual(
      read(withTraces(swapped), 'femur').canal.ap?.sections,
    );
  });

  test('STM-6 the mirrored limb has the same canal: lateral stays lateral', () => {
    const file = withTraces(...cases.map(([bone, film]) => trace(bone, film)));
    for (const bone of ['femur', 'tibia'] as const) {
      const [right, left] = [read(file, bone).canal, read(mirrored(file), bone).canal];
      for (const view of ['ap', 'lateral'] as const)
        right[view]?.sections.forEach((s, i) => {
          const t = left[view]?.sections[i];
          expect(Math.max(Math.abs((t?.zMm ?? 99) - s.zMm), Math.abs((t?.lowMm ?? 99) - s.lowMm))).toBeLessThan(1e-6);
        });
    }
  });

  test('STM-6 a canal moved across or along is found moved by as much', () => {
    const mm = fc.double({ min: -8, max: 8, noNaN: true });
    fc.assert(
      fc.property(mm, mm, fc.constantFrom(...cases), (along, across, [bone, film, view]) => {
        const moved = WALLS.map(([z, low, high]) => [z + along, low + across, high + across] as const);
        const found = read(withTraces(trace(bone, film, moved)), bone).canal[view]?.sections ?? [];
        return moved.every(([z, low, high], i) => {
          const s = found[i];
          return (
            s !== undefined && Math.max(Math.abs(s.zMm - z), Math.abs(s.lowMm - low), Math.abs(s.highMm - high)) < 1e-6
          );
        });
      }),
      { numRuns: 30 },
    );
  });

  test('STM-6 a level that leans a little is read at its mean height, each wall along itself', () => {
    const at = (z: number, y: number) => onFilm('long', [y, TARGET - z]);
    const levels = WALLS.map(([z, low, high], i) => ({ innerA: at(z + (i % 2), low), innerB: at(z - (i % 2), high) }));
    const { canal } = read(withTraces({ bone: 'tibia', film: 'long', levels }), 'tibia');
    expect(canal.ap?.sections.map((s) => s.zMm)).toEqual(WALLS.map(([z]) => expect.closeTo(z, 6)));
    // Between 60 and 91 mm the low wall runs from -12 to -9: at 90 mm it stands at -12 + 3 x 30 / 31.
    expect(canal.ap?.sections[1]?.lowMm).toBeCloseTo(-12 + (3 * 30) / 31, 6);
  });
});

describe('a trace that cannot be used says why and how to mend it', () => {
  const good = trace('femur', 'long');
  const levels = (change: (all: CanalLevel[]) => readonly CanalLevel[]): CanalTrace => ({
    ...good,
    levels: change([...good.levels]),
  });
  const film = (id: string, change: Partial<CaseFile['films'][number]>): CaseFile => {
    const file = withTraces(good);
    return { ...file, films: file.films.map((f) => (f.id === id ? { ...f, ...change } : f)) };
  };
  const swapOne = ({ innerA, innerB }: CanalLevel): CanalLevel => ({ innerA: innerB, innerB: innerA });
  const table: readonly (readonly [string, CaseFile, string])[] = [
    ['no film', withTraces({ ...good, film: 'other' }), 'canal-on-no-film'],
    ['a film of before', film('long', { role: 'before-first-replacement' }), 'canal-on-earlier-film'],
    ['a skyline film', film('long', { view: 'skyline' }), 'canal-view'],
    ['a film of the other knee', film('long', { side: 'left' }), 'wrong-side'],
    [
      'a film that faces no known way',
      { ...film('long', {}), films: film('long', {}).films.map(({ columnsTowards: _, ...f }) => f) },
      'orientation-unknown',
    ],
    ['no shaft or joint line marked', { ...withTraces(good), marks: [] }, 'canal-without-bone'],
    ['two levels', withTraces(levels((l) => l.slice(0, 2))), 'canal-levels'],
    [
      'levels out of order',
      withTraces(levels((l) => [l[1], l[0], l[2]].filter((x) => x !== undefined))),
      'canal-order',
    ],
    ['walls that cross', withTraces(levels((l) => l.map((x, i) => (i === 2 ? swapOne(x) : x)))), 'canal-walls-cross'],
    [
      'a coordinate that is no number',
      withTraces(levels((l) => l.map((x) => ({ ...x, innerA: { x: Number.NaN, y: 0 } })))),
      'not-a-finite-number',
    ],
  ];

  test.each(table)('STM-6 %s is refused', (_, file, code) => {
    const { canal, refused } = read(file, 'femur');
    expect(canal.ap).toBeNull();
    expect(refused.map((r) => r.code)).toEqual([code]);
    expect(refused[0]?.file).toBeTruthy();
    expect(refused[0]?.field).toMatch(/canals\[0\]|films\[long\]/);
    expect(refused[0]?.mend).toBeTruthy();
  });

  test('STM-6 without a scale there are no millimetres, and the mend is a scale', () => {
    const file = withTraces(good);
    const bare = {
      ...file,
      films: file.films.map(({ scale: _, ...f }) => ({ ...f, scaleFacts: { ...f.scaleFacts, pixelAspect: 1 } })),
    };
    const { refused } = read(bare, 'femur');
    expect(refused.map((r) => [r.code, r.mend])).toEqual([['canal-without-scale', 'Give the film a scale.']]);
  });

  test('STM-6 inner walls outside of the outer ones by more than marking allows are refused', () => {
    const outside = trace(
      'femur',
      'long',
      WALLS.map(([z, low, high]) => [z, low + 5, high - 5] as const),
    );
    const both = {
      ...good,
      levels: good.levels.map((l, i) => ({
        ...l,
        outerA: outside.levels[i]?.innerA ?? l.innerA,
        outerB: outside.levels[i]?.innerB ?? l.innerB,
      })),
    };
    expect(read(withTraces(both), 'femur').refused.map((r) => r.code)).toEqual(['canal-outside-bone']);
  });
});

describe('of several traces of one view', () => {
  const view = (film: string, reach: number, wallSdMm: number) => ({
    view: 'ap' as const,
    film,
    sections: [0, 1, 2].map((i) => ({ zMm: (reach * i) / 2, lowMm: -7, highMm: 7 })),
    outer: null,
    wallSdMm,
    scaleRelativeSd: 0.01,
  });

  test('STM-6 the one that reaches further is taken; within 10 mm of it the one of least spread', () => {
    expect(bestTrace([view('knee', 180, 0.5), view('long', 250, 1)])?.film).toBe('long');
    expect(bestTrace([view('long', 186, 1), view('knee', 180, 0.5)])?.film).toBe('knee');
    expect(bestTrace([view('first', 180, 0.5), view('second', 180, 0.5)])?.film).toBe('first');
    expect(bestTrace([])).toBeNull();
  });
});
