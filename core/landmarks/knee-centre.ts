import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { foot, intersection, lineThrough } from '../plane/line.ts';
import { midpoint, type Point } from '../plane/point.ts';
import type { KneeEvidence } from './knee-evidence.ts';
import type { LandmarkId } from './landmark-table.ts';
import type { Reading } from './reading.ts';

/** A way to find a centre: the middle of the knee for one of its bones, the hip or the ankle. */
export interface CentreOption {
  readonly id: 'F1' | 'F2' | 'F3' | 'T1' | 'T2' | 'T3' | 'native';
  readonly name: string;
  readonly inputs: readonly LandmarkId[];
  readonly centre: (r: Reading<'coronal'>) => Outcome<Point<'coronal'>>;
}

type R = Reading<'coronal'>;

const distalTangent = (r: R) => lineThrough(r.at('medial-condyle-distal'), r.at('lateral-condyle-distal'));

/** Middle of two marks, brought square onto the distal tangent. */
const ontoTangent = (a: LandmarkId, b: LandmarkId) => (r: R) => {
  const tangent = distalTangent(r);
  return tangent.ok ? ok(foot(midpoint(r.at(a), r.at(b)), tangent.value)) : tangent;
};

const middle = (a: LandmarkId, b: LandmarkId) => (r: R) => ok(midpoint(r.at(a), r.at(b)));

const CONDYLES = ['medial-condyle-distal', 'lateral-condyle-distal'] as const;

/** F1, the default with a component in place: middle of its width at the level of the distal tangent. */
export const F1: CentreOption = {
  id: 'F1',
  name: 'F1: middle of the femoral component',
  inputs: ['femoral-component-medial-edge', 'femoral-component-lateral-edge', ...CONDYLES],
  centre: ontoTangent('femoral-component-medial-edge', 'femoral-component-lateral-edge'),
};

/** F2: the notch of the component or, in the native knee, of the bone. */
export const F2: CentreOption = {
  id: 'F2',
  name: 'F2: intercondylar notch',
  inputs: ['femoral-notch'],
  centre: (r) => ok(r.at('femoral-notch')),
};

/** F3, the bone's own truth: middle of the epicondyles brought onto the distal tangent. */
export const F3: CentreOption = {
  id: 'F3',
  name: 'F3: middle of the epicondyles',
  inputs: ['medial-epicondyle', 'lateral-epicondyle', ...CONDYLES],
  centre: ontoTangent('medial-epicondyle', 'lateral-epicondyle'),
};

/** T1, the default with a tray in place: middle of its upper metal line. */
export const T1: CentreOption = {
  id: 'T1',
  name: 'T1: middle of the tray',
  inputs: ['tray-medial-edge', 'tray-lateral-edge'],
  centre: middle('tray-medial-edge', 'tray-lateral-edge'),
};

/** T2, the bone's own truth: middle of the outer cortices just below the tray. */
export const T2: CentreOption = {
  id: 'T2',
  name: 'T2: middle of the tibia below the tray',
  inputs: ['tibial-cortex-medial', 'tibial-cortex-lateral'],
  centre: middle('tibial-cortex-medial', 'tibial-cortex-lateral'),
};

const SHAFT = [
  'tibial-shaft-proximal-medial',
  'tibial-shaft-proximal-lateral',
  'tibial-shaft-distal-medial',
  'tibial-shaft-distal-lateral',
] as const;

/** T3: the shaft's axis drawn up to the tray's line; bends with the bow of the tibia. */
export const T3: CentreOption = {
  id: 'T3',
  name: 'T3: axis of the tibial shaft',
  inputs: [...SHAFT, ...T1.inputs],
  centre: (r) =>
    combine(
      lineThrough(midpoint(r.at(SHAFT[0]), r.at(SHAFT[1])), midpoint(r.at(SHAFT[2]), r.at(SHAFT[3]))),
      lineThrough(r.at('tray-medial-edge'), r.at('tray-lateral-edge')),
      intersection,
    ),
};

const SPINES: CentreOption = {
  id: 'native',
  name: 'middle of the tibial spines',
  inputs: ['tibial-spines'],
  centre: (r) => ok(r.at('tibial-spines')),
};

const PLATEAUS: CentreOption = {
  id: 'native',
  name: 'middle of the plateaus',
  inputs: ['medial-plateau', 'lateral-plateau'],
  centre: middle('medial-plateau', 'lateral-plateau'),
};

/** Where nothing better is marked: middle of the two distal condyle points. Good for a height, not for an axis. */
export const CONDYLE_MIDDLE: CentreOption = {
  id: 'native',
  name: 'middle of the condyle points',
  inputs: CONDYLES,
  centre: middle(...CONDYLES),
};

/** Femoral knee centres in order of preference (LIMB-2). */
export const femoralCentres = (state: KneeEvidence['state']): readonly CentreOption[] =>
  state === 'replaced' ? [F1, F2, F3] : [F2, F3];

/** Tibial knee centres in order of preference (LIMB-2). */
export const tibialCentres = (state: KneeEvidence['state']): readonly CentreOption[] =>
  state === 'replaced' ? [T1, T2, T3] : [SPINES, PLATEAUS];
