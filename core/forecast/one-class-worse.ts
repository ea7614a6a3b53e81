import type { BoneClass } from '../bone/bone-class.ts';
import { oneClassWorse } from '../bone/class-worse.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import type { Stream } from './stream.ts';
import { type Triangle, triangularMm } from './triangular.ts';

/**
 * Bone that is lost besides when a bone turns out one class worse, mm (FOR-5). Planning defaults, grade D, no published
 * source: from type 1 to 2 remaining bone differs little, from 2 to 3 much (direction: Brenneis 2023, KSSTA).
 */
export const LOST_BESIDES: Readonly<Record<'to-type-2' | 'to-type-3', Triangle>> = {
  'to-type-2': { leastMm: 2, likelyMm: 5, mostMm: 10 },
  'to-type-3': { leastMm: 5, likelyMm: 10, mostMm: 20 },
};

/** Of what the distal face of a condyle loses besides, its posterior face loses this share (FOR-5; grade D). */
export const POSTERIOR_SHARE = 0.5;

/** Chance that a bone which turned type 3 has lost what holds a collateral ligament (FOR-6; grade D). */
export const ATTACHMENT_LOST = 0.25;

/** The chance draws of one bone: always all of them, so that the streams keep step. */
export interface WorseDraw {
  readonly happens: boolean;
  readonly depth: PerCompartment<number>;
  readonly medialAttachment: boolean;
  readonly lateralAttachment: boolean;
}

export const drawWorse = (stream: Stream, chance: number): WorseDraw => ({
  happens: stream.uniform() < chance,
  depth: { medial: stream.uniform(), lateral: stream.uniform() },
  medialAttachment: stream.uniform() < ATTACHMENT_LOST,
  lateralAttachment: stream.uniform() < ATTACHMENT_LOST,
});

/**
 * Which sides lose more (FOR-5): from 1 to 2A the side that is deeper already, from 2A to 2B the other one, from 2B on
 * both. Supports in mm, larger = deeper; equal = the medial side is the deeper one.
 */
function sidesThatLose(from: BoneClass, support: PerCompartment<number>): PerCompartment<boolean> {
  const medialDeeper = support.medial >= support.lateral;
  if (from === '1') return { medial: medialDeeper, lateral: !medialDeeper };
  if (from === '2A') return { medial: !medialDeeper, lateral: medialDeeper };
  return { medial: true, lateral: true };
}

/** What each side loses besides, mm, >= 0. */
function besides(draw: WorseDraw, from: BoneClass, support: PerCompartment<number>): PerCompartment<number> {
  const triangle = LOST_BESIDES[from === '1' || from === '2A' ? 'to-type-2' : 'to-type-3'];
  const loses = sidesThatLose(from, support);
  const mm = (side: 'medial' | 'lateral') => (loses[side] ? triangularMm(triangle, draw.depth[side]) : 0);
  return { medial: mm('medial'), lateral: mm('lateral') };
}

const plus = (a: PerCompartment<number>, b: PerCompartment<number>, share = 1): PerCompartment<number> => ({
  medial: a.medial + share * b.medial,
  lateral: a.lateral + share * b.lateral,
});

/**
 * The knee with its femur one class worse than entered (FOR-5, FOR-6): class, depth, and a collateral ligament gone
 * with its origin where the femur turns type 3. Type 3 stays type 3 and is deeper. As it was where it does not happen.
 */
export function femurWorse(state: BoneState, draw: WorseDraw): BoneState {
  if (!draw.happens) return state;
  const lost = besides(draw, state.femurClass, state.femurDistalMm);
  const femurClass = oneClassWorse(state.femurClass);
  const turns = femurClass === '3' && state.femurClass !== '3';
  return {
    ...state,
    femurClass,
    femurDistalMm: plus(state.femurDistalMm, lost),
    femurPosteriorMm: plus(state.femurPosteriorMm, lost, POSTERIOR_SHARE),
    mcl: turns && draw.medialAttachment ? 'absent' : state.mcl,
    lcl: turns && draw.lateralAttachment ? 'absent' : state.lcl,
  };
}

/** The same for the tibia: only the medial ligament is held by it, the lateral one by the fibula (FOR-6). */
export function tibiaWorse(state: BoneState, draw: WorseDraw): BoneState {
  if (!draw.happens) return state;
  const tibiaClass = oneClassWorse(state.tibiaClass);
  const turns = tibiaClass === '3' && state.tibiaClass !== '3';
  return {
    ...state,
    tibiaClass,
    tibiaMm: plus(state.tibiaMm, besides(draw, state.tibiaClass, state.tibiaMm)),
    mcl: turns && draw.medialAttachment ? 'absent' : state.mcl,
  };
}
