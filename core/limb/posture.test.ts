import { describe, expect, test } from 'vitest';
import { apparentVarus } from '../landmarks/apparent-varus.ts';
import type { EvidencePosture } from '../landmarks/knee-evidence.ts';
import { knownCase } from '../landmarks/known-knee.ts';
import { flagsOf, lineOf } from './lines-of-a-knee.ts';
import { measureKnee } from './measure-knee.ts';

const evidence = knownCase();
const turned = (examination: EvidencePosture) => measureKnee({ ...evidence, examination });
const standing = (value: boolean | undefined) =>
  measureKnee({
    ...evidence,
    films: evidence.films.map((film) => {
      const { standing: _, ...unstated } = film;
      return value === undefined ? unstated : { ...unstated, standing: value };
    }),
  });

describe('LIMB-19 how the limb stood', () => {
  // Table of the projection law, geometry reference 5.2 (one decimal).
  test.each([
    [0, 20, 0],
    [5, 10, 0.9],
    [10, 10, 1.7],
    [10, 20, 3.4],
    [15, 15, 3.9],
    [20, 20, 6.8],
    [30, 5, 2.6],
    [30, 20, 10.3],
  ])('flexed %s, turned outward %s: %s degrees of apparent varus', (flexion, rotation, varus) =>
    expect(apparentVarus(flexion, rotation)).toBeCloseTo(varus, 0),
  );
  test('over 2 degrees the film should be taken again; turned inward it is valgus', () => {
    expect(flagsOf(turned({ filmFlexionDeg: 20, filmRotationDeg: 10 }), 'hka')).toContain('rotation-with-flexion');
    const inward = lineOf(turned({ filmFlexionDeg: 20, filmRotationDeg: -10 }), 'hka').flags;
    expect(inward.find((f) => f.code === 'rotation-with-flexion')?.message).toContain('3.5 degrees of valgus');
  });
  test('0.5 to 2 degrees are said, less is not', () => {
    expect(flagsOf(turned({ filmFlexionDeg: 10, filmRotationDeg: 5 }), 'hka')).toContain('some-rotation-with-flexion');
    expect(flagsOf(turned({ filmFlexionDeg: 2, filmRotationDeg: 5 }), 'hka')).toEqual([]);
    expect(flagsOf(turned({ filmFlexionDeg: 0, filmRotationDeg: 20 }), 'hka')).toEqual([]);
  });
  test('it concerns projected angles of the long-leg film, not widths and not the lateral film', () => {
    const lines = turned({ filmFlexionDeg: 20, filmRotationDeg: 10 });
    for (const id of ['mldfa', 'mpta', 'mad', 'tray-coronal'])
      expect(flagsOf(lines, id)).toContain('rotation-with-flexion');
    for (const id of ['tray-width', 'tibial-slope']) expect(flagsOf(lines, id)).not.toContain('rotation-with-flexion');
  });
  test('a supine film is said beside what changes under load', () => {
    for (const id of ['hka', 'jlca', 'mad', 'weight-bearing-ratio']) {
      expect(flagsOf(standing(false), id)).toContain('supine-film');
      expect(flagsOf(standing(undefined), id)).toContain('standing-not-known');
      expect(flagsOf(standing(true), id)).not.toContain('supine-film');
    }
    expect(flagsOf(standing(false), 'mldfa')).not.toContain('supine-film');
  });
});
