import { describe, expect, test } from 'vitest';
import type { FemurMap, SurfaceLoss, TibiaMap } from './bone-map.ts';
import { classFromMap } from './class-from-map.ts';

// Cases built from the published criteria of the Anderson Orthopaedic Research Institute classes. Sources beside each:
// E = Engh, chapter on the classes (meaning; shortened profile; landmarks); R = Rosso 2019 (J Orthop Surg Res), tables 1 and 2
// (numbers; treatment); O = originators' wording that attachments may be lost against secondary sources that they are.
const none: SurfaceLoss = { depthMm: 0, unsupportedPct: 0 };
const loss = (depthMm: number, unsupportedPct: number): SurfaceLoss => ({ depthMm, unsupportedPct });

const femur = (medial: SurfaceLoss, lateral: SurfaceLoss, rest: FemurMap = {}) =>
  ({
    bone: 'femur',
    map: {
      distal: { medial, lateral },
      posterior: { medial: none, lateral: none },
      metaphysis: { flare: 'intact' },
      medialCollateral: 'held',
      lateralCollateral: 'held',
      reachesEpicondyles: false,
      ...rest,
    },
  }) as const;
const tibia = (medial: SurfaceLoss, lateral: SurfaceLoss, rest: TibiaMap = {}) =>
  ({
    bone: 'tibia',
    map: {
      plateau: { medial, lateral },
      metaphysis: { flare: 'intact' },
      medialCollateral: 'held',
      lateralCollateral: 'held',
      patellarTendon: 'held',
      reachesTubercle: false,
      ...rest,
    },
  }) as const;
const flare = (f: 'short-medial' | 'short-lateral' | 'short-both' | 'absent') => ({ metaphysis: { flare: f } });

const CASES = [
  ['F1', 'E', 'no loss, metaphysis intact', femur(none, none), '1'],
  ['F1', 'E', 'minor loss that leaves the component stable', femur(loss(3, 10), loss(2, 10)), '1'],
  ['F1', 'R', 'under 5 mm on both sides, under 40 %', femur(loss(4, 35), loss(4, 35)), '1'],
  ['F2A', 'E', 'medial condyle wants rebuilding, lateral sound', femur(loss(8, 45), none), '2A'],
  ['F2A', 'E', 'lateral condyle wants rebuilding, medial sound', femur(none, loss(8, 45)), '2A'],
  ['F2A', 'E', 'profile shortened on one side', femur(loss(4, 20), none, flare('short-medial')), '2A'],
  ['F2A', 'R', 'shallow but 45 % of one condyle unsupported', femur(none, loss(3, 45)), '2A'],
  [
    'F2A',
    'E',
    'one posterior condyle wants rebuilding, distal sound',
    femur(none, none, { posterior: { medial: loss(9, 50), lateral: none } }),
    '2A',
  ],
  ['F2B', 'E', 'both condyles want rebuilding', femur(loss(8, 45), loss(7, 45)), '2B'],
  ['F2B', 'E', 'profile shortened on both sides', femur(loss(4, 30), loss(4, 30), flare('short-both')), '2B'],
  [
    'F2B',
    'E',
    'medial distal and lateral posterior condyle want rebuilding',
    femur(loss(9, 45), none, { posterior: { medial: none, lateral: loss(8, 45) } }),
    '2B',
  ],
  ['F2B', 'E', 'elevated component, flare still below the epicondyles', femur(loss(14, 80), loss(13, 80)), '2B'],
  [
    'F3',
    'E',
    'metaphyseal segment deficient, major part of a condyle',
    femur(loss(18, 70), loss(8, 45), flare('absent')),
    '3',
  ],
  ['F3', 'E', 'loss reaches the epicondyles', femur(loss(22, 80), loss(20, 80), { reachesEpicondyles: true }), '3'],
  ['F3', 'O', 'collateral detached with the condyle', femur(loss(15, 60), none, { medialCollateral: 'lost' }), '3'],
  [
    'F3',
    'O',
    'deficient segment with attachments held is type 3 all the same',
    femur(loss(15, 90), loss(15, 90), flare('absent')),
    '3',
  ],
  ['T1', 'E', 'full flare, no subsidence', tibia(none, loss(1, 5)), '1'],
  ['T1', 'R', 'contained loss of 4 mm, a third of the plateau', tibia({ ...loss(4, 33), contained: true }, none), '1'],
  ['T2A', 'E', 'unilateral sinkage: medial plateau', tibia(loss(9, 50), none), '2A'],
  ['T2A', 'E', 'flare shortened on the lateral side', tibia(none, loss(5, 30), flare('short-lateral')), '2A'],
  ['T2A', 'R', 'block territory: 12 mm, 45 % of one plateau', tibia(loss(12, 45), loss(2, 5)), '2A'],
  ['T2B', 'E', 'both plateaus', tibia(loss(9, 60), loss(8, 55)), '2B'],
  [
    'T2B',
    'E',
    'flare shortened on both sides, tray at the fibular tip',
    tibia(loss(14, 90), loss(14, 90), flare('short-both')),
    '2B',
  ],
  ['T3', 'E', 'metaphyseal segment absent', tibia(loss(25, 90), loss(25, 90), flare('absent')), '3'],
  [
    'T3',
    'E',
    'below the fibular head, beyond the tubercle',
    tibia(loss(30, 100), loss(30, 100), { reachesTubercle: true }),
    '3',
  ],
  ['T3', 'O', 'patellar tendon attachment lost', tibia(loss(12, 60), loss(12, 60), { patellarTendon: 'lost' }), '3'],
] as const;

describe('cases built from the published criteria', () => {
  test.each(CASES)('BONE-1 BONE-2 %s (%s): %s', (_, __, ___, map, expected) => {
    const found = classFromMap(map);
    expect(found.proposed).toBe(expected);
    // Every field is known: nothing is left open.
    expect(found.atMost).toBe(expected);
    expect(found.missing).toEqual([]);
    expect(found.words).toBe(expected);
  });

  test('there are 26 of them, every class of both bones at least twice', () => {
    const classes = CASES.map(([name]) => name);
    for (const c of ['F1', 'F2A', 'F2B', 'F3', 'T1', 'T2A', 'T2B', 'T3'])
      expect(classes.filter((x) => x === c).length).toBeGreaterThanOrEqual(2);
    expect(CASES.length).toBe(26);
  });

  test('BONE-6 the trade would call a contained 7 mm with intact metaphysis type 1: shown beside the proposal', () => {
    const found = classFromMap(tibia(loss(7, 30), none));
    expect(found.proposed).toBe('2A');
    expect(found.otherReading?.boneClass).toBe('1');
    expect(classFromMap(tibia(loss(10, 30), none)).otherReading).toBeNull();
    expect(classFromMap(tibia(loss(7, 45), none)).otherReading).toBeNull();
    expect(classFromMap(tibia(loss(7, 30), none, { metaphysis: {} })).otherReading).toBeNull();
  });
});
