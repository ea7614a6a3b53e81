import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyEdit } from './apply-edit.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import { describeEdit } from './describe-edit.ts';
import type { Edit } from './edit.ts';
import { invertEdit } from './invert-edit.ts';

const film = (id: string): CaseFilm => ({
  id,
  file: `${id}.dcm`,
  view: 'ap',
  side: 'left',
  role: 'present',
  scaleFacts: { volumetric: false, rows: 10, columns: 20, derived: false },
});
const FILMS = ['a', 'b', 'c'] as const;
const LANDMARKS = ['femoral-notch', 'fibular-tip', 'femoral-head'] as const;
const SIDES = ['left', 'right'] as const;

const base: CaseFile = deepFreeze({
  format: 'gapline-case',
  version: '1.0',
  id: 'case-1',
  title: 'Invented knee',
  side: 'left',
  patient: { id: '7' },
  films: [film('a'), film('b')],
  marks: [
    { landmark: 'femoral-notch', side: 'left', film: 'a', points: [{ x: 1, y: 2 }], how: 'by-hand' },
    { landmark: 'fibular-tip', side: 'left', film: 'b', points: [{ x: 3, y: 4 }], how: 'by-hand' },
  ],
});

function deepFreeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    for (const inner of Object.values(value)) deepFreeze(inner);
    Object.freeze(value);
  }
  return value;
}

const arbitraryMark = fc.record({
  landmark: fc.constantFrom(...LANDMARKS),
  side: fc.constantFrom(...SIDES),
  film: fc.constantFrom(...FILMS),
  points: fc.array(fc.record({ x: fc.integer({ min: 0, max: 99 }), y: fc.integer({ min: 0, max: 99 }) }), {
    minLength: 1,
    maxLength: 3,
  }),
  how: fc.constant('by-hand' as const),
});
const arbitrarySet = fc.oneof(
  fc.record({
    kind: fc.constant('set' as const),
    field: fc.constantFrom('/examination/mcl', '/examination/lcl'),
    value: fc.constantFrom('intact', 'absent', null),
  }),
  fc.record({
    kind: fc.constant('set' as const),
    field: fc.constantFrom('/bone/removalLossMm/tibia', '/bone/femurCanalMm', '/settings/targetSlopeDeg'),
    value: fc.constantFrom(3, 4.5, null),
  }),
  fc.record({
    kind: fc.constant('set' as const),
    field: fc.constant('/examination/openingExtensionMm'),
    value: fc.constantFrom({ medial: 1, lateral: 2 }, null),
  }),
  fc.record({
    kind: fc.constant('set' as const),
    field: fc.constant('/examination'),
    value: fc.constantFrom({}, null),
  }),
);
const { edit: arbitraryEdit } = fc.letrec<{ edit: Edit; leaf: Edit }>((tie) => ({
  leaf: fc.oneof(
    fc.record({ kind: fc.constant('put-mark' as const), mark: arbitraryMark }),
    fc.record({
      kind: fc.constant('remove-mark' as const),
      landmark: fc.constantFrom(...LANDMARKS),
      side: fc.constantFrom(...SIDES),
      film: fc.constantFrom(...FILMS),
    }),
    fc.record({
      kind: fc.constant('put-repeat' as const),
      repeat: fc.tuple(arbitraryMark, fc.integer({ min: 1, max: 4 })).map(([mark, round]) => ({
        ...mark,
        round,
        why: 'repeat' as const,
      })),
    }),
    fc.record({
      kind: fc.constant('remove-repeat' as const),
      landmark: fc.constantFrom(...LANDMARKS),
      side: fc.constantFrom(...SIDES),
      film: fc.constantFrom(...FILMS),
      round: fc.integer({ min: 2, max: 4 }),
    }),
    fc.record({
      kind: fc.constant('put-skip' as const),
      skip: fc.record({
        landmark: fc.constantFrom(...LANDMARKS),
        side: fc.constantFrom(...SIDES),
        film: fc.constantFrom(...FILMS),
        reason: fc.constantFrom('destroyed' as const, 'covered' as const),
      }),
    }),
    fc.record({
      kind: fc.constant('remove-skip' as const),
      landmark: fc.constantFrom(...LANDMARKS),
      side: fc.constantFrom(...SIDES),
      film: fc.constantFrom(...FILMS),
    }),
    fc.record({ kind: fc.constant('put-film' as const), film: fc.constantFrom(...FILMS).map(film) }),
    fc.record({ kind: fc.constant('remove-film' as const), film: fc.constantFrom(...FILMS) }),
    arbitrarySet,
  ) as fc.Arbitrary<Edit>,
  edit: fc.oneof(
    { weight: 4, arbitrary: tie('leaf') },
    {
      weight: 1,
      arbitrary: fc.record({
        kind: fc.constant('group' as const),
        label: fc.constant('Several'),
        edits: fc.array(tie('leaf'), { maxLength: 4 }),
      }),
    },
  ) as fc.Arbitrary<Edit>,
}));

