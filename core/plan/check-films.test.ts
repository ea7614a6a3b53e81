import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { knownCase } from '../landmarks/known-knee.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import { checkCase, soundPart } from './check-case.ts';
import { filmFindings } from './check-films.ts';

const KNOWN = knownCase();
const SIZE = { volumetric: false, rows: 8000, columns: 3000, derived: false } as const;
const MM = 0.14;

/** The known knee as a case; every film stated at 0.14 mm a pixel. */
const good: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'films',
  title: 'Films',
  side: 'right',
  patient: {},
  films: KNOWN.films.map(
    (f): CaseFilm => ({
      ...f,
      file: `${f.id}.dcm`,
      takenOn: '2025-03-10',
      scaleFacts: SIZE,
      scale: { kind: 'stated-spacing', mmPerPx: MM, from: 'the example' },
    }),
  ),
  marks: KNOWN.marks,
  implants: { insertMm: 10, trayWidthMm: 70.1, femurWidthMm: 70 },
};

const codes = (file: CaseFile) => filmFindings(file).map((f) => f.code);
const film = (id: string, change: Partial<CaseFilm>): CaseFile => ({
  ...good,
  films: good.films.map((f) => (f.id === id ? { ...f, ...change } : f)),
});
const shifted = (landmark: LandmarkId, on: string, dx: number): CaseFile => ({
  ...good,
  marks: good.marks.map((m) =>
    m.landmark === landmark && m.film === on && m.side === 'right'
      ? { ...m, points: m.points.map((p) => ({ ...p, x: p.x + dx })) }
      : m,
  ),
});
const heldOf = (file: CaseFile) =>
  filmFindings(file).flatMap((f) => (f.remedy === 'film-held' ? [file.films[f.film ?? -1]?.id] : []));

test('SIDE-5 FILM-9 films of a sound case are found sound', () => expect(filmFindings(good)).toEqual([]));

describe('FILM-8 films of different people', () => {
  const marked = (...marks: readonly (string | null)[]): CaseFile => ({
    ...good,
    films: good.films.map((f, i) => ({ ...f, ...(marks[i] ? { personMark: marks[i] } : {}) })),
  });
  test('the one that differs from most is held with its marks, and says which film it differs from', () => {
    const file = marked('a', 'a', 'b');
    expect(heldOf(file)).toEqual(['lat']);
    const [f] = filmFindings(file);
    expect(f).toMatchObject({ code: 'film-of-another-person', file: 'lat.dcm', field: 'films[2].personMark' });
    expect(f?.message).toContain('film long');
    const sound = soundPart(file, checkCase(file));
    expect(sound.films.map((x) => x.id)).not.toContain('lat');
    expect(sound.marks.some((m) => m.film === 'lat')).toBe(false);
  });
  test('the case is of the many, whichever film comes first', () =>
    expect(heldOf(marked('b', 'a', 'a'))).toEqual(['long']));
  test('one of each: the first met is the case', () => expect(heldOf(marked('a', 'b'))).toEqual(['ap']));
  test('confirmed as one person it is used', () => {
    const file = marked('a', 'a', 'b');
    const confirmed = {
      ...file,
      films: file.films.map((f) => ({
        ...f,
        ...(f.id === 'lat' ? { personConfirmed: { by: 'KB', on: '2026-01-02' } } : {}),
      })),
    };
    expect(codes(confirmed)).toEqual([]);
  });
  test('films that name nobody are not judged', () => expect(codes(marked('a', null, null))).toEqual([]));
});

