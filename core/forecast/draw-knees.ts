import type { BoneState } from '../gaps/bone-state.ts';
import type { DrawnKnee } from './drawn-knee.ts';
import { type Moves, movedState } from './field.ts';
import { drawWorse, femurWorse, tibiaWorse } from './one-class-worse.ts';
import { type Stream, streamOf } from './stream.ts';
import { triangularMm } from './triangular.ts';
import { type RemovalLoss, SPREAD_FIELDS, type SpreadField, type UncertainKnee } from './uncertain-knee.ts';
import { weakerLigament } from './weaker-ligament.ts';

/** How many knees, and from which seed. */
export interface DrawingOf {
  readonly draws: number;
  readonly seed: number;
}

/** Defaults of a forecast (FOR-1): 2,000 draws know a share of one half to 1.1 points (standard error). */
export const DEFAULT_DRAWING: DrawingOf = { draws: 2000, seed: 1 };

/** What a joint line that truly lies 1 mm further proximal than estimated does to each field (FOR-2, PLAN-11, 12, 16). */
export const JOINT_LINE_MOVES: Moves = {
  'femurDistalMm.medial': -1,
  'femurDistalMm.lateral': -1,
  'tibiaMm.medial': 1,
  'tibiaMm.lateral': 1,
  'flexionLaxityMm.medial': -1,
  'flexionLaxityMm.lateral': -1,
};

const SURFACES = {
  femurDistal: 'femurDistalMm',
  femurPosterior: 'femurPosteriorMm',
  tibia: 'tibiaMm',
} as const;

/** A source of one part of the moves of every knee, one call a knee. */
type Mover = (into: Moves) => void;

const add = (into: Moves, field: SpreadField, by: number): void => {
  into[field] = (into[field] ?? 0) + by;
};

/** Errors of measuring, common ones first (FOR-2), then what errs in one field alone. */
function measuringErrors({ spreads, jointLineSdMm, shared = [] }: UncertainKnee, seed: number): Mover[] {
  const common = (cause: string, moves: Moves, sd: number): Mover => {
    const { normal } = streamOf(seed, `common ${cause}`);
    const pairs = Object.entries(moves) as [SpreadField, number][];
    return (into) => {
      const error = sd * normal();
      for (const [field, by] of pairs) add(into, field, by * error);
    };
  };
  return [
    ...(jointLineSdMm ? [common('joint line', JOINT_LINE_MOVES, jointLineSdMm)] : []),
    ...shared.map(({ cause, moves }) => common(cause, moves, 1)),
    ...SPREAD_FIELDS.filter((field) => spreads[field]).map((field) =>
      common(`alone ${field}`, { [field]: 1 }, spreads[field] ?? 0),
    ),
  ];
}

/** Loss at removal, each surface of each side on its own (FOR-4). */
function removalLosses({ removal }: UncertainKnee, seed: number): Mover[] {
  const surfaces = Object.keys(SURFACES) as (keyof typeof SURFACES)[];
  return surfaces.flatMap((surface) => {
    const loss: RemovalLoss | null = removal[surface];
    if (!loss) return [];
    return (['medial', 'lateral'] as const).map((side): Mover => {
      const { uniform } = streamOf(seed, `removal ${surface} ${side}`);
      return (into) => add(into, `${SURFACES[surface]}.${side}`, triangularMm(loss, uniform()));
    });
  });
}

/** What happens or not: a bone one class worse, a weaker ligament, a fracture, an infection. */
function happenings({ chances }: UncertainKnee, seed: number): (state: BoneState) => DrawnKnee {
  const stream = (name: string): Stream => streamOf(seed, `chance ${name}`);
  const [femur, tibia, mcl, lcl] = [stream('femur'), stream('tibia'), stream('mcl'), stream('lcl')];
  const [fracture, infection] = [stream('fracture'), stream('infection')];
  const of = (chance: keyof UncertainKnee['chances']): number => chances[chance].chance ?? 0;
  const ligament = (state: BoneState, s: Stream, of: { side: 'medial' | 'lateral'; chance: number }): BoneState => {
    const [happens, u] = [s.uniform() < of.chance, s.uniform()];
    return happens ? weakerLigament(state, of.side, u) : state;
  };
  return (state) => {
    const bones = tibiaWorse(femurWorse(state, drawWorse(femur, of('femurWorse'))), drawWorse(tibia, of('tibiaWorse')));
    const held = ligament(bones, mcl, { side: 'medial', chance: of('mclWorse') });
    return {
      state: ligament(held, lcl, { side: 'lateral', chance: of('lclWorse') }),
      fracture: fracture.uniform() < of('fracture'),
      infection: infection.uniform() < of('infection'),
    };
  };
}

/**
 * Knees that may be found, drawn from everything that is uncertain about one (FOR-1 to FOR-8): errors of measuring
 * with what they have in common, loss at removal, one class worse, weaker ligaments, fracture, infection.
 *
 * Values in mm and deg in the frames of the bone state. The same knee and seed give the same draws, byte for byte; draw
 * `i` does not depend on how many are drawn; every quantity has its own stream, so that changing one spread or chance
 * moves no other draw. A spread or chance that is not stated moves nothing: `notStatedOf` says so. Independent fields
 * are drawn normal, removal losses triangular. Source: Monte Carlo propagation of distributions, JCGM 101:2008.
 * Example: with no spreads and no chances every drawn knee is the expected one.
 */
export function drawKnees(knee: UncertainKnee, { draws, seed }: DrawingOf): readonly DrawnKnee[] {
  const movers = [...measuringErrors(knee, seed), ...removalLosses(knee, seed)];
  const happen = happenings(knee, seed);
  return Array.from({ length: draws }, () => {
    const moves: Moves = {};
    for (const move of movers) move(moves);
    return happen(movedState(knee.expected, moves));
  });
}
