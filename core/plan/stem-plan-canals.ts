import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { coronalFilm, type LimbFilm, sagittalFilm } from '../landmarks/limb-film.ts';
import { cannot, type Outcome, type Reason } from '../measure/outcome.ts';
import { between, dot, midpoint, type Point } from '../plane/point.ts';
import type { CanalTrace } from '../stems/canal-trace.ts';
import type { CanalInView, CanalOfBone } from '../stems/canal-view.ts';
import type { Maps } from './bone-stock-support.ts';
import {
  type BoneOnFilm,
  behindAxisMm,
  femurOn,
  femurOnLateral,
  spot,
  tibiaOn,
  tibiaOnLateral,
} from './bones-on-film.ts';
import { bestTrace, canalOnFilm, type StemOnFilm, stemOnFilm, stemViewOf } from './canal-on-film.ts';
import type { CaseFile } from './case.ts';
import type { StemSeats } from './stem-plan-seats.ts';
import type { TargetTilt } from './target-axes.ts';

type Bone = CanalTrace['bone'];

/** What places a stem on the films. */
export interface StemScene {
  readonly file: CaseFile;
  readonly evidence: KneeEvidence;
  readonly tilt: TargetTilt;
  /** Height of the target over the present joint line, mm. */
  readonly targetMm: number;
  readonly seats: StemSeats;
  /** Bone stock as entered and drawn: shaft and metaphysis. */
  readonly maps: Maps;
}

/** The canals of one bone as far as they can be read, and why the others cannot. */
export interface TracedCanal {
  readonly canal: CanalOfBone;
  readonly refused: readonly Reason[];
}

/** Middle of a bone across its axis on an AP film, mm; 0 where its edges are not marked. */
export function middleAcross(bone: BoneOnFilm<'coronal'>, which: Bone): number {
  const [a, b]: readonly [LandmarkId, LandmarkId] =
    which === 'femur'
      ? ['femoral-bone-medial-edge', 'femoral-bone-lateral-edge']
      : ['tibial-cortex-medial', 'tibial-cortex-lateral'];
  const [p, q] = [bone.film.placed.get(a)?.at, bone.film.placed.get(b)?.at];
  if (!p || !q) return 0;
  return dot(between(spot(bone, 0, 0), midpoint(p, q)), bone.across as Point<'coronal'>) * bone.mm;
}

/** The planned axis of a stem on an AP film; null where the bone has no place on it. */
export function stemOnAp(film: LimbFilm<'coronal'>, which: Bone, scene: StemScene): StemOnFilm<'coronal'> | null {
  const { seats, targetMm, tilt, file } = scene;
  const bone = which === 'femur' ? femurOn(film, tilt) : tibiaOn(film, tilt, file.implants?.insertMm);
  if (!bone) return null;
  const throughAcrossMm = middleAcross(bone, which);
  return which === 'femur'
    ? stemOnFilm(bone, which, {
        throughAcrossMm,
        throughUpMm: targetMm + seats.femur.seatMm,
        targetMm,
        // Proximally the stem leans laterally by its valgus: clockwise with x lateral, y proximal.
        turnDeg: -seats.femur.valgusDeg,
      })
    : stemOnFilm(bone, which, { throughAcrossMm, throughUpMm: targetMm - seats.tibia.faceMm, targetMm, turnDeg: 0 });
}

/** The same on a lateral film: along the anterior cortex of the femur; square to the sloped tray. */
export function stemOnSide(film: LimbFilm<'sagittal'>, which: Bone, scene: StemScene): StemOnFilm<'sagittal'> | null {
  const { seats, targetMm, file } = scene;
  const known = { femurDistalMm: file.implants?.femurDistalMm, insertMm: file.implants?.insertMm };
  const bone = which === 'femur' ? femurOnLateral(film, known) : tibiaOnLateral(film, known);
  if (!bone) return null;
  return which === 'femur'
    ? stemOnFilm(bone, which, {
        throughAcrossMm: behindAxisMm(bone, bone.zero),
        throughUpMm: targetMm,
        targetMm,
        turnDeg: 0,
      })
    : stemOnFilm(bone, which, {
        throughAcrossMm: 0,
        throughUpMm: targetMm - seats.tibia.faceMm,
        targetMm,
        // Front up: counter-clockwise with x anterior, y proximal.
        turnDeg: seats.tibia.slopeDeg,
      });
}

/** Both views of one bone's canal from the traces of a case (STM-6). */
export function tracedCanal(which: Bone, scene: StemScene): TracedCanal {
  const read: CanalInView[] = [];
  const refused: Reason[] = [];
  for (const [index, trace] of (scene.file.canals ?? []).entries()) {
    if (trace.bone !== which) continue;
    const one = readTrace({ trace, index }, scene);
    if (one.ok) read.push(one.value);
    else refused.push(one.reason);
  }
  const best = (view: CanalInView['view']) => bestTrace(read.filter((c) => c.view === view));
  return { canal: { bone: which, ap: best('ap'), lateral: best('lateral') }, refused };
}

function readTrace(
  { trace, index }: { readonly trace: CanalTrace; readonly index: number },
  scene: StemScene,
): Outcome<CanalInView> {
  const film = scene.file.films.find((f) => f.id === trace.film);
  const refuse = (code: string, what: string, mend: string) =>
    cannot({
      code,
      message: `Canal of the ${trace.bone} on film ${trace.film}: ${what}`,
      file: film?.file ?? 'case.json',
      field: `canals[${index}].film`,
      mend,
    });
  if (!film) return refuse('canal-on-no-film', 'the film is not in the case, or is held.', 'Name a film of the case.');
  if (film.role !== 'present')
    return refuse('canal-on-earlier-film', 'the film shows an earlier state.', 'Trace the canal on a present film.');
  const view = stemViewOf(film.view);
  if (!view)
    return refuse('canal-view', `a ${film.view} film shows no canal.`, 'Trace it on an AP, long-leg or lateral film.');
  const input = {
    film,
    side: scene.file.side,
    marks: scene.evidence.marks,
    calibration: scene.evidence.calibrations.get(film.id),
  };
  const place = <T>(seen: Outcome<T>, on: (limb: T) => Outcome<CanalInView>): Outcome<CanalInView> =>
    seen.ok ? on(seen.value) : cannot({ ...seen.reason, file: film.file });
  const at = { trace, index, file: film.file };
  const unscaled = () =>
    refuse('canal-without-scale', 'the film has no scale: its canal has no width in mm.', 'Give the film a scale.');
  const unplaced = () =>
    refuse(
      'canal-without-bone',
      'the axis of the bone or its present joint line is not marked there.',
      'Mark the shaft and the component on this film, and give the thickness of the present parts.',
    );
  if (view === 'ap')
    return place(coronalFilm(input), (limb) => {
      if (limb.mmPerUnit === null) return unscaled();
      const on = stemOnAp(limb, trace.bone, scene);
      return on ? canalOnFilm(on, at) : unplaced();
    });
  return place(sagittalFilm(input), (limb) => {
    if (limb.mmPerUnit === null) return unscaled();
    const on = stemOnSide(limb, trace.bone, scene);
    return on ? canalOnFilm(on, at) : unplaced();
  });
}