describe('SIDE-5 SIDE-6 mirrored films', () => {
  test('SIDE-5 a lateral film stated the wrong way round is held, with the direction to state', () => {
    const file = film('lat', { columnsTowards: 'posterior' });
    const [f] = filmFindings(file);
    expect(f).toMatchObject({ code: 'lateral-mirrored', remedy: 'film-held', field: 'films[2].columnsTowards' });
    expect(f?.mend).toContain('anterior');
  });
  test('SIDE-5 the picture mirrored with its marks, direction as before', () => {
    const file = {
      ...good,
      marks: good.marks.map((m) =>
        m.film === 'lat' ? { ...m, points: m.points.map((p) => ({ ...p, x: 3000 - p.x })) } : m,
      ),
    };
    expect(codes(file)).toEqual(['lateral-mirrored']);
  });
  test('SIDE-6 an AP film mirrored, or of the other knee', () => {
    const file = film('ap', { columnsTowards: 'patient-right' });
    expect(codes(file)).toContain('fibula-medial');
    expect(filmFindings(file)[0]?.mend).toContain('left');
  });
  test('SIDE-5 SIDE-6 however the films lie turned, a sound case stays sound and a mirrored one is found', () => {
    const turned = (file: CaseFile, deg: number): CaseFile => {
      const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
      return {
        ...file,
        marks: file.marks.map((m) => ({
          ...m,
          points: m.points.map(({ x, y }) => ({ x: x * c - y * s, y: x * s + y * c })),
        })),
      };
    };
    const wrong = film('lat', { columnsTowards: 'posterior' });
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), (deg) => {
        expect(codes(turned(good, deg))).toEqual([]);
        expect(codes(turned(wrong, deg))).toEqual(['lateral-mirrored']);
      }),
      { numRuns: 40 },
    );
  });
  test('SIDE-5 without patella and tubercle nothing is claimed', () => {
    const file = film('lat', { columnsTowards: 'posterior' });
    const bare = { ...file, marks: file.marks.filter((m) => !/patella|tubercle/.test(m.landmark)) };
    expect(codes(bare)).toEqual([]);
  });
});

describe('FILM-9 films too rotated', () => {
  test('condyles 5 mm apart pass, 9 mm are shown with the measure, its spread and the mend', () => {
    const [f] = filmFindings(shifted('posterior-condyle-other', 'lat', 4 / MM));
    expect(f).toMatchObject({ code: 'film-too-rotated', remedy: 'shown', file: 'lat.dcm' });
    expect(f?.message).toMatch(/9\.0 ± \d\.\d mm/);
    expect(f?.mend).toContain('again');
  });
  test('a femoral component 8 % too wide for its tray: turned by about 13 degrees, or a wrong record', () => {
    const [f] = filmFindings({ ...good, implants: { ...good.implants, femurWidthMm: 70 / 1.08 } });
    expect(f).toMatchObject({ code: 'film-too-rotated', remedy: 'shown' });
    expect(f?.message).toContain('about 13 degrees');
  });
  test('without the widths on record nothing is claimed', () =>
    expect(codes({ ...good, implants: { insertMm: 10 } })).toEqual([]));
});

describe('FILM-10 a ball off the depth of the bone', () => {
  /** A ball of 25 mm marked as if it were enlarged that much against the bone. */
  const ball = (times: number): CaseFile => {
    const radius = (12.5 / MM) * times;
    const points = [0, 60, 120, 180, 240, 300].map((a) => ({
      x: 2000 + radius * Math.cos((a * Math.PI) / 180),
      y: 900 + radius * Math.sin((a * Math.PI) / 180),
    }));
    const file = film('ap', { scale: { kind: 'ball', diameterMm: 25 } });
    return {
      ...file,
      marks: [...file.marks, { landmark: 'calibration-ball', side: 'right', film: 'ap', points, how: 'by-hand' }],
    };
  };
  test('at the bone it says nothing, up to 3 % either way', () => {
    for (const times of [0.98, 1, 1.02]) expect(codes(ball(times))).toEqual([]);
  });
  test('5 % too large: it lay about 5 cm in front, the tray measures too small, and the mend is the tray', () => {
    const [f] = filmFindings(ball(1.05));
    expect(f).toMatchObject({ code: 'ball-off-depth', remedy: 'shown', field: 'films[1].scale' });
    expect(f?.message).toContain('5 cm in front of');
    expect(f?.mend).toContain('tray');
  });
  test('5 % too small: behind', () => expect(filmFindings(ball(0.95))[0]?.message).toContain('behind'));
});

describe('FILM-11 order of dates', () => {
  test('a film from after the first replacement that is newer than all present ones is held', () => {
    const file = {
      ...good,
      films: [
        ...good.films,
        {
          ...good.films[1]!,
          id: 'later',
          file: 'later.dcm',
          role: 'after-first-replacement' as const,
          takenOn: '2025-09-01',
        },
      ],
    };
    expect(heldOf(file)).toEqual(['later']);
  });
});
