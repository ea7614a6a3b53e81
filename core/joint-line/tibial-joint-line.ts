import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import { cannot, type Outcome, ok, type Reason, type Warning } from '../measure/outcome.ts';
import { comparisonOpinions } from './comparison-films.ts';
import { consensus } from './consensus.ts';
import type { JointLineEstimate, JointLineOpinion } from './estimate-types.ts';
import { beyondTable, LEVEL_IN_WORDS, turnedFilm } from './femoral-joint-line.ts';
import { coronalFilms, type JointLineInput, sagittalFilms } from './joint-line-input.ts';
import { DEFAULT_CORRELATIONS, type FixedDistance, TIBIAL_DISTANCES } from './landmark-distances.ts';
import { type Level, meanDistance, usable } from './level.ts';
import { sagittalTibialLevel, tibialLevel } from './tibial-level.ts';

interface Found {
  readonly opinions: readonly JointLineOpinion[];
  readonly warnings: readonly Warning[];
  readonly axes: readonly string[];
  readonly why: Reason | null;
}

/**
 * Where the tibial joint line belongs, mm over the present bearing line along the tibia's axis, proximal + (JL-4 to JL-9, JL-11):
 * consensus of fibular tip (AP film), tubercle (lateral film), the native other knee and a film from before the first replacement. Kept apart from
 * the femur's number. Refuses when the fibular tip stands alone (JL-12), and, naming what would unlock it, with nothing to go by.
 */
export function tibialJointLine(input: JointLineInput): Outcome<JointLineEstimate> {
  const coronal = fromCoronal(input);
  const sagittal = fromSagittal(input);
  const opinions = [...coronal.opinions, ...sagittal.opinions];
  const only = opinions.length === 1 ? opinions[0] : undefined;
  if (only?.id === 'fibular-tip') return cannot(FIBULA_ALONE);
  if (opinions.length === 0) return cannot(coronal.why ?? sagittal.why ?? NO_LANDMARK);
  const estimate = consensus(opinions, input.correlations ?? DEFAULT_CORRELATIONS);
  if (!estimate.ok) return estimate;
  const warnings = [...estimate.value.warnings, ...coronal.warnings, ...sagittal.warnings];
  const axis = [...coronal.axes, ...sagittal.axes].join('; ');
  return ok({ ...estimate.value, warnings, level: LEVEL_IN_WORDS, axis }, warnings);
}

function fromCoronal(input: JointLineInput): Found {
  const fibula = TIBIAL_DISTANCES[0] as FixedDistance;
  let best: Found = NOTHING;
  let why: Reason | null = null;
  for (const film of coronalFilms(input, input.side, 'present')) {
    const level = tibialLevel(film, { state: input.state, implants: input.implants });
    if (!level.ok) {
      why ??= level.reason;
      continue;
    }
    const opinion = fixedOpinion(level.value, fibula);
    const opinions = [
      ...(opinion ? [opinion] : []),
      ...comparisonOpinions(input, level.value, {
        bone: 'tibia',
        landmarks: [fibula.landmark],
        level: (f, state) => tibialLevel(f, { state, implants: undefined }),
      }),
    ];
    if (opinions.length > best.opinions.length)
      best = {
        opinions,
        warnings: [...level.value.warnings, ...turnedFilm(film.film, input)],
        axes: [level.value.axis],
        why: null,
      };
  }
  return best === NOTHING ? { ...NOTHING, why } : best;
}

function fromSagittal(input: JointLineInput): Found {
  const tubercle = TIBIAL_DISTANCES[1] as FixedDistance;
  let why: Reason | null = null;
  for (const film of sagittalFilms(input, input.side, 'present')) {
    if (!usable(film, [tubercle.landmark])) continue;
    const level = sagittalTibialLevel(film, { state: input.state, implants: input.implants });
    if (!level.ok) {
      why ??= level.reason;
      continue;
    }
    const opinion = fixedOpinion(level.value, tubercle);
    if (opinion) return { opinions: [opinion], warnings: level.value.warnings, axes: [level.value.axis], why: null };
  }
  return { ...NOTHING, why };
}

const NOTHING: Found = { opinions: [], warnings: [], axes: [], why: null };

function fixedOpinion<F extends LimbFrame>(level: Level<F>, d: FixedDistance): JointLineOpinion | null {
  const { film } = level;
  if (!usable(film, [d.landmark]) || !film.scale) return null;
  const measured = meanDistance(level, [d.landmark]);
  if (!measured.ok) return null;
  return {
    id: d.landmark,
    label: d.label,
    group: 'tibia',
    heightMm: d.distanceMm - measured.value.value,
    personSdMm: d.sdMm,
    markingSdMm: beyondTable(measured.value.sd),
    distanceMm: measured.value.value,
    widthRatio: 0,
    film: film.film.id,
    scaleRelativeSd: film.scale.relativeSd,
    widthSdMm: 0,
    rule: d.rule,
    source: d.source,
  };
}

const FIBULA_ALONE: Reason = {
  code: 'fibular-tip-alone',
  message:
    'The tip of the fibular head is the only landmark, and it never stands alone: published distances run from 11 to 20 mm and it wanders with rotation.',
  field: 'marks[fibular-tip]',
  mend: 'Mark the tibial tubercle on a lateral film, or the fibular tip of the other knee.',
};

const NO_LANDMARK: Reason = {
  code: 'no-landmark',
  message: 'No landmark gives an opinion on the tibial joint line.',
  field: 'marks',
  mend: 'Mark the fibular tip on an AP film and the tibial tubercle on a lateral film; or the fibular tip of the other knee.',
};
