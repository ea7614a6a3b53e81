import { BONE_CLASSES, classRank } from '../bone/class-worse.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Compartment } from '../landmarks/side.ts';
import type { DrawnKnee } from './drawn-knee.ts';

/** Something that theatre sees, and the question about it. */
export interface Observation {
  /** Field of the drawn knee, a gap between the bones, or an event. */
  readonly field: string;
  /** Bound, mm; null for yes and no. */
  readonly above: number | null;
  readonly question: string;
  readonly holds: (knee: DrawnKnee) => boolean;
}

interface Length {
  readonly field: string;
  /** Subject and verb before the bound, and what follows it. */
  readonly words: readonly [before: string, after: string];
  readonly of: (state: BoneState) => number;
}

const both = (make: (side: Compartment) => Length): readonly Length[] => [make('medial'), make('lateral')];

/** Lengths that a ruler or a spacer block tells in theatre (FOR-11), in the order in which they come to be seen. */
const LENGTHS: readonly Length[] = [
  ...both((side) => ({
    field: `tibiaMm.${side}`,
    words: [`the ${side} tibia is more than`, 'below the joint line'],
    of: (s) => s.tibiaMm[side],
  })),
  ...both((side) => ({
    field: `femurDistalMm.${side}`,
    words: [`the ${side} distal femur is more than`, 'above the joint line'],
    of: (s) => s.femurDistalMm[side],
  })),
  ...both((side) => ({
    field: `femurPosteriorMm.${side}`,
    words: [`the ${side} posterior femur is more than`, 'in front of where its surface belongs'],
    of: (s) => s.femurPosteriorMm[side],
  })),
  ...both((side) => ({
    field: `flexionGapMm.${side}`,
    words: [`the ${side} flexion gap, bone to bone, is more than`, ''],
    of: (s) => s.femurPosteriorMm[side] + s.tibiaMm[side] + s.flexionLaxityMm[side],
  })),
  ...both((side) => ({
    field: `extensionGapMm.${side}`,
    words: [`the ${side} extension gap, bone to bone, is more than`, ''],
    of: (s) => s.femurDistalMm[side] + s.tibiaMm[side] + s.extensionLaxityMm[side],
  })),
  { field: 'tibiaWidthMm', words: ['the tibia is more than', 'wide'], of: (s) => s.tibiaWidthMm },
  { field: 'femurWidthMm', words: ['the femur is more than', 'wide'], of: (s) => s.femurWidthMm },
  {
    field: 'anteriorToPosteriorMm',
    words: ['the femur should be more than', 'from front to back'],
    of: (s) => s.anteriorToPosteriorMm,
  },
];

/** Most bounds that are tried for one length: whole millimetres, evenly through the drawn ones. */
const BOUNDS = 10;
/** Draws beyond these percentiles make no bound. */
const INNER = { from: 0.04, to: 0.96 } as const;

/** Whole millimetres that split the draws, from small to large. */
function boundsOf(values: readonly number[]): readonly number[] {
  const sorted = Float64Array.from(values).sort();
  const at = (share: number) => sorted[Math.round((sorted.length - 1) * share)] ?? 0;
  const [low, high] = [Math.floor(at(INNER.from)), Math.floor(at(INNER.to))];
  const step = Math.max(1, Math.ceil((high - low) / BOUNDS));
  return Array.from({ length: Math.floor((high - low) / step) + 1 }, (_, i) => low + i * step);
}

const lengthQuestions = (length: Length, knees: readonly DrawnKnee[]): readonly Observation[] =>
  boundsOf(knees.map(({ state }) => length.of(state))).map((above) => ({
    field: length.field,
    above,
    question: [length.words[0], `${above} mm`, length.words[1]].join(' ').trim(),
    holds: ({ state }) => length.of(state) > above,
  }));

function classQuestions(bone: 'femur' | 'tibia'): readonly Observation[] {
  const field = `${bone}Class` as const;
  return BONE_CLASSES.slice(1).map((least) => ({
    field,
    above: null,
    question: `the ${bone} is of class ${least}${least === '3' ? '' : ' or worse'}`,
    holds: ({ state }) => classRank(state[field]) >= classRank(least),
  }));
}

function ligamentQuestions(ligament: 'mcl' | 'lcl'): readonly Observation[] {
  const name = ligament === 'mcl' ? 'medial' : 'lateral';
  return [
    {
      field: ligament,
      above: null,
      question: `the ${name} collateral ligament is gone`,
      holds: ({ state }) => state[ligament] === 'absent',
    },
    {
      field: ligament,
      above: null,
      question: `the ${name} collateral ligament is weak or gone`,
      holds: ({ state }) => state[ligament] === 'absent' || state[ligament] === 'attenuated',
    },
  ];
}

/** Yes-and-no questions first: infection, fracture, ligaments, classes. */
const EVENTS: readonly Observation[] = [
  { field: 'infection', above: null, question: 'infection is found', holds: (k) => k.infection },
  { field: 'fracture', above: null, question: 'the bone breaks at removal', holds: (k) => k.fracture },
  ...ligamentQuestions('mcl'),
  ...ligamentQuestions('lcl'),
  ...classQuestions('tibia'),
  ...classQuestions('femur'),
];

/**
 * Everything about the drawn knees that theatre can see and ask (FOR-11): infection, fracture, ligaments, classes, then
 * lengths against whole millimetres. Gaps run from bone to bone with the ligaments tensed: they hold whatever
 * the target joint line is. Order = order of preference among questions that tell as much.
 */
export const observationsOf = (knees: readonly DrawnKnee[]): readonly Observation[] => [
  ...EVENTS,
  ...LENGTHS.flatMap((length) => lengthQuestions(length, knees)),
];
