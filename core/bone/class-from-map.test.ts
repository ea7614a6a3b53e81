import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FLARES, type SurfaceLoss } from './bone-map.ts';
import { classFromMap, compareClass, TYPE_1_BELOW_MM } from './class-from-map.ts';
import { BONE_CLASSES, classRank, oneClassWorse } from './class-worse.ts';
import { FILM_AGREEMENT, FILM_CLASS_CAUTION } from './film-agreement.ts';
import type { MapOfBone } from './map-of-bone.ts';

const maybe = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined });
const loss = fc.record(
  {
    depthMm: maybe(fc.constantFrom(0, 3, 5, 6, 9, 12, 25)),
    unsupportedPct: maybe(fc.constantFrom(0, 30, 40, 45, 50, 55, 100)),
  },
  { requiredKeys: [] },
) as fc.Arbitrary<SurfaceLoss>;
const sides = fc.record({ medial: loss, lateral: loss });
const held = maybe(fc.constantFrom('held' as const, 'lost' as const));
const metaphysis = fc.record({ flare: maybe(fc.constantFrom(...FLARES)) });
const map: fc.Arbitrary<MapOfBone> = fc.oneof(
  fc.record({
    bone: fc.constant('femur' as const),
    map: fc.record({
      distal: sides,
      posterior: sides,
      metaphysis,
      medialCollateral: held,
      lateralCollateral: held,
      reachesEpicondyles: maybe(fc.boolean()),
    }),
  }),
  fc.record({
    bone: fc.constant('tibia' as const),
    map: fc.record({
      plateau: sides,
      metaphysis,
      medialCollateral: held,
      lateralCollateral: held,
      patellarTendon: held,
      reachesTubercle: maybe(fc.boolean()),
    }),
  }),
) as fc.Arbitrary<MapOfBone>;

/** Sets a value deep in a plain copy of the map. */
const withValue = (m: MapOfBone, path: string, value: unknown): MapOfBone => {
  const copy = structuredClone(m) as unknown as Record<string, unknown>;
  const keys = path.replace(/^bone\.(femur|tibia)Map\./, 'map.').split('.');
  let at = copy;
  for (const key of keys.slice(0, -1)) {
    at[key] ??= {};
    at = at[key] as Record<string, unknown>;
  }
  at[keys.at(-1) ?? ''] = value;
  return copy as unknown as MapOfBone;
};

const POSSIBLE: Readonly<Record<string, readonly unknown[]>> = {
  depthMm: [0, 6],
  unsupportedPct: [0, 45, 60],
  flare: [...FLARES],
  medialCollateral: ['held', 'lost'],
  lateralCollateral: ['held', 'lost'],
  patellarTendon: ['held', 'lost'],
  reachesEpicondyles: [false, true],
  reachesTubercle: [false, true],
};

const FIELDS = {
  femur: [
    ...['distal', 'posterior'].flatMap((s) =>
      ['medial', 'lateral'].flatMap((x) => [
        `bone.femurMap.${s}.${x}.depthMm`,
        `bone.femurMap.${s}.${x}.unsupportedPct`,
      ]),
    ),
    'bone.femurMap.metaphysis.flare',
    'bone.femurMap.medialCollateral',
    'bone.femurMap.lateralCollateral',
    'bone.femurMap.reachesEpicondyles',
  ],
  tibia: [
    ...['medial', 'lateral'].flatMap((x) => [
      `bone.tibiaMap.plateau.${x}.depthMm`,
      `bone.tibiaMap.plateau.${x}.unsupportedPct`,
    ]),
    'bone.tibiaMap.metaphysis.flare',
    'bone.tibiaMap.medialCollateral',
    'bone.tibiaMap.lateralCollateral',
    'bone.tibiaMap.patellarTendon',
    'bone.tibiaMap.reachesTubercle',
  ],
};

const valueAt = (m: MapOfBone, path: string): unknown =>
  path
    .replace(/^bone\.(femur|tibia)Map\./, 'map.')
    .split('.')
    .reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], m);

/** Every way in which the missing fields may turn out, each as a map without gaps. */
function completions(m: MapOfBone): readonly MapOfBone[] {
  return FIELDS[m.bone]
    .filter((path) => valueAt(m, path) === undefined)
    .reduce<readonly MapOfBone[]>(
      (worlds, path) =>
        worlds.flatMap((w) => (POSSIBLE[path.split('.').at(-1) ?? ''] ?? []).map((v) => withValue(w, path, v))),
      [m],
    );
}

const given = (m: MapOfBone) => FIELDS[m.bone].filter((path) => valueAt(m, path) !== undefined).length;

