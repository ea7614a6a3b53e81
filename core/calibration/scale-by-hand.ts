import { cannot, type Outcome, ok, type Warning } from '../measure/outcome.ts';
import type { EarnedScale } from './calibration.ts';
import type { FilmScaleFacts } from './film-scale-facts.ts';
import { isSpacing, pixelAspect } from './pixel-aspect.ts';
import { FIXED_SD, IMPLANT_EDGES_MM, IMPLANT_SD, MAGNIFICATION_RANGE, MARKER_SD } from './scale-trust.ts';

/**
 * A calibration chosen by a person, with what was measured on the film as plain numbers.
 * Pixel distances are in pixel widths: `hypot(dx, dy * pixelAspect)`.
 */
export type ScaleByHand =
  | {
      readonly kind: 'known-implant';
      readonly widthMm: number;
      readonly widthPx: number;
      /** Standard deviation of the marked width, px; absent = both edges together 0.5 mm. */
      readonly widthSdPx?: number;
    }
  | {
      readonly kind: 'ball';
      readonly diameterMm: number;
      readonly diameterPx: number;
      readonly diameterSdPx?: number;
      /** Standard deviation of the ball's depth against the bone's, mm, and distance source to ball, when known. */
      readonly depth?: { readonly sdMm: number; readonly sourceToBallMm: number };
    }
  | { readonly kind: 'magnification'; readonly factor: number; readonly from: string }
  | {
      readonly kind: 'distances';
      readonly sourceToDetectorMm: number;
      readonly sourceToKneeMm: number;
      readonly from: string;
    }
  | { readonly kind: 'stated-spacing'; readonly mmPerPx: number; readonly from: string };

/**
 * Millimetres per pixel from a choice by hand (SCALE-12 to SCALE-16), in the patient, in the plane of the knee.
 * Inputs: facts of the film; the choice with lengths in mm and px. Result: a scale with its own relative SD.
 * Valid in the plane of the object measured; 1 cm out of it costs about 1 % (geometry of the cone beam).
 * Refuses lengths and factors that are not above zero, magnification outside 1.00 to 1.40, and a
 * magnification without a spacing at the detector to divide.
 * Source: PS3.3 10.7.1.1 to 10.7.1.3 for what the spacings mean; cone beam M = SID / SOD.
 */
export function scaleByHand(facts: FilmScaleFacts, choice: ScaleByHand): Outcome<EarnedScale> {
  const bad = Object.entries(choice).find(([, v]) => typeof v === 'number' && !(Number.isFinite(v) && v > 0));
  if (bad) return notAboveZero(bad[0]);
  const aspect = pixelAspect(facts);
  if (aspect === null) return ASPECT_UNKNOWN;
  switch (choice.kind) {
    case 'known-implant':
      return ok(fromImplant(choice, aspect));
    case 'ball':
      return fromBall(choice, aspect);
    case 'magnification':
      return fromMagnification(facts, choice.factor, {
        source: 'stated-magnification',
        rule: 'SCALE-12',
        words: `magnification ${choice.factor.toFixed(3)} (${choice.from})`,
      });
    case 'distances':
      return fromMagnification(facts, choice.sourceToDetectorMm / choice.sourceToKneeMm, {
        source: 'assumed-distance',
        rule: 'SCALE-13',
        words: `distances ${choice.sourceToDetectorMm} mm to the detector and ${choice.sourceToKneeMm} mm to the knee (${choice.from})`,
      });
    case 'stated-spacing':
      return ok({
        source: 'assumed-distance',
        mmPerPx: { x: choice.mmPerPx, y: choice.mmPerPx * aspect },
        relativeSd: FIXED_SD,
        rule: 'SCALE-16',
        because: `Stated by hand: ${choice.mmPerPx} mm per pixel (${choice.from}). Nothing on the film confirms it.`,
        doubtful: true,
      });
  }
}

