import { type Ok, ok, type Warning } from '../measure/outcome.ts';
import type { Calibration, EarnedScale, NoScale } from './calibration.ts';
import type { FilmScaleFacts } from './film-scale-facts.ts';
import { isSpacing, pixelAspect } from './pixel-aspect.ts';
import { FIXED_SD, MAGNIFICATION_RANGE, MARKER_SD, SAME_SPACING, VOLUMETRIC_SD } from './scale-trust.ts';

type Spacing = readonly [number, number];

/**
 * What the file alone allows: the decision table SCALE-0 to SCALE-11 of docs/rules/scale.md, first matching row wins.
 *
 * Inputs: the facts as read, spacings `[between rows, between columns]` in mm. Result: a scale in the
 * patient with its relative SD, or `none` with the reason; a spacing at the detector is never taken
 * for one in the patient, and a spacing of unknown meaning never for either.
 * Source: DICOM PS3.3 10.7.1.1 to 10.7.1.3; which class allows lengths is a choice of this project.
 */
export function scaleFromFile(facts: FilmScaleFacts): Ok<Calibration> {
  const ps = isSpacing(facts.pixelSpacing) ? facts.pixelSpacing : undefined;
  const presented = isSpacing(facts.presentationPixelSpacing) ? facts.presentationPixelSpacing : undefined;
  const ips = isSpacing(facts.imagerPixelSpacing) ? facts.imagerPixelSpacing : undefined;
  const nsps = isSpacing(facts.nominalScannedPixelSpacing) ? facts.nominalScannedPixelSpacing : undefined;
  const detector = ips ?? nsps;
  const none = refusal(facts);

  if (facts.volumetric && ps) return volumetric(ps);
  if (presented && !(ips && same(presented, ips))) return fromPresentation(presented);
  if (ps && (facts.calibrationType || (detector && !same(ps, detector)))) {
    const k = detector ? detector[1] / ps[1] : undefined;
    if (k !== undefined && (k < MAGNIFICATION_RANGE.least - SAME_SPACING || k > MAGNIFICATION_RANGE.most)) {
      return none('SCALE-11', implausible(k));
    }
    return calibrated(facts, ps, k);
  }
  if (ps && detector) return none('SCALE-6', `${AT_DETECTOR} Pixel Spacing merely repeats it.`);
  if (ips) return none('SCALE-7', AT_DETECTOR);
  if (nsps) return none('SCALE-8', 'The file states the spacing on the scanned film only, not in the patient.');
  if (ps) {
    return none(
      'SCALE-9',
      'The file states Pixel Spacing without saying how it was calibrated: it may lie in the patient or at the detector.',
    );
  }
  return none('SCALE-10', 'The file states no spacing.');
}

const AT_DETECTOR = 'The file states the spacing at the detector only, where the bone is enlarged.';

const same = (a: Spacing, b: Spacing) =>
  Math.abs(a[0] / b[0] - 1) <= SAME_SPACING && Math.abs(a[1] / b[1] - 1) <= SAME_SPACING;

const mmPerPx = (spacing: Spacing) => ({ x: spacing[1], y: spacing[0] });

const implausible = (k: number) =>
  `Spacing at the detector over Pixel Spacing is ${k.toFixed(3)}; a bone is enlarged by 1.00 to 1.40, so one of the two is wrong.`;

function volumetric(ps: Spacing): Ok<EarnedScale> {
  return ok({
    source: 'volumetric',
    mmPerPx: mmPerPx(ps),
    relativeSd: VOLUMETRIC_SD,
    rule: 'SCALE-0',
    because: 'Slice image: Pixel Spacing lies in the patient.',
    doubtful: false,
  });
}

function fromPresentation(spacing: Spacing): Ok<EarnedScale> {
  return ok(
    {
      source: 'stated-magnification',
      mmPerPx: mmPerPx(spacing),
      relativeSd: FIXED_SD,
      rule: 'SCALE-2',
      because: 'Presentation Pixel Spacing of a presentation state; it does not say how it was earned.',
      doubtful: true,
    },
    [unexplained('The presentation state sets the scale and does not say how.')],
  );
}

/** Rows 3 to 5: Pixel Spacing that was calibrated, or differs from the detector's. ERMF is never applied again. */
function calibrated(facts: FilmScaleFacts, ps: Spacing, k: number | undefined): Ok<EarnedScale> {
  const description = facts.calibrationDescription ? ` Description: "${facts.calibrationDescription}".` : '';
  if (facts.calibrationType === 'FIDUCIAL') {
    return ok({
      source: 'marker',
      mmPerPx: mmPerPx(ps),
      relativeSd: MARKER_SD,
      rule: 'SCALE-3',
      because: `Calibrated in the file on an object of known size; holds at its depth, near the central ray.${description}`,
      doubtful: false,
    });
  }
  const warnings: Warning[] = [];
  if (!facts.calibrationType) {
    warnings.push(unexplained('Pixel Spacing differs from the detector spacing without saying why.'));
  }
  const agrees = agreement(facts, k);
  return ok(
    {
      source: 'stated-magnification',
      mmPerPx: mmPerPx(ps),
      relativeSd: FIXED_SD,
      rule: facts.calibrationType ? 'SCALE-4' : 'SCALE-5',
      because: facts.calibrationType
        ? `Corrected in the file for a magnification known or assumed, depth not stated.${description}`
        : `Pixel Spacing is smaller than the detector's by ${(k ?? 1).toFixed(3)}, calibration type not stated.${agrees}`,
      doubtful: facts.calibrationType === undefined,
    },
    warnings,
  );
}

const agreement = (facts: FilmScaleFacts, k: number | undefined) =>
  k !== undefined && facts.magnificationFactor !== undefined && Math.abs(k - facts.magnificationFactor) <= 0.01
    ? ' Consistent with the magnification factor in the file.'
    : '';

const unexplained = (message: string): Warning => ({
  code: 'scale-unexplained',
  message,
  field: 'scaleFacts.pixelSpacing',
  mend: 'Compare with an implant of known width or a ball on the film.',
});

/** `none`, with what would earn millimetres; a magnification stated in the file is offered, never applied unasked. */
const refusal =
  (facts: FilmScaleFacts) =>
  (rule: string, because: string): Ok<NoScale> => {
    const offer =
      facts.magnificationFactor !== undefined && facts.magnificationFactor >= 1
        ? ` or accept the magnification ${facts.magnificationFactor} stated in the file`
        : '';
    return ok({ source: 'none', pixelAspect: pixelAspect(facts), rule, because }, [
      {
        code: 'no-scale',
        message: `No millimetres on this film. ${because}`,
        field: 'scale',
        mend: `Mark an implant of known width or a ball${offer}.`,
      },
    ]);
  };
