import { describe, expect, test } from 'vitest';
import type { EarnedScale } from '../calibration/calibration.ts';
import { coronalFilm, type LimbFilm } from '../landmarks/limb-film.ts';
import type { Mark } from '../landmarks/mark.ts';
import { meanAndSd, normalDraws } from '../measure/normal-draws.ts';
import { ok } from '../measure/outcome.ts';
import { lineThrough } from '../plane/line.ts';
import { midpoint } from '../plane/point.ts';
import { DEFECT_EDGE_SD_MM, defectOnFilm, type PlaneOption } from './defect-on-film.ts';

const FILM = { id: 'ap', view: 'ap', side: 'right', role: 'present', columnsTowards: 'patient-left' } as const;
const MM_PER_PX = 0.2;
const scale = (mmPerPx: number): EarnedScale => ({
  source: 'marker',
  mmPerPx: { x: mmPerPx, y: mmPerPx },
  relativeSd: 0.02,
  rule: 'SCALE-4',
  because: 'ball of 25 mm',
  doubtful: false,
});

// Columns run medially in a right knee: x lateral is to the left. Tray 72 mm wide, level; mm to film pixels.
const px = (x: number, y: number) => ({ x: 1000 - x / MM_PER_PX, y: 1000 - y / MM_PER_PX });
const MARKS = {
  'tray-medial-edge': [-36, 0],
  'tray-lateral-edge': [36, 0],
  'tibial-cortex-medial': [-38, -2],
} as const;
const OUTLINE = [
  [-38, 0],
  [-19, 0],
  [-19, -9],
  [-38, -9],
] as const;

const filmOf = (move: () => number, mmPerPx = MM_PER_PX): LimbFilm<'coronal'> => {
  const marks = Object.entries(MARKS).map(([landmark, [x, y]]): Mark => {
    const sd = landmark.startsWith('tray') ? 0.5 : 1;
    const points = [px(x + sd * move(), y + sd * move())];
    return { landmark: landmark as keyof typeof MARKS, side: 'right', film: 'ap', points, how: 'by-hand' };
  });
  const film = coronalFilm({ film: FILM, side: 'right', marks, calibration: scale(mmPerPx) });
  if (!film.ok) throw new Error(film.reason.message);
  return film.value;
};

/** The tray's own line, from lateral to medial: the tibia lies on its left. */
const TRAY: PlaneOption<'coronal'> = {
  name: 'tray',
  inputs: ['tray-medial-edge', 'tray-lateral-edge', 'tibial-cortex-medial'],
  find: (r) => {
    const [m, l] = [r.at('tray-medial-edge'), r.at('tray-lateral-edge')];
    const plane = lineThrough(l, m);
    return plane.ok ? ok({ plane: plane.value, middle: midpoint(m, l), edge: r.at('tibial-cortex-medial') }) : plane;
  },
};

const measured = (film: LimbFilm<'coronal'>, outline: readonly { x: number; y: number }[]) => {
  const size = defectOnFilm(film, TRAY, { outline, ofOneSide: false });
  if (!size.ok) throw new Error(size.reason.message);
  return size.value;
};

describe('a defect drawn on a film', () => {
  const still = () => 0;
  const size = measured(
    filmOf(still),
    OUTLINE.map(([x, y]) => px(x, y)),
  );

  test('BONE-10 9 mm deep and 19 mm wide under half of 38 mm, whatever way the columns run', () => {
    expect(size.depthMm?.value).toBeCloseTo(9, 9);
    expect(size.widthMm?.value).toBeCloseTo(19, 9);
    expect(size.heightMm?.value).toBeCloseTo(9, 9);
    expect(size.fromPlaneMm?.value).toBeCloseTo(0, 9);
    expect(size.unsupportedPct?.value).toBeCloseTo(50, 9);
  });

  test('BONE-10 spreads of depth, width and share agree with 3000 draws of marks, scale and drawn edges', () => {
    const draw = normalDraws(17);
    const found = Array.from({ length: 3000 }, () => {
      // Each edge is seen too far in or out as a whole.
      const [outer, inner, floor] = [draw(), draw(), draw()].map((d) => d * DEFECT_EDGE_SD_MM) as [
        number,
        number,
        number,
      ];
      const moved = OUTLINE.map(([x, y], k) => px(x + (k === 0 || k === 3 ? outer : inner), y + (k > 1 ? floor : 0)));
      return measured(filmOf(draw, MM_PER_PX * (1 + 0.02 * draw())), moved);
    });
    const ratio = (of: 'depthMm' | 'widthMm' | 'unsupportedPct') =>
      meanAndSd(found.map((f) => f[of]?.value ?? 0)).sd / (size[of]?.sd ?? 0);
    expect(ratio('depthMm')).toBeGreaterThan(0.94);
    expect(ratio('depthMm')).toBeLessThan(1.06);
    expect(ratio('widthMm')).toBeGreaterThan(0.94);
    expect(ratio('widthMm')).toBeLessThan(1.06);
    // The outer edge is bounded by the bone's own edge, so that the stated spread of a share is the larger one.
    expect(ratio('unsupportedPct')).toBeGreaterThan(0.7);
    expect(ratio('unsupportedPct')).toBeLessThan(1.06);
  });

  test('BONE-10 without a scale no millimetres, only the share, its spread not known', () => {
    const film = coronalFilm({
      film: FILM,
      side: 'right',
      marks: Object.entries(MARKS).map(([landmark, [x, y]]) => ({
        landmark: landmark as keyof typeof MARKS,
        side: 'right',
        film: 'ap',
        points: [px(x, y)],
        how: 'by-hand',
      })),
      calibration: { source: 'none', pixelAspect: 1, rule: 'SCALE-21', because: 'no scale' },
    });
    if (!film.ok) throw new Error(film.reason.message);
    const bare = measured(
      film.value,
      OUTLINE.map(([x, y]) => px(x, y)),
    );
    expect([bare.depthMm, bare.widthMm, bare.heightMm, bare.fromPlaneMm]).toEqual([null, null, null, null]);
    expect(bare.unsupportedPct?.value).toBeCloseTo(50, 9);
    expect(bare.unsupportedPct?.sd).toBeNull();
  });
});
