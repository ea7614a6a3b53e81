import { describe, expect, test } from 'vitest';
import { type DrawnLimb, type DrawnPerson, drawPerson, type Sex } from './anthropometry.ts';

const N = 200;
const people = (sex: Sex): DrawnPerson[] => Array.from({ length: N }, (_, i) => drawPerson(i + 1, sex));
const women = people('female');
const men = people('male');
const everyone = [...women, ...men];

const mean = (v: readonly number[]) => v.reduce((s, x) => s + x, 0) / v.length;
const sd = (v: readonly number[]) => Math.sqrt(v.reduce((s, x) => s + (x - mean(v)) ** 2, 0) / (v.length - 1));

/** Mean within three standard errors, spread within a quarter of what is published. */
function agrees(values: readonly number[], published: { mean: number; sd: number; spreadWithin?: number }): void {
  const standardError = published.sd / Math.sqrt(values.length);
  expect(Math.abs(mean(values) - published.mean)).toBeLessThan(3 * standardError);
  expect(Math.abs(sd(values) / published.sd - 1)).toBeLessThan(published.spreadWithin ?? 0.25);
}

const of = (group: readonly DrawnPerson[], what: (l: DrawnLimb) => number) => group.map((p) => what(p.right));

describe('200 drawn limbs of each sex against published means', () => {
  // Maiden recipe: Western epicondylar widths 83 +- 4 and 73 +- 3.5 mm (Bosnian dry bones: 82.65 +- 3.96, 72.47 +- 3.49).
  test('epicondylar width', () => {
    agrees(
      of(men, (l) => l.epicondylarWidthMm),
      { mean: 83, sd: 4 },
    );
    agrees(
      of(women, (l) => l.epicondylarWidthMm),
      { mean: 73, sd: 3.5 },
    );
  });

  // Trotter and Gleser: stature = 2.38 femur + 61.41 (men), 2.47 femur + 54.10 (women), cm; dry femora 432-471 and 402-441 mm.
  test('femoral length follows stature', () => {
    agrees(
      of(men, (l) => l.femurMm),
      { mean: 481.5, sd: 32.2 },
    );
    agrees(
      of(women, (l) => l.femurMm),
      { mean: 440.9, sd: 29.4 },
    );
  });

  // 1077 limbs on long-leg films: femur over tibia 1.28 (1.16 to 1.39).
  test('femur over tibia', () => {
    const ratio = of(everyone, (l) => l.femurMm / l.tibiaMm);
    expect(mean(ratio)).toBeCloseTo(1.28, 1.9);
    expect(Math.min(...ratio)).toBeGreaterThan(1.1);
    expect(Math.max(...ratio)).toBeLessThan(1.45);
  });

  // Pooled ratios to the epicondylar width: adductor tubercle .544, medial epicondyle .328, lateral .292.
  test('heights of adductor tubercle and epicondyles as shares of the width', () => {
    agrees(
      of(everyone, (l) => l.adductorTubercleMm / l.epicondylarWidthMm),
      { mean: 0.544, sd: 0.03 },
    );
    agrees(
      of(everyone, (l) => l.medialEpicondyleMm / l.epicondylarWidthMm),
      { mean: 0.328, sd: 0.026 },
    );
    agrees(
      of(everyone, (l) => l.lateralEpicondyleMm / l.epicondylarWidthMm),
      { mean: 0.292, sd: 0.024 },
    );
  });

  test('those three ratios err together, r about 0.5', () => {
    const z = (what: (l: DrawnLimb) => number) => {
      const v = of(everyone, (l) => what(l) / l.epicondylarWidthMm);
      const [m, s] = [mean(v), sd(v)];
      return v.map((x) => (x - m) / s);
    };
    const a = z((l) => l.adductorTubercleMm);
    const b = z((l) => l.medialEpicondyleMm);
    expect(mean(a.map((x, i) => x * b[i]!))).toBeCloseTo(0.5, 0.8);
  });

  // Paley: mLDFA 88 (85-90), MPTA 87 (85-90); CT series: AMA 5.4 +- 0.7 to 0.9.
  test('angles of the coronal plane', () => {
    agrees(
      of(everyone, (l) => l.mldfaDeg),
      { mean: 88, sd: 2 },
    );
    agrees(
      of(everyone, (l) => l.mptaDeg),
      { mean: 87, sd: 2.2 },
    );
    agrees(
      of(everyone, (l) => l.amaDeg),
      { mean: 5.4, sd: 0.9 },
    );
  });

  // 500 normal knees: HKA -1.33 +- 2.34.
  test('HKA of healthy limbs comes out of its parts', () => {
    const hka = of(everyone, (l) => l.mptaDeg - l.mldfaDeg - l.jlcaDeg);
    expect(mean(hka)).toBeGreaterThan(-2.2);
    expect(mean(hka)).toBeLessThan(-0.7);
  });

  // Johal 2012: posterior condylar offset ratio .44 +- .02; fibular tip 13 +- 3.5 mm; slope 7.5 +- 3.5; Insall-Salvati 1.05 +- .15.
  test('sagittal shape, fibular tip and patella', () => {
    agrees(
      of(everyone, (l) => l.pcor),
      { mean: 0.44, sd: 0.02 },
    );
    agrees(
      of(everyone, (l) => l.fibularTipMm),
      { mean: 13, sd: 3.5 },
    );
    agrees(
      of(everyone, (l) => l.slopeDeg),
      { mean: 7.5, sd: 3.5 },
    );
    agrees(
      of(everyone, (l) => l.insallSalvati),
      { mean: 1.05, sd: 0.15 },
    );
  });

  // 233 healthy people on CT: mean difference between sides HKA 1.5, MPTA 1.1, LDFA 1.2 degrees; fibular tip 1.6 mm (96 legs).
  test('the two legs differ as healthy legs do', () => {
    const apart = (what: (l: DrawnLimb) => number) => mean(everyone.map((p) => Math.abs(what(p.right) - what(p.left))));
    expect(apart((l) => l.mldfaDeg)).toBeGreaterThan(0.5);
    expect(apart((l) => l.mldfaDeg)).toBeLessThan(1.3);
    expect(apart((l) => l.mptaDeg)).toBeLessThan(1.2);
    expect(apart((l) => l.fibularTipMm)).toBeLessThan(1.7);
  });

  test('the same seed draws the same person, another seed another one', () => {
    expect(drawPerson(5)).toEqual(drawPerson(5));
    expect(drawPerson(5)).not.toEqual(drawPerson(6));
  });
});
