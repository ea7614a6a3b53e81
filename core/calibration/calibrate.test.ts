import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { calibrate, scalesAgree } from './calibrate.ts';
import { type Calibration, hasMillimetres, SCALE_SOURCES } from './calibration.ts';
import type { FilmScaleFacts } from './film-scale-facts.ts';
import { lengthMm } from './length.ts';
import { plausibleScale } from './plausible-scale.ts';
import { scaleConsistency } from './scale-consistency.ts';

const bare: FilmScaleFacts = { volumetric: false, rows: 3000, columns: 2400, derived: false };
const fiducial: FilmScaleFacts = {
  ...bare,
  imagerPixelSpacing: [0.15, 0.15],
  pixelSpacing: [0.13, 0.13],
  calibrationType: 'FIDUCIAL',
};

const scale = (facts: FilmScaleFacts, options = {}) => {
  const outcome = calibrate(facts, options);
  if (!outcome.ok) throw new Error(outcome.reason.message);
  return { scale: outcome.value, codes: outcome.warnings.map((w) => w.code) };
};

describe('calibrate', () => {
  test('SCALE-1 what a person measured on the film goes before what the file says', () => {
    const byHand = { kind: 'known-implant', widthMm: 74, widthPx: 74 / 0.1305 } as const;
    expect(scale(fiducial, { byHand })).toMatchObject({
      scale: { source: 'known-implant', rule: 'SCALE-14' },
      codes: [],
    });
    expect(scale(fiducial).scale).toMatchObject({ source: 'marker', rule: 'SCALE-3' });
  });

  test('SCALE-17 a long-leg film is doubtful and carries 2 % more', () => {
    const long = scale(fiducial, { longLeg: true });
    expect(long.scale).toMatchObject({ doubtful: true });
    expect(hasMillimetres(long.scale) && long.scale.relativeSd).toBeCloseTo(Math.hypot(0.02, 0.02), 9);
    expect(long.codes).toContain('scale-differs-along-leg');
    expect(scale({ ...fiducial, stitched: true }).scale).toMatchObject({ doubtful: true });
    expect(scale(bare, { longLeg: true }).scale.source).toBe('none');
  });

  test('SCALE-20 two scales that differ by more than 3 % are warned of, 3 % are not', () => {
    const of = (mm: number) => ({ kind: 'known-implant', widthMm: 100, widthPx: 100 / mm }) as const;
    expect(scale(fiducial, { byHand: of(0.13 * 1.029) }).codes).not.toContain('scales-disagree');
    expect(scale(fiducial, { byHand: of(0.13 * 1.031) }).codes).toContain('scales-disagree');
    expect(scale(fiducial, { byHand: of(0.13 / 1.031) }).codes).toContain('scales-disagree');
    expect(scalesAgree(scale(bare).scale, scale(fiducial).scale)).toEqual([]);
  });

  test('SCALE-21 without a scale there is no length, and the reason says how to earn one', () => {
    const length = lengthMm(scale(bare).scale, 100, { axis: 'x' });
    expect(length).toMatchObject({ ok: false, reason: { code: 'no-scale' } });
    expect(length.ok ? '' : length.reason.mend).toContain('implant of known width');
  });

  test('SCALE-21 a length keeps its sign, its axis and the spread of scale and marking', () => {
    const { scale: s } = scale({ ...bare, volumetric: true, pixelSpacing: [0.5, 0.4] });
    const length = lengthMm(s, -100, { axis: 'y', sdPx: 2 });
    expect(length.ok && length.value).toEqual({ value: -50, unit: 'mm', sd: Math.hypot(0.1, 1) });
    expect(lengthMm(s, Number.NaN, { axis: 'x' }).ok).toBe(false);
  });

  test('SCALE-21 no finite input lets a NaN out', () => {
    const spacing = fc.tuple(fc.double({ min: -1, max: 2, noNaN: true }), fc.double({ min: -1, max: 2, noNaN: true }));
    const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });
    const facts = fc.record({
      pixelSpacing: maybe(spacing),
      imagerPixelSpacing: maybe(spacing),
      nominalScannedPixelSpacing: maybe(spacing),
      magnificationFactor: maybe(fc.double({ min: -2, max: 3, noNaN: true })),
      pixelAspect: maybe(fc.double({ min: -1, max: 3, noNaN: true })),
      calibrationType: maybe(fc.constantFrom('GEOMETRY' as const, 'FIDUCIAL' as const)),
      fieldOfViewMm: maybe(fc.array(fc.double({ min: 0, max: 500, noNaN: true }), { maxLength: 2 })),
      volumetric: fc.boolean(),
    });
    fc.assert(
      fc.property(facts, (some) => {
        const known = Object.fromEntries(Object.entries(some).filter(([, v]) => v !== undefined));
        const { scale: s } = scale({ ...bare, ...known });
        if (!hasMillimetres(s)) return s.pixelAspect === null || s.pixelAspect > 0;
        return s.mmPerPx.x > 0 && s.mmPerPx.y > 0 && s.relativeSd > 0 && SCALE_SOURCES.includes(s.source);
      }),
    );
  });
});

