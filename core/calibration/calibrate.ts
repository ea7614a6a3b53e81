import { type Outcome, ok, type Warning } from '../measure/outcome.ts';
import type { Calibration } from './calibration.ts';
import type { FilmScaleFacts } from './film-scale-facts.ts';
import { type ScaleByHand, scaleByHand } from './scale-by-hand.ts';
import { scaleConsistency } from './scale-consistency.ts';
import { scaleFromFile } from './scale-from-file.ts';
import { STITCHED_SD } from './scale-trust.ts';

export interface CalibrateOptions {
  /** What a person chose and measured; absent = what the file allows. */
  readonly byHand?: ScaleByHand;
  /** Long-leg film: joined from several exposures or not, the enlargement differs along the leg. */
  readonly longLeg?: boolean;
}

/**
 * The scale of one film (docs/rules/scale.md): what a person measured on it, else what its file allows.
 *
 * Input: the facts as read. Result: millimetres in the patient per pixel with relative SD, rule and
 * reason, or `none` (angles and ratios only). Long-leg and stitched films are marked doubtful and
 * carry 2 % more, since femur and tibia are enlarged differently (SCALE-17).
 * Refuses what {@link scaleByHand} refuses; the file alone is never refused, at worst it gives `none`.
 * A choice by hand that differs by more than 3 % from the file's own scale is warned of (SCALE-20).
 */
export function calibrate(facts: FilmScaleFacts, options: CalibrateOptions = {}): Outcome<Calibration> {
  const inFile = scaleFromFile(facts);
  const contradictions = scaleConsistency(facts);
  const mosaic = facts.stitched === true || options.longLeg === true;
  if (!options.byHand) return caution(inFile.value, [...inFile.warnings, ...contradictions], mosaic);
  const chosen = scaleByHand(facts, options.byHand);
  if (!chosen.ok) return chosen;
  const warnings = [...chosen.warnings, ...contradictions, ...scalesAgree(chosen.value, inFile.value)];
  return caution(chosen.value, warnings, mosaic);
}

function caution(scale: Calibration, warnings: readonly Warning[], mosaic: boolean): Outcome<Calibration> {
  if (!mosaic || scale.source === 'none' || scale.source === 'volumetric') return ok(scale, warnings);
  const careful = { ...scale, relativeSd: Math.hypot(scale.relativeSd, STITCHED_SD), doubtful: true };
  return ok(careful, [
    ...warnings,
    {
      code: 'scale-differs-along-leg',
      message: 'Long-leg film: hip, knee and ankle are enlarged differently. The scale holds where it was taken.',
      field: 'scale',
      mend: 'Measure lengths near the object that gave the scale.',
    },
  ]);
}

/** Largest difference between two scales of one film that passes without a word. */
const AGREE_WITHIN = 0.03;

/**
 * Warns when two scales of the same film differ by more than 3 % (SCALE-20), naming the better trusted.
 * Inputs: any two calibrations; nothing to compare where one is `none`.
 */
export function scalesAgree(a: Calibration, b: Calibration): readonly Warning[] {
  if (a.source === 'none' || b.source === 'none') return [];
  const ratio = a.mmPerPx.x / b.mmPerPx.x;
  if (Math.max(ratio, 1 / ratio) <= 1 + AGREE_WITHIN) return [];
  const percent = ((ratio - 1) * 100).toFixed(1);
  return [
    {
      code: 'scales-disagree',
      message: `Two scales of this film differ by ${percent} %: ${a.source} (${a.rule}) against ${b.source} (${b.rule}).`,
      field: 'scale',
      mend: 'Mark the object of known size again and check its size against the record.',
    },
  ];
}
