import type { Construct } from '../gaps/construct.ts';
import { type LimbFrame, toFilm } from '../landmarks/film-to-limb.ts';
import { chosenTarget } from './alignment-targets.ts';
import { presentFilms, targetTilt } from './bone-inputs.ts';
import { femurOn, femurOnLateral, spot, tibiaOn, tibiaOnLateral } from './bones-on-film.ts';
import type { Seat } from './draw-construct.ts';
import type { Drawable } from './draw-plan.ts';
import { femurSeatOnAp, femurSeatOnLateral, traySeatOnAp } from './seats-on-film.ts';

interface XY {
  readonly x: number;
  readonly y: number;
}

/** Where one component stands on one film, and how a move on the film is a move of it. Film pixels. */
export interface ComponentOnFilm {
  readonly film: string;
  readonly bone: 'femur' | 'tibia';
  readonly view: 'coronal' | 'sagittal';
  /** Its place at J = 0 and q = 0 (femur) or U = 0 (tray). */
  readonly zero: XY;
  /** One millimetre across (lateral on AP films, anterior on lateral ones) and one proximal. */
  readonly across: XY;
  readonly up: XY;
}

/** Both components on every film on which they are drawn; empty without target, catalogue or bone. */
export function componentsOnFilm(d: Drawable): readonly ComponentOnFilm[] {
  const { femoral } = d.plan.jointLine;
  if (!femoral.ok || !d.catalogue) return [];
  const { coronal, sagittal } = presentFilms(d.evidence);
  const targetMm = femoral.value.heightMm;
  const tilt = targetTilt(chosenTarget(d.plan.alignment), d.plan.measurements);
  const { femurDistalMm, insertMm } = d.file.implants ?? {};
  const found: ComponentOnFilm[] = [];
  for (const film of coronal) {
    const [femur, tibia] = [femurOn(film, tilt), tibiaOn(film, tilt, insertMm)];
    if (femur) found.push(placed(femurSeatOnAp(femur, targetMm), 'femur', 'coronal'));
    if (tibia) found.push(placed(traySeatOnAp(tibia, targetMm), 'tibia', 'coronal'));
  }
  if (!d.plan.bone.ok) return found;
  const { anteriorToPosteriorMm } = d.plan.bone.value.state;
  for (const film of sagittal) {
    const known = { femurDistalMm, insertMm };
    const [femur, tibia] = [femurOnLateral(film, known), tibiaOnLateral(film, known)];
    const seat = femur && femurSeatOnLateral(femur, { targetMm, anteriorToPosteriorMm });
    if (seat) found.push(placed(seat, 'femur', 'sagittal'));
    if (tibia) found.push(placed({ bone: tibia, acrossMm: 0, targetMm }, 'tibia', 'sagittal'));
  }
  return found;
}

function placed<F extends LimbFrame>(
  { bone, acrossMm, targetMm }: Seat<F>,
  of: ComponentOnFilm['bone'],
  view: ComponentOnFilm['view'],
): ComponentOnFilm {
  const at = (x: number, y: number): XY => {
    const p = toFilm(bone.film.toLimb, spot(bone, acrossMm + x, targetMm + y));
    return { x: p.x, y: p.y };
  };
  const zero = at(0, 0);
  const way = (to: XY): XY => ({ x: to.x - zero.x, y: to.y - zero.y });
  return { film: bone.film.film.id, bone: of, view, zero, across: way(at(1, 0)), up: way(at(0, 1)) };
}

/** A place of the component's frame (mm across, mm up) on the film. */
export const onFilm = ({ zero, across, up }: ComponentOnFilm, acrossMm: number, upMm: number): XY => ({
  x: zero.x + across.x * acrossMm + up.x * upMm,
  y: zero.y + across.y * acrossMm + up.y * upMm,
});

/** A film point in the component's frame, mm across and up; the film's two ways are never parallel. */
export function inFrame(
  { zero, across, up }: ComponentOnFilm,
  p: XY,
): { readonly across: number; readonly up: number } {
  const [x, y] = [p.x - zero.x, p.y - zero.y];
  const area = across.x * up.y - across.y * up.x;
  return { across: (x * up.y - y * up.x) / area, up: (across.x * y - across.y * x) / area };
}

/** Where the component's own frame has its origin, mm across and up: J and q of the femur, U of the tray. */
export const originOf = (
  { bone, view }: ComponentOnFilm,
  construct: Pick<Construct, 'femurProximalMm' | 'femurAnteriorMm' | 'trayMm'>,
): readonly [acrossMm: number, upMm: number] =>
  bone === 'tibia'
    ? [0, construct.trayMm]
    : [view === 'sagittal' ? construct.femurAnteriorMm : 0, construct.femurProximalMm];
