import type { Warning } from '../measure/outcome.ts';
import type { FilmScaleFacts } from './film-scale-facts.ts';
import { isSpacing, pixelAspect } from './pixel-aspect.ts';

/**
 * Contradictions between what a file says about its scale (SCALE-18), to be run on every import.
 * Each is a warning and decides nothing; a spacing that is not two numbers above zero counts as absent.
 * Source: DICOM PS3.3 10.7.1; limits of 2 % are a choice of this project.
 */
export function scaleConsistency(facts: FilmScaleFacts): readonly Warning[] {
  return [...unusableSpacings(facts), ...aspect(facts), ...fieldOfView(facts), ...magnification(facts)];
}

function unusableSpacings(facts: FilmScaleFacts): Warning[] {
  const names = ['pixelSpacing', 'imagerPixelSpacing', 'nominalScannedPixelSpacing'] as const;
  return names
    .filter((name) => facts[name] !== undefined && !isSpacing(facts[name]))
    .map((name) => warn(name, 'scale-spacing-unusable', 'is not two numbers above zero and is ignored'));
}

function aspect(facts: FilmScaleFacts): Warning[] {
  return pixelAspect(facts) === null
    ? [warn('pixelAspect', 'scale-aspect-contradicted', 'contradicts the spacings: not even angles can be measured')]
    : [];
}

/** Rows times spacing should be the field of view; a picture made smaller afterwards shows here. */
function fieldOfView(facts: FilmScaleFacts): Warning[] {
  const { imagerPixelSpacing: ips, fieldOfViewMm: fov } = facts;
  if (!isSpacing(ips) || !fov?.length || fov.some((v) => !(v > 0))) return [];
  const size = [facts.rows * ips[0], facts.columns * ips[1]].sort((a, b) => a - b);
  const stated = (fov.length === 1 ? [fov[0] as number, fov[0] as number] : [...fov]).sort((a, b) => a - b);
  const off = size.some((mm, i) => mm / (stated[i] as number) < 0.98 || mm / (stated[i] as number) > 1.02);
  if (!off) return [];
  if (facts.derived && size.every((mm, i) => mm < (stated[i] as number))) {
    return [
      warn('fieldOfViewMm', 'scale-downsampled', 'shows that the picture was made smaller; distrust its spacing'),
    ];
  }
  return [warn('fieldOfViewMm', 'scale-field-of-view', 'does not agree with rows and columns times the spacing')];
}

function magnification(facts: FilmScaleFacts): Warning[] {
  const { magnificationFactor: factor, sourceToDetectorMm: sid, sourceToPatientMm: sod } = facts;
  if (factor === undefined) return [];
  if (!(factor >= 1))
    return [warn('magnificationFactor', 'scale-magnification-below-1', 'is below 1, which cannot be')];
  if (!(sid && sod && sid > 0 && sod > 0)) return [];
  return Math.abs(sid / sod / factor - 1) > 0.02
    ? [warn('magnificationFactor', 'scale-magnification-contradicted', 'does not agree with the distances within 2 %')]
    : [];
}

const warn = (name: string, code: string, what: string): Warning => ({
  code,
  message: `In the film's file, ${name} ${what}.`,
  field: `scaleFacts.${name}`,
  mend: 'Calibrate on an implant of known width or a ball.',
});