describe('class from the map, with what is missing', () => {
  test('BONE-5 proposed and worst class bound what any completion of the map gives, and both are reached', () => {
    fc.assert(
      fc.property(map, (m) => {
        fc.pre(FIELDS[m.bone].length - given(m) <= 6);
        const found = classFromMap(m);
        const ranks = completions(m).map((w) => classRank(classFromMap(w).proposed ?? '1'));
        expect(Math.max(...ranks)).toBe(classRank(found.atMost));
        if (found.proposed !== null) expect(Math.min(...ranks)).toBe(classRank(found.proposed));
      }),
      { numRuns: 60, seed: 5 },
    );
  });

  test('BONE-5 a missing field is named exactly when some completion of the others makes it count', () => {
    fc.assert(
      fc.property(map, (m) => {
        const open = FIELDS[m.bone].filter((path) => valueAt(m, path) === undefined);
        fc.pre(open.length > 0 && open.length <= 4);
        const named = new Set(classFromMap(m).missing.flatMap((x) => x.fields));
        for (const path of open) {
          const others = completions(withValue(m, path, POSSIBLE[path.split('.').at(-1) ?? '']?.[0]));
          const counts = others.some((w) => {
            const values = POSSIBLE[path.split('.').at(-1) ?? ''] ?? [];
            return new Set(values.map((v) => classFromMap(withValue(w, path, v)).proposed)).size > 1;
          });
          // Fields of one side are named together: one of them counting names both.
          if (counts) expect(named.has(path)).toBe(true);
        }
        for (const x of classFromMap(m).missing) expect(x.fields.every((f) => open.includes(f))).toBe(true);
      }),
      { numRuns: 60, seed: 6 },
    );
  });

  test('BONE-1 more loss never lowers the class', () => {
    fc.assert(
      fc.property(map, fc.nat(30), fc.constantFrom('depthMm', 'unsupportedPct'), (m, more, what) => {
        const path = FIELDS[m.bone].filter((p) => p.endsWith(what))[more % 4];
        if (path === undefined) return;
        const before = (valueAt(m, path) as number | undefined) ?? 0;
        const after = classFromMap(withValue(m, path, Math.min(100, before + more)));
        const proposed = classFromMap(withValue(m, path, before)).proposed;
        expect(classRank(after.proposed ?? '1')).toBeGreaterThanOrEqual(classRank(proposed ?? '1'));
      }),
      { seed: 7 },
    );
  });

  test('BONE-1 medial and lateral count alike', () => {
    fc.assert(
      fc.property(map, (m) => {
        const swapped = JSON.parse(
          JSON.stringify(m).replace(/\b(?:medial|lateral)/g, (side) => (side === 'medial' ? 'lateral' : 'medial')),
        ) as MapOfBone;
        const [a, b] = [classFromMap(m), classFromMap(swapped)];
        expect([b.proposed, b.atMost, b.missing.length]).toEqual([a.proposed, a.atMost, a.missing.length]);
      }),
      { seed: 8 },
    );
  });

  test('BONE-6 type 1 is never proposed from 10 mm on, nor with a flare that is not intact', () => {
    fc.assert(
      fc.property(map, (m) => {
        const flare = m.map.metaphysis?.flare;
        const depths = FIELDS[m.bone].filter((p) => p.endsWith('depthMm')).map((p) => (valueAt(m, p) as number) ?? 0);
        if (Math.max(...depths) >= TYPE_1_BELOW_MM || (flare !== undefined && flare !== 'intact'))
          expect(classFromMap(m).proposed).not.toBe('1');
      }),
      { seed: 9 },
    );
  });

  test('BONE-5 in words: what is proved, and what each missing field would make of it', () => {
    const found = classFromMap({
      bone: 'tibia',
      map: {
        plateau: { medial: { depthMm: 7, unsupportedPct: 30 }, lateral: { unsupportedPct: 10 } },
        metaphysis: { flare: 'intact' },
        medialCollateral: 'held',
        lateralCollateral: 'held',
        reachesTubercle: false,
      },
    });
    expect(found.words).toBe(
      '2A, or 2B if the lateral side is more than 5 mm deep, or 3 if the patellar tendon is lost',
    );
    expect(found.missing).toEqual([
      {
        what: 'Depth of the loss, lateral plateau',
        fields: ['bone.tibiaMap.plateau.lateral.depthMm'],
        wouldChange: '2B if the lateral side is more than 5 mm deep',
      },
      {
        what: 'Attachment of the patellar tendon',
        fields: ['bone.tibiaMap.patellarTendon'],
        wouldChange: '3 if the patellar tendon is lost',
      },
    ]);
    expect(found.reasons).toEqual(['the medial side wants rebuilding: 7 mm deep, over 5']);
  });

  test('BONE-5 an empty map proposes nothing and leaves everything open; one lost attachment proves type 3', () => {
    const empty = classFromMap({ bone: 'femur', map: {} });
    expect([empty.proposed, empty.atMost]).toEqual([null, '3']);
    expect(empty.missing.length).toBe(8);
    const lost = classFromMap({ bone: 'femur', map: { medialCollateral: 'lost' } });
    expect([lost.proposed, lost.atMost, lost.missing.length]).toEqual(['3', '3', 0]);
  });

  test("BONE-5 the surgeon's class beside the proposal: same, possible, milder, worse", () => {
    const twoA = { proposed: '2A', atMost: '2B' } as const;
    const base = { reasons: [], missing: [], words: '', otherReading: null };
    const stand = (stated: '1' | '2A' | '2B' | '3' | undefined) => compareClass(stated, { ...base, ...twoA });
    expect([undefined, '1', '2A', '2B', '3'].map((c) => stand(c as '1'))).toEqual([
      'not-stated',
      'milder',
      'same',
      'possible',
      'worse',
    ]);
    expect(compareClass('1', { ...base, proposed: null, atMost: '3' })).toBe('nothing-proposed');
  });
});

describe('how far the class on films is to be trusted', () => {
  test('BONE-8 the kit is for one class worse; type 3 has nothing worse', () => {
    expect(BONE_CLASSES.map(oneClassWorse)).toEqual(['2A', '2B', '3', '3']);
  });

  test('BONE-8 published agreement has n and source, and the caution says fair', () => {
    for (const a of FILM_AGREEMENT) expect([/\d/.test(a.n), a.source.length > 5]).toEqual([true, true]);
    expect(FILM_CLASS_CAUTION).toContain('fairly');
    // Landis and Koch 1977 (Biometrics 33:159): fair is 0.21 to 0.40, substantial 0.61 to 0.80.
    expect(FILM_AGREEMENT[0]?.value).toContain('0.21 and 0.40');
  });
});
