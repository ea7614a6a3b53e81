import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct } from '../gaps/construct.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { ok } from '../measure/outcome.ts';
import type { Maps } from './bone-stock-support.ts';
import type { CaseFile } from './case.ts';
import type { Plan } from './plan.ts';
import { type StemPlan, stemPlan, stemVerdicts, surroundingsOf } from './stem-plan.ts';
import type { StemScene } from './stem-plan-canals.ts';
import { cavityFits, cavityVerdicts, stemLimits } from './stem-plan-limits.ts';
import { type MetaphysisPlan, metaphysisPlan } from './stem-plan-metaphysis.ts';
import { expectedSeats, type StemSeats, seatsOf } from './stem-plan-seats.ts';
import type { TargetTilt } from './target-axes.ts';

/** What fixation in metaphysis and shaft is planned from. */
export interface FixationInputs {
  /** The sound part of the case. */
  readonly file: CaseFile;
  readonly evidence: KneeEvidence;
  readonly tilt: TargetTilt;
  readonly maps: Maps;
  /** Height of the target over the present joint line, mm; null = not known, then heights count from the present one. */
  readonly targetMm: number | null;
  readonly catalogue: Catalogue;
}

type BoneWithOrigins = Plan['bone'];

const plannedSlope = ({ file, catalogue }: FixationInputs): number =>
  file.settings?.targetSlopeDeg ?? catalogue.limits.slopeDeg[0] ?? 0;

const sceneOf = (inputs: FixationInputs, seats: StemSeats): StemScene => ({
  ...inputs,
  targetMm: inputs.targetMm ?? 0,
  seats,
});

const seatsBefore = (inputs: FixationInputs, state: BoneState | null): StemSeats | null =>
  expectedSeats({ side: inputs.file.side, catalogue: inputs.catalogue, state, slopeDeg: plannedSlope(inputs) });

/**
 * The bone state with what the measured canals and cavities allow: stems that pass, cones and sleeves that fit (STM-15, META-5). Where
 * nothing is traced or measured the fields are absent: the solver goes by class, size and canal diameter as before.
 */
export function withMeasuredFixation(bone: BoneWithOrigins, inputs: FixationInputs): BoneWithOrigins {
  if (!bone.ok) return bone;
  const { state } = bone.value;
  const seats = seatsBefore(inputs, state);
  if (!seats) return bone;
  const scene = sceneOf(inputs, seats);
  const limits = (which: 'femur' | 'tibia') => {
    const around = surroundingsOf(which, scene, inputs.catalogue);
    const traced = around.canal.ap !== null || around.canal.lateral !== null;
    return traced ? stemLimits(stemVerdicts(around, inputs.catalogue)) : null;
  };
  const cavity = (which: 'femur' | 'tibia') => {
    const verdicts = cavityVerdicts(which, inputs.maps[which].metaphysis, inputs.catalogue);
    return verdicts && cavityFits(verdicts);
  };
  const [femoralStemLimits, tibialStemLimits] = [limits('femur'), limits('tibia')];
  const [femurCavity, tibiaCavity] = [cavity('femur'), cavity('tibia')];
  const measured: BoneState = {
    ...state,
    ...(femoralStemLimits ? { femoralStemLimits } : {}),
    ...(tibialStemLimits ? { tibialStemLimits } : {}),
    ...(femurCavity ? { femurCavity } : {}),
    ...(tibiaCavity ? { tibiaCavity } : {}),
  };
  return ok({ ...bone.value, state: measured }, bone.warnings);
}

/** Where the stems of a construct lie on the films, or those expected while there is none; null where the catalogue has no such parts. */
export function stemScene(
  inputs: FixationInputs,
  state: BoneState | null,
  construct: Construct | null,
): StemScene | null {
  const seats = construct ? seatsOf(construct, inputs.catalogue) : seatsBefore(inputs, state);
  return seats && sceneOf(inputs, seats);
}

/** Stems, cones and sleeves as proposed and as they could be; null where the catalogue has no femur or tray for this side. */
export function fixationPlan(
  inputs: FixationInputs,
  state: BoneState | null,
  construct: Construct | null,
): { readonly stems: StemPlan; readonly metaphysis: MetaphysisPlan } | null {
  const scene = stemScene(inputs, state, construct);
  if (!scene) return null;
  return {
    stems: stemPlan({ scene, catalogue: inputs.catalogue, state, construct }),
    metaphysis: metaphysisPlan(inputs, construct),
  };
}
