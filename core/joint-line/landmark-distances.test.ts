import { describe, expect, test } from 'vitest';
import {
  DEFAULT_CORRELATIONS,
  FEMORAL_DISTANCES,
  LANDMARK_DISTANCES_VERSION,
  type Population,
  TIBIAL_DISTANCES,
} from './landmark-distances.ts';

const row = (landmark: string) => {
  const found = FEMORAL_DISTANCES.find((d) => d.landmark === landmark);
  if (!found) throw new Error(landmark);
  return found;
};
const mm = (landmark: string, width: number, population: Population = 'pooled') =>
  row(landmark).ratio[population] * width;
const tibial = (landmark: string) => TIBIAL_DISTANCES.find((d) => d.landmark === landmark)?.distanceMm ?? Number.NaN;

// Published measurements, geometry reference 4.2, 4.3 and 10.1; each default must lie within one of its own spreads of them.
describe('the table against published knees', () => {
  test('JL-1 P13: width 85 puts the adductor tubercle at 45.05 mm (Iacono)', () =>
    expect(Math.abs(mm('adductor-tubercle', 85, 'european') - 45.05)).toBeLessThan(1));
  test('JL-1 P14: width 80 puts it between 43.84 (men) and 44.96 mm (women) in Chinese knees (Gao)', () => {
    expect(mm('adductor-tubercle', 80, 'chinese')).toBeGreaterThan(43.84);
    expect(mm('adductor-tubercle', 80, 'chinese')).toBeLessThan(44.96);
  });
  test('JL-2 P8, P15: one third of a width of 81 mm is 27.0 mm to the medial epicondyle (Rajagopal)', () => {
    expect(81 / 3).toBe(27);
    expect(Math.abs(mm('medial-epicondyle', 81) - 27)).toBeLessThan(row('medial-epicondyle').ratioSd * 81);
  });
  test.each([
    ['JL-1', 'adductor-tubercle', 49.4],
    ['JL-2', 'medial-epicondyle', 28.3],
    ['JL-3', 'lateral-epicondyle', 26.9],
  ] as const)('%s P7: %s of 451 radiographs at a width of 89.3 mm is %s mm (Gao)', (_, id, published) =>
    expect(Math.abs(mm(id, 89.3, 'chinese') - published)).toBeLessThan(row(id).ratioSd * 89.3),
  );
  test.each([
    ['JL-2', 'medial-epicondyle', 27.1],
    ['JL-3', 'lateral-epicondyle', 21.7],
  ] as const)('%s P6: %s of 140 Thai knees at 76.7 mm is %s mm', (_, id, published) =>
    expect(Math.abs(mm(id, 76.7) - published)).toBeLessThan(row(id).ratioSd * 76.7),
  );
  test('JL-4 P6: fibular tip 12.6 (Thai), 11.9 (cadaver CT), 14 mm (Servien) within its spread of 4', () => {
    for (const published of [12.6, 11.9, 14]) expect(Math.abs(tibial('fibular-tip') - published)).toBeLessThan(4);
  });
  test('JL-5 P6: tubercle 21.3 (Thai), 22 mm (Servien)', () => {
    for (const published of [21.3, 22]) expect(Math.abs(tibial('tibial-tubercle') - published)).toBeLessThan(1);
  });
});

describe('the table itself', () => {
  test('JL-8 spreads at a width of 80 mm are 2.6, 2.4 and 2.1 mm', () => {
    const sd = ['adductor-tubercle', 'medial-epicondyle', 'lateral-epicondyle'].map((id) => row(id).ratioSd * 80);
    expect(sd).toEqual([expect.closeTo(2.6, 1), expect.closeTo(2.4, 1), expect.closeTo(2.1, 1)]);
  });
  test('JL-8 default correlations .5 within the femur, .4 within the tibia, .1 across', () =>
    expect(DEFAULT_CORRELATIONS).toEqual({ withinFemur: 0.5, withinTibia: 0.4, across: 0.1 }));
  test('has a version, and a rule and a source in every row', () => {
    expect(LANDMARK_DISTANCES_VERSION).toMatch(/^\d+\.\d+$/);
    for (const d of [...FEMORAL_DISTANCES, ...TIBIAL_DISTANCES]) {
      expect(d.rule).toMatch(/^JL-\d+$/);
      expect(d.source.length).toBeGreaterThan(5);
    }
  });
});
