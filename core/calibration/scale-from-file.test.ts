import { describe, expect, test } from 'vitest';
import type { FilmScaleFacts } from './film-scale-facts.ts';
import { scaleFromFile } from './scale-from-file.ts';

// Expected rows: DICOM PS3.3 10.7.1.1 to 10.7.1.3 as laid out in docs/rules/scale.md.
const film = (facts: Partial<FilmScaleFacts>): FilmScaleFacts => ({
  volumetric: false,
  rows: 3000,
  columns: 2400,
  derived: false,
  ...facts,
});

const earned = (facts: Partial<FilmScaleFacts>) => {
  const { value, warnings } = scaleFromFile(film(facts));
  if (value.source === 'none') throw new Error(value.because);
  return { ...value, codes: warnings.map((w) => w.code) };
};

const none = (facts: Partial<FilmScaleFacts>) => {
  const { value, warnings } = scaleFromFile(film(facts));
  if (value.source !== 'none') throw new Error(value.rule);
  return { ...value, mend: warnings[0]?.mend ?? '' };
};

const IPS = [0.15, 0.15] as const;

describe('the decision table', () => {
  test('SCALE-0 a slice uses its Pixel Spacing, row spacing along y', () => {
    const scale = earned({ volumetric: true, pixelSpacing: [0.5, 0.4] });
    expect(scale).toMatchObject({ source: 'volumetric', rule: 'SCALE-0', mmPerPx: { x: 0.4, y: 0.5 } });
  });

  test('SCALE-2 a presentation spacing other than the detector wins and is doubtful', () => {
    const scale = earned({ imagerPixelSpacing: IPS, presentationPixelSpacing: [0.12, 0.12], pixelSpacing: IPS });
    expect(scale).toMatchObject({ rule: 'SCALE-2', doubtful: true, mmPerPx: { x: 0.12, y: 0.12 } });
    expect(scale.codes).toContain('scale-unexplained');
  });

  test('SCALE-2 a presentation spacing that repeats the detector says nothing', () => {
    expect(none({ imagerPixelSpacing: IPS, presentationPixelSpacing: IPS }).rule).toBe('SCALE-7');
  });

  test('SCALE-3 FIDUCIAL is a marker of 2 %, and shows its description', () => {
    const scale = earned({
      pixelSpacing: [0.13, 0.13],
      imagerPixelSpacing: IPS,
      calibrationType: 'FIDUCIAL',
      calibrationDescription: '25 mm ball',
    });
    expect(scale).toMatchObject({ source: 'marker', rule: 'SCALE-3', relativeSd: 0.02, mmPerPx: { x: 0.13, y: 0.13 } });
    expect(scale.because).toContain('25 mm ball');
  });

  test('SCALE-4 GEOMETRY is used as it stands, the magnification factor is never applied again', () => {
    const scale = earned({
      pixelSpacing: [0.13, 0.13],
      imagerPixelSpacing: IPS,
      calibrationType: 'GEOMETRY',
      magnificationFactor: 1.15,
    });
    expect(scale).toMatchObject({ source: 'stated-magnification', rule: 'SCALE-4', mmPerPx: { x: 0.13, y: 0.13 } });
  });

  test('SCALE-5 a Pixel Spacing that differs without saying why is used and doubted', () => {
    const scale = earned({ pixelSpacing: [0.13, 0.13], imagerPixelSpacing: IPS, magnificationFactor: 1.154 });
    expect(scale).toMatchObject({ rule: 'SCALE-5', doubtful: true });
    expect(scale.because).toContain('Consistent with the magnification factor');
    expect(
      earned({ pixelSpacing: [0.13, 0.13], imagerPixelSpacing: IPS, magnificationFactor: 1.2 }).because,
    ).not.toContain('Consistent');
  });

  test('SCALE-6 a Pixel Spacing equal to the detector spacing, within 0.1 %, gives no millimetres', () => {
    expect(none({ pixelSpacing: IPS, imagerPixelSpacing: IPS }).rule).toBe('SCALE-6');
    expect(none({ pixelSpacing: [0.15014, 0.15014], imagerPixelSpacing: IPS }).rule).toBe('SCALE-6');
    expect(none({ pixelSpacing: IPS, nominalScannedPixelSpacing: IPS }).rule).toBe('SCALE-6');
  });

  test('SCALE-7 detector spacing alone gives no millimetres, and offers the magnification stated', () => {
    expect(none({ imagerPixelSpacing: IPS }).rule).toBe('SCALE-7');
    expect(none({ imagerPixelSpacing: IPS, magnificationFactor: 1.1 }).mend).toContain('1.1');
  });

  test('SCALE-8 the spacing of a scanned film alone gives no millimetres', () => {
    expect(none({ nominalScannedPixelSpacing: IPS }).rule).toBe('SCALE-8');
  });

  test('SCALE-9 Pixel Spacing alone is indeterminate by the standard', () => {
    expect(none({ pixelSpacing: IPS }).rule).toBe('SCALE-9');
  });

  test('SCALE-10 nothing stated leaves angles, with square pixels or the stated aspect', () => {
    expect(none({})).toMatchObject({ rule: 'SCALE-10', pixelAspect: 1 });
    expect(none({ pixelAspect: 1.2 })).toMatchObject({ rule: 'SCALE-10', pixelAspect: 1.2 });
  });

  test('SCALE-11 a magnification below 1.00 or above 1.40 is refused, however it was calibrated', () => {
    for (const calibrationType of [undefined, 'FIDUCIAL', 'GEOMETRY'] as const) {
      const type = calibrationType ? { calibrationType } : {};
      expect(none({ pixelSpacing: [0.16, 0.16], imagerPixelSpacing: IPS, ...type }).rule).toBe('SCALE-11');
      expect(none({ pixelSpacing: [0.1, 0.1], imagerPixelSpacing: IPS, ...type }).rule).toBe('SCALE-11');
    }
  });

  test('SCALE-18 a spacing of zero counts as absent', () => {
    expect(none({ pixelSpacing: [0, 0.13], imagerPixelSpacing: IPS, calibrationType: 'FIDUCIAL' }).rule).toBe(
      'SCALE-7',
    );
  });
});
