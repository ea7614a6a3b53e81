import { knownMarks } from '@gapline/core/landmarks/known-marks.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { applyEdit } from '@gapline/core/plan/apply-edit.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import { describe, expect, test } from 'vitest';
import type { Place } from '../film/viewport.ts';
import { expectedPlace } from '../sketch/expected-place.ts';
import { asksOf } from './asks-of.ts';
import { expectedOnFilm } from './expected-on-film.ts';
import { isOpen, nextToMark, toRepeat, tourOf } from './guided.ts';
import type { Offer } from './offer.ts';
import { asMarks, circlePoints } from './offers-of.ts';
import { editsOf, type Offering, shapesOf } from './offers-tool.ts';
import { putBack } from './put-back.ts';
import { unlocksLine, unlocksOf } from './unlocks.ts';

const film: CaseFilm = {
  id: 'ap',
  file: 'ap.dcm',
  view: 'ap',
  side: 'right',
  role: 'present',
  columnsTowards: 'patient-left',
  scaleFacts: { volumetric: false, rows: 2000, columns: 1500, imagerPixelSpacing: [0.15, 0.15], derived: false },
};
const EMPTY: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'c',
  title: 'Trial',
  side: 'right',
  patient: {},
  films: [film],
  marks: [],
};
const mark = (landmark: Mark['landmark'], at: Place): Mark => ({
  landmark,
  side: 'right',
  film: 'ap',
  points: [at],
  how: 'by-hand',
});
const ASKING = { film, side: 'right', later: new Set<string>() } as const;

describe('LM-8 what is asked for next', () => {
  test('LM-8 every landmark of the view stands on the tour once, and the first is the uppermost', () => {
    const tour = tourOf('ap');
    expect(new Set(tour.map((l) => l.id)).size).toBe(tour.length);
    expect(tour.every((l) => l.views.includes('ap'))).toBe(true);
    const heights = tour.map((l) => expectedPlace(l.id).y);
    expect(heights[0]).toBe(Math.min(...heights));
  });

  test('LM-8 the next one is the first open one along the tour after the hand; put off, skipped and marked are passed', () => {
    const [a, b, c, d] = tourOf('ap').map((l) => l.id);
    if (!a || !b || !c || !d) throw new Error('too short a tour');
    expect(nextToMark(EMPTY, ASKING)?.id).toBe(a);
    expect(nextToMark(EMPTY, { ...ASKING, after: b })?.id).toBe(c);
    expect(nextToMark(EMPTY, { ...ASKING, after: b, later: new Set([`${c}|right|ap`]) })?.id).toBe(d);
    const skipped: CaseFile = {
      ...EMPTY,
      marks: [mark(b, { x: 1, y: 1 })],
      skipped: [{ landmark: a, side: 'right', film: 'ap', reason: 'destroyed' }],
    };
    expect(nextToMark(skipped, ASKING)?.id).toBe(c);
    expect(isOpen(skipped, { landmark: a, side: 'right', film: 'ap' })).toBe(false);
    expect(toRepeat(skipped, film, 'right')).toEqual([b]);
  });

  test('LM-8 when all is marked or skipped nothing is asked for', () => {
    const reason = 'not-needed' as const;
    const all = tourOf('ap').map((l) => ({ landmark: l.id, side: 'right' as const, film: 'ap', reason }));
    expect(nextToMark({ ...EMPTY, skipped: all }, ASKING)).toBeNull();
  });
});

describe('what a missing point would unlock', () => {
  test('measurements that lack it, opinions of the joint line, what stands open in the bone; of the other leg measurements alone', () => {
    const longLeg: CaseFilm = { ...film, id: 'll', view: 'long-leg', side: 'both', standing: true };
    const plan = makePlan({ ...EMPTY, films: [film, longLeg] }, null);
    const head = unlocksOf(plan, 'femoral-head', 'right');
    expect(head.measurements.some((m) => m.includes('HKA'))).toBe(true);
    expect(head.jointLine).toEqual([]);
    const tubercle = unlocksOf(plan, 'adductor-tubercle', 'right');
    expect(tubercle.jointLine).toEqual(['Joint line from the femur: one more opinion']);
    expect(unlocksOf(plan, 'adductor-tubercle', 'left').jointLine).toEqual([]);
    const wanted = {
      ...plan,
      missing: [{ what: 'Mark: Tip', field: 'marks[fibular-tip]', wouldChange: 'Size of the tray.' }],
    };
    expect(unlocksOf(wanted, 'fibular-tip', 'right').bone).toEqual(['Size of the tray.']);
    expect(unlocksLine({ measurements: [], jointLine: [], bone: ['Size of the tray.'] })).toBe(
      'bone state (size of the tray)',
    );
    expect(unlocksLine({ measurements: ['a', 'b', 'c', 'd', 'e', 'f'], jointLine: [], bone: [] })).toBe(
      'a, b, c, d and 2 more',
    );
    expect(unlocksLine({ measurements: [], jointLine: [], bone: [] })).toBeNull();
  });
});

describe('LM-11 one mark put back', () => {
  const tip = mark('fibular-tip', { x: 1, y: 2 });
  const name = { landmark: 'fibular-tip', side: 'right', film: 'ap' } as const;
  const file: CaseFile = { ...EMPTY, marks: [mark('fibular-tip', { x: 9, y: 9 })] };

  test('LM-11 to where it was before; taken away where it was not there; not at all where it stands there already', () => {
    expect(putBack(file, tip, name)).toEqual({ kind: 'put-mark', mark: tip });
    expect(putBack(file, null, name)).toEqual({ kind: 'remove-mark', ...name });
    expect(putBack({ ...file, marks: [tip] }, tip, name)).toBeNull();
    expect(putBack(EMPTY, null, name)).toBeNull();
    expect(putBack({ ...file, films: [] }, tip, name)).toBeNull();
  });
});

