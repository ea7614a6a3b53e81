import type { Catalogue } from '../catalogue/catalogue.ts';
import type { SolvedConstruct } from '../gaps/construct.ts';
import { partsOf } from '../gaps/parts-of.ts';
import type { JointLineEstimate } from '../joint-line/estimate-types.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { between, dot, midpoint, type Point } from '../plane/point.ts';
import { chosenTarget } from './alignment-targets.ts';
import { presentFilms, targetTilt } from './bone-inputs.ts';
import {
  type BoneOnFilm,
  behindAxisMm,
  femurOn,
  femurOnLateral,
  spot,
  tibiaOn,
  tibiaOnLateral,
} from './bones-on-film.ts';
import type { CaseFile } from './case.ts';
import { femurOnAp, femurOnSide, tibiaOnAp, tibiaOnSide } from './draw-construct.ts';
import { presentOnAp, presentOnLateral, targetLine } from './draw-knee.ts';
import { type StemDrawing, stemsOnAp, stemsOnSide, tracedWalls } from './draw-stems.ts';
import { stemDrawing } from './draw-stems-scene.ts';
import type { DrawnLayer, FilmDrawing, Plan } from './plan.ts';
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
  const from = { file, evidence, tilt, catalogue, targetMm: target.heightMm, stock: plan.boneStock };
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
    const acrossMm = middleAcross(tibia, 'tibial-cortex-medial', 'tibial-cortex-lateral');
    layers.push(...tibiaOnAp({ bone: tibia, acrossMm, targetMm }, solved.construct, parts));
  }
  if (femur) {
    const acrossMm = middleAcross(femur, 'femoral-bone-medial-edge', 'femoral-bone-lateral-edge');
    layers.push(...femurOnAp({ bone: femur, acrossMm, targetMm }, solved.construct, parts));
  }
  return stems ? withStems(layers, stemsOnAp(film, stems)) : layers;
}

function onLateral(film: LimbFilm<'sagittal'>, { d, solved, target, stems }: Scene): readonly DrawnLayer[] {
  const known = { femurDistalMm: d.file.implants?.femurDistalMm, insertMm: d.file.implants?.insertMm };
  const [femur, tibia] = [femurOnLateral(film, known), tibiaOnLateral(film, known)];
  const layers = [...presentOnLateral(film, [femur, tibia]), ...tracedWalls(film, d)];
  if (!solved || !d.catalogue || !target || !d.plan.bone.ok) return layers;
  const parts = partsOf(solved.construct, d.catalogue);
  const targetMm = target.heightMm;
  if (tibia) layers.push(...tibiaOnSide({ bone: tibia, acrossMm: 0, targetMm }, solved.construct, parts));
  const depth = femur && shaftDepthMm(femur);
  if (femur && depth !== null) {
    // x counts forwards from the target posterior line, which lies A0 behind the anterior cortex.
    const a0 = d.plan.bone.value.state.anteriorToPosteriorMm;
    const acrossMm = behindAxisMm(femur, femur.zero) - a0;
    const drawn = { parts, shaftMiddleMm: a0 - depth / 2 };
    layers.push(...femurOnSide({ bone: femur, acrossMm, targetMm }, solved.construct, drawn));
  }
  return stems ? withStems(layers, stemsOnSide(film, stems)) : layers;
}

/** How far the middle of a bone lies across from its axis, mm; 0 where its edges are not marked. */
function middleAcross(bone: BoneOnFilm<'coronal'>, a: LandmarkId, b: LandmarkId): number {
  const [p, q] = [bone.film.placed.get(a)?.at, bone.film.placed.get(b)?.at];
  if (!p || !q) return 0;
  return dot(between(spot(bone, 0, 0), midpoint(p, q)), bone.across as Point<'coronal'>) * bone.mm;
}

/** Depth of the femoral shaft at its lower level, mm; null where its posterior cortex is not marked. */
function shaftDepthMm(bone: BoneOnFilm<'sagittal'>): number | null {
  const back = bone.film.placed.get('femoral-sagittal-distal-posterior')?.at;
  return back ? behindAxisMm(bone, back) : null;
}
