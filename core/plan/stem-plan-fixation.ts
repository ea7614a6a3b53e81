import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct } from '../gaps/construct.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { ok } from '../measure/outcome.ts';
import type { Maps } from './bone-stock-support.ts';
import type { CaseFile } from './case.ts';
import type { Origin, Plan } from './plan.ts';
import { judgedBone, type StemPlan, type StemPlanInputs, stemPlan } from './stem-plan.ts';
import type { StemScene } from './stem-plan-canals.ts';
import { cavityFits, cavityVerdicts, stemLimits, type TrayOnFilms } from './stem-plan-limits.ts';
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

const sceneOf = (inputs: FixationInputs, seats: StemSeats): StemScene => ({
  ...inputs,
  targetMm: inputs.targetMm ?? 0,
  seats,
});

/** What the canals and cavities allow, found once and used twice: by the solver, and told in the plan. */
export interface MeasuredFixation {
  readonly inputs: FixationInputs;
  readonly expected: StemScene;
  readonly judged: StemPlanInputs['judged'];
}

/** Stems of the catalogue judged where they are expected; null where the catalogue has no femur or tray for this side. */
export function measuredFixation(inputs: FixationInputs, bone: Plan['bone']): MeasuredFixation | null {
  const { file, catalogue } = inputs;
  const slopeDeg = file.settings?.targetSlopeDeg ?? catalogue.limits.slopeDeg[0] ?? 0;
  const state = bone.ok ? bone.value.state : null;
  const seats = expectedSeats({ side: file.side, catalogue, state, slopeDeg });
  if (!seats) return null;
  const expected = sceneOf(inputs, seats);
  const judged = (which: 'femur' | 'tibia') => judgedBone(which, expected, catalogue);
  return { inputs, expected, judged: { femur: judged('femur'), tibia: judged('tibia') } };
}

/**
 * The bone state with what the measured canals and cavities allow: stems that pass, cones and sleeves that fit (STM-15, META-5). Where
 * nothing is traced or measured the fields are absent: the solver goes by class, size and canal diameter as before.
 */
export function withMeasuredFixation(bone: Plan['bone'], fixation: MeasuredFixation | null): Plan['bone'] {
  if (!bone.ok || !fixation) return bone;
  const { judged, inputs } = fixation;
  const limits = (which: 'femur' | 'tibia') => {
    const { verdicts } = judged[which];
    return verdicts.length > 0 ? stemLimits(verdicts, which === 'tibia' ? trayOnFilms(inputs) : undefined) : null;
  };
  const cavity = (which: 'femur' | 'tibia') => {
    const verdicts = cavityVerdicts(which, inputs.maps[which].metaphysis, inputs.catalogue);
    return verdicts && cavityFits(verdicts);
  };
  const [femoralStemLimits, tibialStemLimits] = [limits('femur'), limits('tibia')];
  const [femurCavity, tibiaCavity] = [cavity('femur'), cavity('tibia')];
  const state: BoneState = {
    ...bone.value.state,
    ...(femoralStemLimits ? { femoralStemLimits } : {}),
    ...(tibialStemLimits ? { tibialStemLimits } : {}),
    ...(femurCavity ? { femurCavity } : {}),
    ...(tibiaCavity ? { tibiaCavity } : {}),
  };
  const origins = [...bone.value.origins, ...originsOf(fixation, state)];
  return ok({ state, origins }, bone.warnings);
}

/** Where the middle of the tibia is marked from in front. */
const trayOnFilms = ({ evidence, file }: FixationInputs): TrayOnFilms => ({
  middleIsMarkedOn: (film) =>
    (['tibial-cortex-medial', 'tibial-cortex-lateral'] as const).every((edge) =>
      evidence.marks.some((m) => m.landmark === edge && m.film === film && m.side === file.side),
    ),
});

/** From where the solver's choice of stems, cones and sleeves is. */
function originsOf({ judged }: MeasuredFixation, state: BoneState): readonly Origin[] {
  const share = (open: number, all: number) => `${open} of ${all}`;
  const origins: Origin[] = [];
  for (const bone of ['femur', 'tibia'] as const) {
    const limits = bone === 'femur' ? state.femoralStemLimits : state.tibialStemLimits;
    const cavity = bone === 'femur' ? state.femurCavity : state.tibiaCavity;
    const { ap, lateral } = judged[bone].around.canal;
    const films = [ap, lateral].flatMap((view) => (view ? [view.film] : []));
    const common = { unit: '', sd: null } as const;
    if (limits)
      origins.push({
        ...common,
        field: bone === 'femur' ? 'femoralStemLimits' : 'tibialStemLimits',
        label: `Stems left to choose from, ${bone}`,
        value: share(limits.filter((l) => l.passes).length, limits.length),
        from: `canal traced on ${films.join(' and ')}`,
        rule: 'STM-15',
      });
    if (cavity)
      origins.push({
        ...common,
        field: `${bone}Cavity`,
        label: `Cones and sleeves left to choose from, ${bone}`,
        value: share(cavity.filter((c) => c.fits).length, cavity.length),
        from: `cavity as measured, bone.${bone}Map.metaphysis`,
        rule: 'META-5',
      });
  }
  return origins;
}

/** Where the stems of a construct lie on the films; those expected while there is none. */
export const sceneOfConstruct = ({ inputs, expected }: MeasuredFixation, construct: Construct | null): StemScene =>
  construct ? sceneOf(inputs, seatsOf(construct, inputs.catalogue)) : expected;

/** Stems, cones and sleeves as proposed and as they could be. */
export function fixationPlan(
  fixation: MeasuredFixation,
  bone: Plan['bone'],
  construct: Construct | null,
): { readonly stems: StemPlan; readonly metaphysis: MetaphysisPlan } {
  const { inputs, expected, judged } = fixation;
  const scene = sceneOfConstruct(fixation, construct);
  const state = bone.ok ? bone.value.state : null;
  return {
    stems: stemPlan({ judged, expected, scene, catalogue: inputs.catalogue, state, construct }),
    metaphysis: metaphysisPlan(inputs, construct),
  };
}