describe('where a landmark is expected on a film', () => {
  test.each([
    ['right', 'patient-left', 1],
    ['right', 'patient-right', -1],
    ['left', 'patient-left', -1],
    ['left', 'patient-right', 1],
  ] as const)('%s knee, columns towards %s: the drawing is laid the right way round', (side, columnsTowards, flip) => {
    const on: CaseFilm = { ...film, side, columnsTowards };
    const place = (id: Mark['landmark']): Place => {
      const { x, y } = expectedPlace(id);
      return { x: 700 + 6 * flip * x, y: 900 + 6 * y };
    };
    const ids = ['medial-epicondyle', 'fibular-tip', 'tray-medial-edge', 'adductor-tubercle'] as const;
    const marks = ids.map((id) => ({ ...mark(id, place(id)), side }));
    const found = expectedOnFilm({ ...EMPTY, marks }, on, { landmark: 'lateral-epicondyle', side });
    expect(found?.at.x).toBeCloseTo(place('lateral-epicondyle').x, 6);
    expect(found?.at.y).toBeCloseTo(place('lateral-epicondyle').y, 6);
    expect(found?.pxPerMm).toBeCloseTo(6, 6);
    const few = { ...EMPTY, marks: marks.slice(0, 2) };
    expect(expectedOnFilm(few, on, { landmark: 'lateral-epicondyle', side })).toBeNull();
  });
});

describe('offers', () => {
  const gives = {
    is: 'marks',
    marks: [{ landmark: 'fibular-tip', side: 'right', points: [{ x: 10, y: 20 }] }],
  } as const;
  const offer: Offer = {
    id: 'x',
    label: 'Tip',
    shapes: [{ points: [{ x: 10, y: 20 }], closed: true }],
    gives,
    confidence: 0.9,
    confident: true,
    restsOn: [],
  };
  const tool: Offering = { is: 'offers', film: 'ap', offers: [offer], at: 0, moved: { x: 0, y: 0 } };

  test('taken as found it is recorded as proposed and accepted; moved by the hand, as marked by hand', () => {
    expect(editsOf(EMPTY, tool, offer)).toMatchObject([
      { kind: 'put-mark', mark: { how: 'proposed-and-accepted', points: [{ x: 10, y: 20 }] } },
    ]);
    const moved: Offering = { ...tool, moved: { x: 1, y: -2 } };
    expect(editsOf(EMPTY, moved, offer)).toMatchObject([{ mark: { how: 'by-hand', points: [{ x: 11, y: 18 }] } }]);
    expect(shapesOf(moved, offer)).toEqual([{ points: [{ x: 11, y: 18 }], closed: true }]);
  });

  test('a canal that is taken stands in the case, from the joint outwards, and is not looked for again', () => {
    const level = (y: number) => ({ innerA: { x: 40, y }, innerB: { x: 60, y } });
    const canal: Offer = { ...offer, gives: { is: 'canal', bone: 'femur', levels: [level(100), level(300)] } };
    const [edit] = editsOf(EMPTY, tool, canal);
    const after = edit && applyEdit(EMPTY, edit);
    if (!after?.ok) throw new Error('not possible');
    expect(after.value.canals?.[0]?.levels.map((l) => l.innerA.y)).toEqual([300, 100]);
    const shaft = knownMarks(
      {
        'femoral-shaft-distal-medial': [-15, 60],
        'femoral-shaft-distal-lateral': [15, 60],
        'femoral-shaft-proximal-medial': [-14, 140],
        'femoral-shaft-proximal-lateral': [14, 140],
      },
      {
        film: 'ap',
        side: 'right',
        columnsTowards: 'patient-left',
        mmPerPx: { x: 0.15, y: 0.15 },
        originPx: [700, 1200],
      },
    );
    const asked = (file: CaseFile) =>
      asksOf({ file: { ...file, marks: shaft }, film, side: 'right', calibration: undefined }).map((a) => a.is);
    expect(asked(EMPTY)).toEqual(['ball', 'components', 'canal']);
    expect(asked(after.value)).toEqual(['ball', 'components']);
  });

  test.each([
    ['right', 'patient-left', 'right'],
    ['right', 'patient-right', 'left'],
    ['left', 'patient-left', 'left'],
    ['left', 'patient-right', 'right'],
  ] as const)(
    '%s knee, columns towards %s: medial is the %s one of two on the film',
    (side, columnsTowards, medial) => {
      const [left, right] = [
        { x: 1, y: 0 },
        { x: 2, y: 0 },
      ];
      const marks = asMarks(['tray-medial-edge', 'tray-lateral-edge'], [left, right], {
        film: { ...film, columnsTowards },
        side,
      });
      expect(marks?.[0]).toMatchObject({ landmark: 'tray-medial-edge', points: [medial === 'right' ? right : left] });
    },
  );

  test('without the direction of the columns no pair is offered, for nobody can tell medial from lateral', () => {
    const { columnsTowards: _, ...unknown } = film;
    const at = [
      { x: 1, y: 0 },
      { x: 2, y: 0 },
    ] as const;
    expect(asMarks(['tray-medial-edge', 'tray-lateral-edge'], at, { film: unknown, side: 'right' })).toBeNull();
  });

  test('a circle is taken as points all round it', () => {
    const points = circlePoints({ x: 5, y: 6 }, 3, 8);
    for (const p of points) expect(Math.hypot(p.x - 5, p.y - 6)).toBeCloseTo(3, 12);
    expect(points).toHaveLength(8);
  });
});