const mustApply = (file: CaseFile, edit: Edit): CaseFile => {
  const after = applyEdit(file, edit);
  if (!after.ok) throw new Error(after.reason.message);
  return after.value;
};
const codeOf = (edit: Edit) => {
  const after = applyEdit(base, edit);
  return after.ok ? 'ok' : after.reason.code;
};

describe('applyEdit and invertEdit', () => {
  test('an edit followed by its inverse gives the same case, films and marks in the same order', () => {
    let applied = 0;
    fc.assert(
      fc.property(fc.array(arbitraryEdit, { minLength: 1, maxLength: 12 }), (edits) => {
        let file = base;
        for (const edit of edits) {
          const after = applyEdit(file, edit);
          if (!after.ok) continue;
          applied += 1;
          expect(mustApply(after.value, invertEdit(file, edit))).toEqual(file);
          file = deepFreeze(after.value);
        }
      }),
      { numRuns: 400 },
    );
    expect(applied).toBeGreaterThan(500);
  });

  test('inverses stacked up lead all the way back', () => {
    fc.assert(
      fc.property(fc.array(arbitraryEdit, { maxLength: 15 }), (edits) => {
        let file = base;
        const inverses: Edit[] = [];
        for (const edit of edits) {
          const after = applyEdit(file, edit);
          if (!after.ok) continue;
          inverses.push(invertEdit(file, edit));
          file = after.value;
        }
        for (const inverse of inverses.reverse()) file = mustApply(file, inverse);
        expect(file).toEqual(base);
      }),
      { numRuns: 200 },
    );
  });

  test('a group with one bad edit changes nothing', () => {
    const group: Edit = {
      kind: 'group',
      label: 'Two',
      edits: [
        { kind: 'set', field: '/title', value: 'Other' },
        { kind: 'remove-film', film: 'none' },
      ],
    };
    expect(codeOf(group)).toBe('no-such-film');
    expect(invertEdit(base, group)).toEqual({ kind: 'group', label: 'Nothing to take back', edits: [] });
  });

  test('taking a film out takes its marks along, and putting it back brings them back in place', () => {
    const edit: Edit = { kind: 'remove-film', film: 'a' };
    const without = mustApply(base, edit);
    expect(without.marks.map((m) => m.film)).toEqual(['b']);
    expect(mustApply(without, invertEdit(base, edit))).toEqual(base);
  });
});