describe('consistency of what a file says', () => {
  const codes = (facts: Partial<FilmScaleFacts>) => scaleConsistency({ ...bare, ...facts }).map((w) => w.code);

  test('SCALE-18 a film without contradiction is passed without a word', () => {
    expect(
      codes({
        imagerPixelSpacing: [0.15, 0.15],
        fieldOfViewMm: [450, 360],
        magnificationFactor: 1.15,
        sourceToDetectorMm: 1150,
        sourceToPatientMm: 1000,
        pixelAspect: 1,
      }),
    ).toEqual([]);
  });

  test('SCALE-18 each contradiction is named', () => {
    expect(codes({ pixelSpacing: [0.15, -0.15] })).toEqual(['scale-spacing-unusable']);
    expect(codes({ imagerPixelSpacing: [0.15, 0.15], pixelAspect: 1.5 })).toEqual(['scale-aspect-contradicted']);
    expect(codes({ imagerPixelSpacing: [0.15, 0.15], fieldOfViewMm: [900, 720] })).toEqual(['scale-field-of-view']);
    expect(codes({ imagerPixelSpacing: [0.15, 0.15], fieldOfViewMm: [900, 720], derived: true })).toEqual([
      'scale-downsampled',
    ]);
    expect(codes({ magnificationFactor: 0.8 })).toEqual(['scale-magnification-below-1']);
    expect(codes({ magnificationFactor: 1.1, sourceToDetectorMm: 1150, sourceToPatientMm: 1000 })).toEqual([
      'scale-magnification-contradicted',
    ]);
  });
});

describe('plausible scale', () => {
  const of = (mm: number): Calibration => ({
    source: 'marker',
    mmPerPx: { x: mm, y: mm },
    relativeSd: 0.02,
    rule: 'SCALE-15',
    because: '',
    doubtful: false,
  });

  test('SCALE-19 no adult knee is refused under a right scale, every one under a scale wrong by two or by half', () => {
    // Published means ± 3 SD (Malay and Bosnian series): 55.3 to 94.5 mm; enlargement left in, 1.15.
    for (const width of [56, 64.5, 74.9, 82.65, 94.5]) {
      const knee = { bone: 'femur', widthPx: width / 0.15 } as const;
      expect(plausibleScale(of(0.15), knee).ok).toBe(true);
      expect(plausibleScale(of(0.15 * 1.15), knee).ok).toBe(true);
      expect(plausibleScale(of(0.3), knee).ok).toBe(false);
      expect(plausibleScale(of(0.075), knee).ok).toBe(false);
    }
  });

  test('SCALE-19 the refusal names the width and the mend', () => {
    const outcome = plausibleScale(of(0.3), { bone: 'tibia', widthPx: 500 });
    expect(outcome).toMatchObject({ ok: false, reason: { code: 'scale-implausible', field: 'scale' } });
    expect(outcome.ok ? '' : outcome.reason.message).toContain('150 mm');
    expect(plausibleScale(of(0.3), { bone: 'tibia', widthPx: Number.NaN }).ok).toBe(false);
  });
});
