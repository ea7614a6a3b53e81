import { FEMORAL_LINE, FEMORAL_SHAFT, HIP, hip } from '../landmarks/bony-lines.ts';
import { type CentreOption, CONDYLE_MIDDLE, femoralCentres } from '../landmarks/knee-centre.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { millimetres, NO_SCALE } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import { toRad } from '../measure/angle.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Direction, direction } from '../plane/direction.ts';
import { intersection } from '../plane/line.ts';
import { between, dot } from '../plane/point.ts';
import { CARTILAGE_MM, SHAFT_TO_MECHANICAL } from './landmark-distances.ts';
import { type Level, usable } from './level.ts';

type R = Reading<'coronal'>;

/**
 * The femur's joint line on one AP film (JL-10): the tangent to both distal condyles where the mechanical axis meets it. Over a
 * component that is the bearing line; over native bone the cartilage is added. On a short film the axis is the shaft
 * turned by the mean angle between shaft and mechanical axis, with a caution.
 * Refuses a film without scale, without the two condyle marks, or without any axis.
 */
export function femoralLevel(film: LimbFilm<'coronal'>, state: KneeEvidence['state']): Outcome<Level<'coronal'>> {
  if (film.scale === null) return cannot({ ...NO_SCALE, field: `films[${film.film.id}].scale` });
  if (!usable(film, FEMORAL_LINE.inputs))
    return cannot(missing(film, 'both distal condyles', FEMORAL_LINE.inputs[0] ?? ''));
  const centre = [...femoralCentres(state), CONDYLE_MIDDLE].find((o) => usable(film, o.inputs)) ?? CONDYLE_MIDDLE;
  const cartilage = state === 'native' ? CARTILAGE_MM : 0;
  if (film.film.view === 'long-leg' && usable(film, [HIP])) {
    const axis = (r: R) => {
      const c = centre.centre(r);
      return c.ok ? direction(c.value, hip(r)) : c;
    };
    return ok({
      film,
      insertMm: null,
      inputs: [...new Set([HIP, ...centre.inputs, ...FEMORAL_LINE.inputs])],
      distance: distanceAlong(axis, centre, cartilage),
      axis: `mechanical axis of the femur (${centre.name})`,
      turnSdDeg: 0,
      warnings: [],
    });
  }
  if (!usable(film, FEMORAL_SHAFT.inputs))
    return cannot(missing(film, 'the femoral head (long-leg film) or the femoral shaft at two levels', HIP));
  return ok({
    film,
    insertMm: null,
    inputs: [...new Set([...FEMORAL_SHAFT.inputs, ...centre.inputs, ...FEMORAL_LINE.inputs])],
    distance: distanceAlong(turnedShaft, centre, cartilage),
    axis: `femoral shaft turned by ${SHAFT_TO_MECHANICAL.deg} degrees`,
    turnSdDeg: SHAFT_TO_MECHANICAL.sdDeg,
    warnings: [SHORT_FILM],
  });
}

/** The shaft leans laterally from the mechanical axis: turning it counter-clockwise (x lateral, y proximal) brings it back. */
function turnedShaft(r: R): Outcome<Direction<'coronal'>> {
  const shaft = FEMORAL_SHAFT.direction(r);
  if (!shaft.ok) return shaft;
  const { frame, x, y } = shaft.value;
  const [c, s] = [Math.cos(toRad(SHAFT_TO_MECHANICAL.deg)), Math.sin(toRad(SHAFT_TO_MECHANICAL.deg))];
  return ok({ frame, x: x * c - y * s, y: x * s + y * c });
}

const distanceAlong =
  (
    axis: (r: R) => Outcome<Direction<'coronal'>>,
    centre: CentreOption,
    cartilageMm: number,
  ): Level<'coronal'>['distance'] =>
  (r, landmark) => {
    const c = centre.centre(r);
    if (!c.ok) return c;
    const up = axis(r);
    if (!up.ok) return up;
    const tangent = FEMORAL_LINE.direction(r);
    if (!tangent.ok) return tangent;
    const at = intersection(
      { through: c.value, along: up.value },
      { through: r.at('medial-condyle-distal'), along: tangent.value },
    );
    if (!at.ok) return at;
    const mm = millimetres(dot(between(at.value, r.at(landmark)), up.value), r);
    return mm.ok ? ok(mm.value + cartilageMm) : mm;
  };

const missing = (film: LimbFilm<'coronal'>, what: string, id: string) => ({
  code: 'landmark-missing',
  message: `Film ${film.film.id}: ${what} must be marked for the femoral joint line.`,
  field: `marks[${id}]`,
  mend: `Mark ${what}.`,
});

const SHORT_FILM = {
  code: 'short-film-axis',
  message: `Short film: the mechanical axis is taken as the femoral shaft turned by ${SHAFT_TO_MECHANICAL.deg} ± ${SHAFT_TO_MECHANICAL.sdDeg} degrees; its spread is added.`,
  mend: 'Mark a long-leg film for the true mechanical axis.',
} as const;