describe('what an edit may reach', () => {
  test.each([
    '/__proto__/polluted',
    '/constructor/prototype/polluted',
    '/patient/__proto__/polluted',
    '/format',
    '/version',
    '/id',
    '/films/0/file',
    '/marks',
    '/invented',
    '/examination/unheard-of',
    'title',
    '',
    '/',
  ])('the field %j cannot be set', (field) => {
    expect(codeOf({ kind: 'set', field, value: 'x' })).toBe('field-not-editable');
    expect(codeOf({ kind: 'set', field, value: null })).toBe('field-not-editable');
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  test('a hostile name inside a value is refused as well', () => {
    const value = JSON.parse('{"__proto__": {"polluted": true}, "mcl": "intact"}') as unknown;
    expect(codeOf({ kind: 'set', field: '/examination', value })).toBe('value-not-accepted');
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  test.each([
    ['/examination/mcl', 'fine'],
    ['/examination/flexionDeg', Number.NaN],
    ['/examination/flexionDeg', '90'],
    ['/examination/openingExtensionMm', { medial: 3 }],
    ['/examination/openingExtensionMm/medial', 3],
    ['/patient/birthDate', '1956-02-31'],
    ['/title', ' '],
    ['/side', 'both'],
    ['/settings/correlations', { withinFemur: 0.5, withinTibia: 0.5 }],
    ['/settings/weights', { version: '1', weights: [{ id: 'x' }] }],
    ['/bone/femurClass', '4'],
  ])('%s does not take %j', (field, value) => {
    expect(codeOf({ kind: 'set', field, value })).toBe('value-not-accepted');
  });

  test.each(['/title', '/side', '/patient'])('%s cannot be cleared', (field) => {
    expect(codeOf({ kind: 'set', field, value: null })).toBe('field-needed');
  });

  test('a refusal names the field and the mend', () => {
    const after = applyEdit(base, { kind: 'set', field: '/examination/mcl', value: 'fine' });
    expect(after.ok ? null : after.reason).toMatchObject({
      field: '/examination/mcl',
      message: expect.stringContaining('Medial collateral ligament'),
      mend: expect.stringContaining('attenuated'),
    });
  });

  test('marks are refused that name no film, no landmark, too many points, or no number', () => {
    const mark = {
      landmark: 'femoral-notch',
      side: 'left',
      film: 'a',
      points: [{ x: 1, y: 1 }],
      how: 'by-hand',
    } as const;
    const put = (change: object) => codeOf({ kind: 'put-mark', mark: { ...mark, ...change } });
    expect(put({})).toBe('ok');
    expect(put({ film: 'z' })).toBe('mark-on-unknown-film');
    expect(put({ landmark: 'toString' })).toBe('unknown-landmark');
    expect(put({ points: [] })).toBe('wrong-number-of-points');
    expect(put({ points: [mark.points[0], mark.points[0]] })).toBe('wrong-number-of-points');
    expect(put({ points: [{ x: Number.POSITIVE_INFINITY, y: 0 }] })).toBe('not-a-finite-number');
    expect(put({ sdMm: 0 })).toBe('bad-marking-spread');
    expect(put({ side: 'both' })).toBe('bad-side');
    expect(put({ how: 'guessed' })).toBe('unknown-origin');
  });

  test('films are refused that name a folder, no view, or no size', () => {
    const put = (change: object) => codeOf({ kind: 'put-film', film: { ...film('n'), ...change } });
    expect(put({})).toBe('ok');
    expect(put({ file: '../n.dcm' })).toBe('bad-film-file');
    expect(put({ id: '' })).toBe('bad-film-id');
    expect(put({ sha256: 'abc' })).toBe('bad-film-hash');
    expect(put({ view: 'oblique' })).toBe('unknown-view');
    expect(put({ side: 'middle' })).toBe('bad-side');
    expect(put({ role: 'old' })).toBe('unknown-role');
    expect(put({ scaleFacts: { volumetric: false, derived: false, rows: 0, columns: 9 } })).toBe('bad-film-size');
  });

  test('groups nested beyond reason are refused', () => {
    let edit: Edit = { kind: 'set', field: '/title', value: 'x' };
    for (let i = 0; i < 9; i += 1) edit = { kind: 'group', label: 'g', edits: [edit] };
    expect(codeOf(edit)).toBe('group-too-deep');
  });
});

describe('describeEdit', () => {
  test('says in the trade’s words what changed', () => {
    expect(describeEdit({ kind: 'set', field: '/examination/mcl', value: 'absent' })).toBe(
      'Medial collateral ligament set to absent',
    );
    expect(describeEdit({ kind: 'set', field: '/examination/mcl', value: null })).toBe(
      'Medial collateral ligament cleared',
    );
    expect(
      describeEdit({
        kind: 'put-mark',
        mark: { landmark: 'fibular-tip', side: 'left', film: 'a', points: [{ x: 1, y: 1 }], how: 'by-hand' },
      }),
    ).toBe('Tip of the fibular head placed, left');
    expect(describeEdit({ kind: 'remove-mark', landmark: 'fibular-tip', side: 'right', film: 'a' })).toBe(
      'Tip of the fibular head taken away, right',
    );
  });
});
