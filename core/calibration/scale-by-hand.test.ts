import { describe, expect, test } from 'vitest';
import type { FilmScaleFacts } from './film-scale-facts.ts';
import { type ScaleByHand, scaleByHand } from './scale-by-hand.ts';

const film: FilmScaleFacts = {
  volumetric: false,
  rows: 3000,
  columns: 2400,
  derived: false,
  imagerPixelSpacing: [0.2, 0.2],
};

const scale = (choice: ScaleByHand, facts: FilmScaleFacts = film) => {
  const outcome = scaleByHand(facts, choice);
  if (!outcome.ok) throw new Error(outcome.reason.message);
  return outcome.value;
};

const refusal = (choice: ScaleByHand, facts: FilmScaleFacts = film) => {
  const outcome = scaleByHand(facts, choice);
  return outcome.ok ? undefined : outcome.reason;
};

describe('scale by hand', () => {
  test('SCALE-14 a tray of 74 mm over 430 px earns 1 %', () => {
    // 0.5 mm on both edges of 74 mm is 0.68 %; with 0.7 % for make and plane 0.97 %: the published 1 %.
    const s = scale({ kind: 'known-implant', widthMm: 74, widthPx: 430 });
    expect(s.mmPerPx.x).toBeCloseTo(0.17209, 5);
    expect(s.relativeSd).toBeCloseTo(0.00974, 4);
    expect(s).toMatchObject({ source: 'known-implant', rule: 'SCALE-14', doubtful: false });
  });

  test('SCALE-14 marks of the edges with a spread of their own replace the default', () => {
    const s = scale({ kind: 'known-implant', widthMm: 74, widthPx: 400, widthSdPx: 8 });
    expect(s.relativeSd).toBeCloseTo(Math.hypot(0.007, 0.02), 6);
  });

  test('SCALE-15 a ball earns 2 %, more when its outline or its depth is uncertain, and says where it holds', () => {
    expect(scale({ kind: 'ball', diameterMm: 25, diameterPx: 143 }).relativeSd).toBeCloseTo(0.02, 6);
    const deep = scale({
      kind: 'ball',
      diameterMm: 25,
      diameterPx: 143,
      diameterSdPx: 1.43,
      depth: { sdMm: 10, sourceToBallMm: 1000 },
    });
    // Marker test, published: 1 cm of depth costs about 1 %.
    expect(deep.relativeSd).toBeCloseTo(Math.hypot(0.02, 0.01, 0.01), 6);
    const outcome = scaleByHand(film, { kind: 'ball', diameterMm: 25, diameterPx: 143 });
    expect(outcome.ok && outcome.warnings.map((w) => w.code)).toEqual(['scale-holds-at-marker-depth']);
  });

  test('SCALE-12 a stated magnification divides the detector spacing, never a calibrated Pixel Spacing', () => {
    const facts = { ...film, pixelSpacing: [0.17, 0.17] as const };
    const s = scale({ kind: 'magnification', factor: 1.15, from: 'film form' }, facts);
    expect(s.mmPerPx.x).toBeCloseTo(0.173913, 6);
    expect(s).toMatchObject({ source: 'stated-magnification', rule: 'SCALE-12', relativeSd: 0.05, doubtful: true });
  });

  test('SCALE-13 distances: 1150 mm to the detector and 1000 mm to the knee enlarge by 1.15', () => {
    // Published worked set-up: SID 115 cm, object 15 cm off the detector, M = 1.150.
    const s = scale({ kind: 'distances', sourceToDetectorMm: 1150, sourceToKneeMm: 1000, from: 'room' });
    expect(s.mmPerPx.x).toBeCloseTo(0.2 / 1.15, 9);
    expect(s).toMatchObject({ source: 'assumed-distance', rule: 'SCALE-13' });
  });

  test('SCALE-16 a stated spacing is taken and doubted; pixels that are not square keep their shape', () => {
    const picture = { volumetric: false, rows: 10, columns: 10, derived: true, pixelAspect: 1.25 };
    const s = scale({ kind: 'stated-spacing', mmPerPx: 0.2, from: 'scan protocol' }, picture);
    expect(s.mmPerPx).toEqual({ x: 0.2, y: 0.25 });
    expect(s.doubtful).toBe(true);
  });

  test('SCALE-12 a magnification needs a spacing at the detector and lies between 1.00 and 1.40', () => {
    const bare = { volumetric: false, rows: 10, columns: 10, derived: false };
    expect(refusal({ kind: 'magnification', factor: 1.1, from: 'x' }, bare)?.code).toBe('no-detector-spacing');
    expect(refusal({ kind: 'magnification', factor: 0.9, from: 'x' })?.code).toBe('magnification-implausible');
    expect(refusal({ kind: 'magnification', factor: 1.5, from: 'x' })?.code).toBe('magnification-implausible');
    expect(refusal({ kind: 'distances', sourceToDetectorMm: 1000, sourceToKneeMm: 1150, from: 'swapped' })?.code).toBe(
      'magnification-implausible',
    );
  });

  test('SCALE-14 zero, negative and endless numbers are refused by name', () => {
    for (const widthPx of [0, -5, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(refusal({ kind: 'known-implant', widthMm: 74, widthPx })).toMatchObject({
        code: 'scale-not-above-zero',
        field: 'scale.widthPx',
      });
    }
  });

  test('SCALE-22 a film that contradicts itself about the shape of its pixels takes no scale', () => {
    const facts = { ...film, pixelAspect: 1.3 };
    expect(refusal({ kind: 'ball', diameterMm: 25, diameterPx: 100 }, facts)?.code).toBe('pixel-aspect-contradicted');
  });
});
