import type { Catalogue } from '../catalogue/catalogue.ts';
import type { SolvedConstruct } from '../gaps/construct.ts';
import { partsOf } from '../gaps/parts-of.ts';
import type { JointLineEstimate } from '../joint-line/estimate-types.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { chosenTarget } from './alignment-targets.ts';
import { presentFilms, targetTilt } from './bone-inputs.ts';
import { femurOn, femurOnLateral, tibiaOn, tibiaOnLateral } from './bones-on-film.ts';
import type { CaseFile } from './case.ts';
import { femurOnAp, femurOnSide, tibiaOnAp, tibiaOnSide } from './draw-construct.ts';
import { presentOnAp, presentOnLateral, targetLine } from './draw-knee.ts';
import { type StemDrawing, stemsOnAp, stemsOnSide, tracedWalls } from './draw-stems.ts';
import { stemDrawing } from './draw-stems-scene.ts';
import type { DrawnLayer, FilmDrawing, Plan } from './plan.ts';
import { femurSeatOnAp, femurSeatOnLateral, traySeatOnAp } from './seats-on-film.ts';
import type { TargetTilt } from './target-axes.ts';

export interface Drawable {
  /** The sound part of the case. */
  readonly file: CaseFile;
  readonly evidence: KneeEvidence;
  readonly plan: Omit<Plan, 'drawings' | 'sources'>;
  readonly catalogue: Catalogue | null;
}

/** What is drawn on each present film of the knee: as it is now, the target joint line, the proposed construct. Film pixels. */
export const drawPlan = (d: Drawable): readonly FilmDrawing[] =>
  drawConstruct(d, d.plan.construct.kind === 'solved' ? d.plan.construct.answer.best : null);

/**
 * The same with another construct, so that an alternative can be seen in its place. On each film the present knee comes
 * first, then the target, then components, so that later layers lie over earlier ones.
 */
export function drawConstruct(d: Drawable, solved: Pick<SolvedConstruct, 'construct'> | null): readonly FilmDrawing[] {
  const { coronal, sagittal } = presentFilms(d.evidence);
  const tilt = targetTilt(chosenTarget(d.plan.alignment), d.plan.measurements);
  const target = d.plan.jointLine.femoral.ok ? d.plan.jointLine.femoral.value : null;
  const scene: Scene = { d, solved, tilt, target, stems: stemsOf(d, { solved, tilt, target }) };
  return [
    ...coronal.map((film) => ({ film: film.film.id, layers: onAp(film, scene) })),
    ...sagittal.map((film) => ({ film: film.film.id, layers: onLateral(film, scene) })),
  ].filter((drawing) => drawing.layers.length > 0);
}

interface Scene {
  readonly d: Drawable;
  readonly solved: Pick<SolvedConstruct, 'construct'> | null;
  readonly tilt: TargetTilt;
  readonly target: JointLineEstimate | null;
  readonly stems: StemDrawing | null;
}

function stemsOf({ file, evidence, plan, catalogue }: Drawable, { solved, tilt, target }: Omit<Scene, 'd' | 'stems'>) {
  if (!solved || !catalogue || !target) return null;
  const from = {
    file,
    evidence,
    tilt,
    catalogue,
    targetMm: target.heightMm,
    stock: plan.boneStock,
    state: plan.bone.ok ? plan.bone.value.state : null,
  };
  return stemDrawing(from, solved.construct);
}

/** Layers with the stems that were judged in their canal in the place of those that were not. */
const withStems = (layers: readonly DrawnLayer[], judged: readonly DrawnLayer[]): readonly DrawnLayer[] => {
  const ids = new Set(judged.map((l) => l.id));
  return [...layers.filter((l) => !ids.has(l.id)), ...judged];
};

function onAp(film: LimbFilm<'coronal'>, { d, solved, tilt, target, stems }: Scene): readonly DrawnLayer[] {
  const femur = femurOn(film, tilt);
  const tibia = tibiaOn(film, tilt, d.file.implants?.insertMm);
  const layers = [...presentOnAp(film, [femur, tibia]), ...tracedWalls(film, d)];
  if (!target) return layers;
  if (femur) layers.push(...targetLine(femur, target));
  if (!solved || !d.catalogue) return layers;
  const parts = partsOf(solved.construct, d.catalogue);
  const targetMm = target.heightMm;
  if (tibia) {
    const seat = traySeatOnAp(tibia, targetMm);
    const asideMm = stems?.trayPlace?.lateralMm ?? 0;
    layers.push(...tibiaOnAp({ ...seat, acrossMm: seat.acrossMm + asideMm }, solved.construct, parts));
  }
  if (femur) layers.push(...femurOnAp(femurSeatOnAp(femur, targetMm), solved.construct, parts));
  return stems ? withStems(layers, stemsOnAp(film, stems)) : layers;
}

function onLateral(film: LimbFilm<'sagittal'>, { d, solved, target, stems }: Scene): readonly DrawnLayer[] {
  const known = { femurDistalMm: d.file.implants?.femurDistalMm, insertMm: d.file.implants?.insertMm };
  const [femur, tibia] = [femurOnLateral(film, known), tibiaOnLateral(film, known)];
  const layers = [...presentOnLateral(film, [femur, tibia]), ...tracedWalls(film, d)];
  if (!solved || !d.catalogue || !target || !d.plan.bone.ok) return layers;
  const parts = partsOf(solved.construct, d.catalogue);
  const targetMm = target.heightMm;
  const frontMm = stems?.trayPlace?.anteriorMm ?? 0;
  if (tibia) layers.push(...tibiaOnSide({ bone: tibia, acrossMm: frontMm, targetMm }, solved.construct, parts));
  const { anteriorToPosteriorMm } = d.plan.bone.value.state;
  const seat = femur && femurSeatOnLateral(femur, { targetMm, anteriorToPosteriorMm });
  if (seat) layers.push(...femurOnSide(seat, solved.construct, { parts, shaftMiddleMm: seat.shaftMiddleMm }));
  return stems ? withStems(layers, stemsOnSide(film, stems)) : layers;
}
