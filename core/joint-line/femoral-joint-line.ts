import { apparentVarusOn, TAKE_AGAIN_DEG } from '../landmarks/apparent-varus.ts';
import type { EvidenceFilm } from '../landmarks/knee-evidence.ts';
import { toRad } from '../measure/angle.ts';
import { cannot, type Outcome, ok, type Reason, type Warning } from '../measure/outcome.ts';
import { comparisonOpinions, epicondylarWidth } from './comparison-films.ts';
import { consensus } from './consensus.ts';
import type { JointLineEstimate, JointLineOpinion } from './estimate-types.ts';
import { femoralLevel } from './femoral-level.ts';
import { coronalFilms, type JointLineInput } from './joint-line-input.ts';
import { DEFAULT_CORRELATIONS, FEMORAL_DISTANCES, PICKING_IN_TABLE_MM } from './landmark-distances.ts';
import { type Level, type Measured, meanDistance, usable } from './level.ts';

export const LEVEL_IN_WORDS =
  'bearing surface: tangent of the component, or bone and 2 mm of cartilage on native knees, where the mechanical axis meets it';

/**
 * Where the femoral joint line belongs, mm over the present one along the mechanical axis, proximal + (JL-1 to JL-3, JL-6 to JL-10):
 * consensus of adductor tubercle, epicondyles, the native other knee and a film from before the first replacement.
 * Uses the present AP film that gives most opinions, long-leg films first. The result's `shiftMm` is + when the present line stands raised.
 * Refuses, naming what would unlock it, without scale, condyle marks, an axis or any landmark.
 */
export function femoralJointLine(input: JointLineInput): Outcome<JointLineEstimate> {
  let best: { readonly level: Level<'coronal'>; readonly opinions: readonly JointLineOpinion[] } | null = null;
  let why: Reason | null = null;
  for (const film of coronalFilms(input, input.side, 'present')) {
    const level = femoralLevel(film, input.state);
    if (!level.ok) {
      why ??= level.reason;
      continue;
    }
    const opinions = opinionsOn(level.value, input);
    if (!best || opinions.length > best.opinions.length) best = { level: level.value, opinions };
  }
  if (!best) return cannot(why ?? NO_FILM);
  if (best.opinions.length === 0) return cannot(NO_LANDMARK);
  const estimate = consensus(best.opinions, input.correlations ?? DEFAULT_CORRELATIONS);
  if (!estimate.ok) return estimate;
  const warnings = [...estimate.value.warnings, ...best.level.warnings, ...turnedFilm(best.level.film.film, input)];
  return ok({ ...estimate.value, warnings, level: LEVEL_IN_WORDS, axis: best.level.axis }, warnings);
}

function opinionsOn(level: Level<'coronal'>, input: JointLineInput): readonly JointLineOpinion[] {
  const peak = epicondylarWidth(level.film);
  // The sulcus stands in for the peak and never beside it: it is the same bone. Its ratio goes with its own width.
  const sulcus = peak ? null : epicondylarWidth(level.film, 'medial-epicondyle-sulcus');
  const population = input.population ?? 'pooled';
  const ratios = FEMORAL_DISTANCES.flatMap((d) => {
    const width = d.landmark === 'medial-epicondyle-sulcus' ? sulcus : peak;
    const opinion = width ? ratioOpinion(level, d, { width, population }) : null;
    return opinion ? [opinion] : [];
  });
  return [
    ...ratios,
    ...comparisonOpinions(input, level, {
      bone: 'femur',
      landmarks: ['adductor-tubercle', 'medial-epicondyle', 'lateral-epicondyle'],
      level: femoralLevel,
    }),
  ];
}

function ratioOpinion(
  level: Level<'coronal'>,
  d: (typeof FEMORAL_DISTANCES)[number],
  { width, population }: { readonly width: Measured; readonly population: 'pooled' | 'european' | 'chinese' },
): JointLineOpinion | null {
  const { film } = level;
  if (!usable(film, [d.landmark]) || !film.scale) return null;
  const measured = meanDistance(level, [d.landmark]);
  if (!measured.ok) return null;
  const { value, sd } = measured.value;
  const ratio = d.ratio[population];
  // An axis that is turned by an unknown angle lifts a landmark by its lever, about half the width.
  const turned = (width.value / 2) * Math.tan(toRad(level.turnSdDeg));
  return {
    id: d.landmark,
    label: d.label,
    group: 'femur',
    heightMm: value - ratio * width.value,
    personSdMm: d.ratioSd * width.value,
    markingSdMm: Math.hypot(beyondTable(sd), turned),
    distanceMm: value,
    widthRatio: ratio,
    film: film.film.id,
    scaleRelativeSd: film.scale.relativeSd,
    widthSdMm: width.sd,
    rule: d.rule,
    source: d.source,
  };
}

/** A knee both flexed and turned on the film is foreshortened along the limb as well (JL-16). */
export function turnedFilm(film: EvidenceFilm, input: JointLineInput): readonly Warning[] {
  const varus = apparentVarusOn(film, input.examination);
  return varus === null || Math.abs(varus) <= TAKE_AGAIN_DEG ? [] : [TURNED];
}

const TURNED: Warning = {
  code: 'rotation-with-flexion',
  message: 'The limb is flexed and turned on this film: distances along it are foreshortened.',
  field: 'examination.filmRotationDeg',
  mend: 'Take the film again with the patella forward.',
};

/** The table's spread holds 1 mm of picking already; only more than that is added. */
export const beyondTable = (markingSdMm: number): number =>
  Math.sqrt(Math.max(0, markingSdMm ** 2 - PICKING_IN_TABLE_MM ** 2));

const NO_FILM: Reason = {
  code: 'no-such-film',
  message: 'Needs an AP film of this knee as it is, with the direction of its columns known.',
  field: 'films',
  mend: 'Add a long-leg or knee AP film.',
};

const NO_LANDMARK: Reason = {
  code: 'no-landmark',
  message: 'No landmark gives an opinion on the femoral joint line.',
  field: 'marks',
  mend: 'Mark both epicondyles (they give the width) and the adductor tubercle; or the same points on the other knee or on a film before the first replacement.',
};
