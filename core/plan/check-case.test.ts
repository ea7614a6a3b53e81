import { describe, expect, test } from 'vitest';
import type { Mark } from '../landmarks/mark.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import { checkCase, soundPart } from './check-case.ts';

const ap: CaseFilm = {
  id: 'ap',
  file: 'ap.dcm',
  sha256: 'a'.repeat(64),
  view: 'ap',
  side: 'right',
  takenOn: '2026-03-01',
  role: 'present',
  columnsTowards: 'patient-left',
  scaleFacts: { volumetric: false, rows: 1000, columns: 800, derived: false },
};
const mark = (landmark: Mark['landmark'], x: number, y: number, more: Partial<Mark> = {}): Mark => ({
  landmark,
  side: 'right',
  film: 'ap',
  points: [{ x, y }],
  how: 'by-hand',
  ...more,
});
const sound: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'knee',
  title: 'Knee',
  side: 'right',
  patient: {},
  films: [ap],
  marks: [mark('medial-condyle-distal', 500, 500), mark('lateral-condyle-distal', 300, 505)],
};
const withFilm = (film: Partial<CaseFilm>) => ({
  ...sound,
  films: [ap, { ...ap, id: 'two', file: 'two.dcm', sha256: 'b'.repeat(64), ...film }],
});
const withMark = (m: Mark) => ({ ...sound, marks: [...sound.marks, m] });
const codes = (file: CaseFile) => checkCase(file).map((f) => f.code);

describe('what a schema cannot say about a case', () => {
  test('a sound case has no finding and stays whole', () => {
    expect(checkCase(sound)).toEqual([]);
    expect(soundPart(sound, [])).toBe(sound);
  });

  test('every finding names file, field and mend', () => {
    const wrong: CaseFile = {
      ...sound,
      films: [ap, { ...ap, id: 'two', side: 'left' }, { ...ap, file: 'three.dcm' }],
      marks: [
        ...sound.marks,
        mark('adductor-tubercle', 9999, 3),
        mark('tibial-tubercle', 3, 3),
        mark('fibular-tip', 1, 1, { film: 'x' }),
      ],
    };
    const found = checkCase(wrong);
    expect(found.length).toBeGreaterThanOrEqual(6);
    for (const f of found) expect([f.file, f.field, f.mend].every((v) => v && v.length > 3)).toBe(true);
  });

  test('PLAN-1 the same picture twice: the second is held, with its marks', () => {
    const twice = withFilm({ sha256: 'a'.repeat(64) });
    const [found] = checkCase(twice);
    expect(found).toMatchObject({
      code: 'film-given-twice',
      remedy: 'film-held',
      file: 'two.dcm',
      field: 'films[1].sha256',
    });
    const part = soundPart(
      { ...twice, marks: [...twice.marks, mark('fibular-tip', 9, 9, { film: 'two' })] },
      checkCase(twice),
    );
    expect(part.films.map((f) => f.id)).toEqual(['ap']);
    expect(part.marks).toHaveLength(2);
  });

  test('PLAN-1 two films of one name: the second is held', () => {
    expect(checkCase(withFilm({ id: 'ap' }))[0]).toMatchObject({ code: 'film-id-twice', film: 1, remedy: 'film-held' });
  });

  test('PLAN-2 a film of the other side is held until a person confirms', () => {
    const other = { side: 'left' as const };
    expect(checkCase(withFilm(other))[0]).toMatchObject({
      code: 'film-of-other-side',
      remedy: 'film-held',
      file: 'two.dcm',
    });
    expect(codes(withFilm({ ...other, sideConfirmed: { by: 'a surgeon', on: '2026-03-02' } }))).toEqual([]);
    expect(codes(withFilm({ side: 'both', view: 'long-leg' }))).toEqual([]);
  });

  test('PLAN-3 a direction that the view cannot have holds the film', () => {
    expect(codes(withFilm({ columnsTowards: 'anterior' }))).toEqual(['orientation-impossible']);
    expect(codes(withFilm({ view: 'lateral', columnsTowards: 'patient-left' }))).toEqual(['orientation-impossible']);
    expect(codes(withFilm({ view: 'lateral', columnsTowards: 'posterior' }))).toEqual([]);
  });

  test('PLAN-4 present films of far dates are shown with a caution, an old role with a new date holds the film', () => {
    expect(checkCase(withFilm({ takenOn: '2025-01-01' }))[0]).toMatchObject({ code: 'dates-mixed', remedy: 'shown' });
    expect(codes(withFilm({ takenOn: '2026-06-01' }))).toEqual([]);
    expect(codes(withFilm({ role: 'before-first-replacement', takenOn: '2026-03-01' }))).toEqual(['dates-contradict']);
    expect(codes(withFilm({ role: 'before-first-replacement', takenOn: '2015-03-01' }))).toEqual([]);
  });

  test.each<[string, Mark, string]>([
    ['on a film that does not exist', mark('fibular-tip', 1, 1, { film: 'nowhere' }), 'mark-on-no-film'],
    ['of a landmark of another view', mark('tibial-tubercle', 1, 1), 'mark-of-other-view'],
    ['of the other side on a one-sided film', mark('fibular-tip', 1, 1, { side: 'left' }), 'sides-mixed'],
    ['left of the picture', mark('fibular-tip', -0.6, 1), 'mark-outside-picture'],
    ['below the picture', mark('fibular-tip', 1, 999.6), 'mark-outside-picture'],
    ['given twice', mark('medial-condyle-distal', 100, 100), 'mark-given-twice'],
    [
      'with two points for one',
      mark('fibular-tip', 1, 1, {
        points: [
          { x: 1, y: 1 },
          { x: 2, y: 2 },
        ],
      }),
      'points-miscounted',
    ],
    [
      'an outline of two points',
      mark('calibration-ball', 1, 1, {
        points: [
          { x: 1, y: 1 },
          { x: 2, y: 2 },
        ],
      }),
      'points-miscounted',
    ],
  ])('PLAN-5 a mark %s is left out and named', (_what, bad, code) => {
    const file = withMark(bad);
    const found = checkCase(file);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ code, field: 'marks[2]', remedy: 'mark-left-out', marks: [2] });
    expect(soundPart(file, found).marks).toEqual(sound.marks);
  });

  test('PLAN-5 the edge of the picture still is the picture', () => {
    expect(codes(withMark(mark('fibular-tip', 799.5, -0.5)))).toEqual([]);
  });

  test('PLAN-6 two marks in one place span no line: both are left out', () => {
    const file = { ...sound, marks: [mark('tray-medial-edge', 400, 600), mark('tray-lateral-edge', 400.1, 600)] };
    const [found] = checkCase(file);
    expect(found).toMatchObject({ code: 'line-has-no-length', file: 'ap.dcm', field: 'marks[1]', marks: [0, 1] });
    expect(soundPart(file, checkCase(file)).marks).toEqual([]);
  });

  test('PLAN-7 the case given is not changed', () => {
    const frozen = Object.freeze({ ...sound, marks: Object.freeze([...sound.marks, mark('fibular-tip', -5, 1)]) });
    const copy = JSON.stringify(frozen);
    soundPart(frozen, checkCase(frozen));
    expect(JSON.stringify(frozen)).toBe(copy);
  });
});
