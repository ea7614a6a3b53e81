import { describe, expect, test } from 'vitest';
import { type DefectOfBone, proposeBoneClass } from './propose-class.ts';
import { zonesAreDemanded, zonesOfFixation } from './zones.ts';

const none = { depthMm: 0, unsupportedPct: 0 };
const sound: DefectOfBone = {
  bone: 'femur',
  medial: none,
  lateral: none,
  flareIntact: true,
  attachmentLost: false,
  reachesLandmark: false,
};

describe('proposed class of bone loss', () => {
  test('BONE-1 none, one and both sides that want rebuilding', () => {
    expect(proposeBoneClass(sound).boneClass).toBe('1');
    expect(proposeBoneClass({ ...sound, medial: { depthMm: 7, unsupportedPct: 10 } }).boneClass).toBe('2A');
    expect(proposeBoneClass({ ...sound, lateral: { depthMm: 2, unsupportedPct: 45 } }).boneClass).toBe('2A');
    const both = { ...sound, medial: { depthMm: 6, unsupportedPct: 0 }, lateral: { depthMm: 0, unsupportedPct: 41 } };
    expect(proposeBoneClass(both)).toMatchObject({ boneClass: '2B' });
    expect(proposeBoneClass(both).reasons).toHaveLength(2);
  });

  test('BONE-1 exactly 5 mm and 40 % do not yet want rebuilding', () => {
    expect(proposeBoneClass({ ...sound, medial: { depthMm: 5, unsupportedPct: 40 } }).boneClass).toBe('1');
  });

  test('BONE-2 each way to type 3; ligament loss is enough and not needed', () => {
    expect(proposeBoneClass({ ...sound, attachmentLost: true }).boneClass).toBe('3');
    expect(proposeBoneClass({ ...sound, reachesLandmark: true }).reasons).toEqual(['the loss reaches the epicondyles']);
    const major = { ...sound, flareIntact: false, medial: { depthMm: 12, unsupportedPct: 55 } };
    expect(proposeBoneClass(major).boneClass).toBe('3');
    expect(proposeBoneClass({ ...major, flareIntact: true }).boneClass).toBe('2A');
  });
});

describe('zones of fixation', () => {
  test('BONE-3 what counts as solid, and what is not known', () => {
    const zones = (
      boneClass: '1' | '2A' | '2B' | '3',
      quality: 'good' | 'osteoporotic' | 'unknown',
      stem: boolean,
      cone: boolean,
    ) => zonesOfFixation({ boneClass, quality, stem, cone });
    expect(zones('1', 'good', false, false)).toEqual({ solid: [1, 2], unknown: [] });
    expect(zones('1', 'osteoporotic', true, false)).toEqual({ solid: [2, 3], unknown: [] });
    expect(zones('1', 'unknown', false, false)).toEqual({ solid: [2], unknown: [1] });
    expect(zones('2A', 'good', true, false)).toEqual({ solid: [1, 3], unknown: [] });
    expect(zones('2B', 'good', true, false)).toEqual({ solid: [3], unknown: [] });
    expect(zones('3', 'unknown', true, true)).toEqual({ solid: [2, 3], unknown: [] });
  });

  test('BONE-4 two zones are demanded in classes 2B and 3 only', () => {
    expect((['1', '2A', '2B', '3'] as const).map(zonesAreDemanded)).toEqual([false, false, true, true]);
  });
});