function fromImplant(choice: Extract<ScaleByHand, { kind: 'known-implant' }>, aspect: number): EarnedScale {
  const x = choice.widthMm / choice.widthPx;
  const edges = choice.widthSdPx === undefined ? IMPLANT_EDGES_MM / choice.widthMm : choice.widthSdPx / choice.widthPx;
  return {
    source: 'known-implant',
    mmPerPx: { x, y: x * aspect },
    relativeSd: Math.hypot(IMPLANT_SD, edges),
    rule: 'SCALE-14',
    because: `Implant in place, ${choice.widthMm} mm wide, ${choice.widthPx.toFixed(1)} px on the film. It lies in the plane of the knee.`,
    doubtful: false,
  };
}

function fromBall(choice: Extract<ScaleByHand, { kind: 'ball' }>, aspect: number): Outcome<EarnedScale> {
  const x = choice.diameterMm / choice.diameterPx;
  const outline = (choice.diameterSdPx ?? 0) / choice.diameterPx;
  const { depth } = choice;
  if (depth && !(depth.sourceToBallMm > 0 && depth.sdMm >= 0)) return notAboveZero('depth');
  const depthSd = depth ? depth.sdMm / depth.sourceToBallMm : 0;
  return ok(
    {
      source: 'marker',
      mmPerPx: { x, y: x * aspect },
      relativeSd: Math.hypot(MARKER_SD, outline, depthSd),
      rule: 'SCALE-15',
      because: `Ball of ${choice.diameterMm} mm, ${choice.diameterPx.toFixed(1)} px on the film. Holds at the depth of the ball.`,
      doubtful: false,
    },
    [
      {
        code: 'scale-holds-at-marker-depth',
        message: 'The scale holds at the depth of the ball; each centimetre that it lay off the bone costs about 1 %.',
        field: 'scale',
        mend: 'Compare with the known width of an implant in place where there is one.',
      },
    ],
  );
}

interface Divided {
  readonly source: 'stated-magnification' | 'assumed-distance';
  readonly rule: string;
  readonly words: string;
}

function fromMagnification(facts: FilmScaleFacts, factor: number, how: Divided): Outcome<EarnedScale> {
  if (factor < MAGNIFICATION_RANGE.least || factor > MAGNIFICATION_RANGE.most) {
    return cannot({
      code: 'magnification-implausible',
      message: `A magnification of ${factor.toFixed(3)} cannot be: a bone in front of the detector is enlarged by 1.00 to 1.40.`,
      field: 'scale',
      mend: 'Check the distances or the factor; SID over SOD is at least 1.',
    });
  }
  const imager = isSpacing(facts.imagerPixelSpacing) ? facts.imagerPixelSpacing : undefined;
  const plane = imager ?? (isSpacing(facts.nominalScannedPixelSpacing) ? facts.nominalScannedPixelSpacing : undefined);
  if (!plane) {
    return cannot({
      code: 'no-detector-spacing',
      message: 'A magnification needs the pixel spacing at the detector, and the file states none.',
      field: 'scale',
      mend: 'Mark an implant of known width or a ball, or state the spacing.',
    });
  }
  return ok(
    {
      source: how.source,
      mmPerPx: { x: plane[1] / factor, y: plane[0] / factor },
      relativeSd: FIXED_SD,
      rule: how.rule,
      because: `Estimate: spacing at the ${imager ? 'detector' : 'film'} ${plane[1]} mm divided by ${how.words}.`,
      doubtful: true,
    },
    [estimate(how.words)],
  );
}

const estimate = (words: string): Warning => ({
  code: 'scale-is-an-estimate',
  message: `Lengths on this film rest on ${words}; they are estimates.`,
  field: 'scale',
  mend: 'Mark an implant of known width or a ball for a measured scale.',
});

const notAboveZero = (field: string): Outcome<EarnedScale> =>
  cannot({
    code: 'scale-not-above-zero',
    message: `The scale cannot be set: ${field} is not a number above zero.`,
    field: `scale.${field}`,
    mend: `Give ${field} as a number above zero.`,
  });

const ASPECT_UNKNOWN: Outcome<EarnedScale> = cannot({
  code: 'pixel-aspect-contradicted',
  message: 'The file contradicts itself about the shape of its pixels, so neither lengths nor angles can be measured.',
  field: 'scaleFacts.pixelAspect',
  mend: 'Export the film again from the archive, with its original tags.',
});
