import { ANKLE, ankle, FEMORAL_LINE, type MarkedLine, TIBIAL_SHAFT, tibialLine } from '../landmarks/bony-lines.ts';
import { type CentreOption, tibialCentres } from '../landmarks/knee-centre.ts';
import type { EvidenceImplants, KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { millimetres, NO_INSERT, NO_SCALE } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import { PLATEAU, plateauDirection, shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import { combine } from '../measure/combine.ts';
import { cannot, type Outcome, ok, type Warning } from '../measure/outcome.ts';
import { type Direction, direction, normalOf } from '../plane/direction.ts';
import { intersection } from '../plane/line.ts';
import { between, dot, midpoint, plus, point } from '../plane/point.ts';
import { CARTILAGE_MM } from './landmark-distances.ts';
import { type Level, usable } from './level.ts';

type R = Reading<'coronal'>;

export interface TibiaAsItIs {
  readonly state: KneeEvidence['state'];
  readonly implants: EvidenceImplants | undefined;
}

/**
 * The tibia's joint line on one AP film (JL-11): over a tray its upper metal line and the insert's thickness, over native bone the
 * plateau and its cartilage, where the tibia's axis meets it. Without the insert's thickness the femoral component's tangent
 * stands in, for the two touch under load. Refuses a film without scale, line or axis.
 */
export function tibialLevel(film: LimbFilm<'coronal'>, tibia: TibiaAsItIs): Outcome<Level<'coronal'>> {
  if (film.scale === null) return cannot({ ...NO_SCALE, field: `films[${film.film.id}].scale` });
  const surface = bearing(film, tibia);
  if (!surface.ok) return surface;
  const axis = tibialAxis(film, tibia.state);
  if (!axis.ok) return axis;
  const { line, liftMm, insertMm, warnings } = surface.value;
  return ok({
    film,
    insertMm,
    inputs: [...new Set([...line.inputs, ...axis.value.inputs])],
    axis: axis.value.name,
    turnSdDeg: 0,
    warnings,
    distance: (r, landmark) => {
      const c = axis.value.through(r);
      return combine(axis.value.direction(r), line.direction(r), (up, along) => {
        if (!c.ok) return c;
        const first = line.inputs[0] as (typeof line.inputs)[number];
        const at = intersection({ through: c.value, along: up }, { through: r.at(first), along });
        if (!at.ok) return at;
        const bare = millimetres(dot(between(r.at(landmark), at.value), up), r);
        // The insert stands on the line's normal; along the axis it is that much taller.
        const lift = (r.insertMm ?? liftMm) / Math.max(0.5, dot(normalOf(along), up));
        return bare.ok ? ok(bare.value + lift) : bare;
      });
    },
  });
}

interface Surface {
  readonly line: MarkedLine;
  readonly liftMm: number;
  readonly insertMm: number | null;
  readonly warnings: readonly Warning[];
}

function bearing(film: LimbFilm<'coronal'>, { state, implants }: TibiaAsItIs): Outcome<Surface> {
  const line = tibialLine(state);
  const insertMm = state === 'replaced' ? (implants?.insertMm ?? null) : null;
  if (usable(film, line.inputs) && (state === 'native' || insertMm !== null))
    return ok({ line, insertMm, liftMm: state === 'native' ? CARTILAGE_MM : 0, warnings: [] });
  if (state === 'replaced' && film.film.standing === true && usable(film, FEMORAL_LINE.inputs))
    return ok({ line: FEMORAL_LINE, insertMm: null, liftMm: 0, warnings: [FEMUR_STANDS_IN] });
  if (!usable(film, line.inputs))
    return cannot(
      missing(film, state === 'replaced' ? 'both edges of the tray' : 'both plateaus', line.inputs[0] ?? ''),
    );
  return cannot(NO_INSERT);
}

interface Axis {
  readonly name: string;
  readonly inputs: readonly (typeof ANKLE)[number][];
  readonly through: CentreOption['centre'];
  /** Pointing proximally. */
  readonly direction: (r: R) => Outcome<Direction<'coronal'>>;
}

function tibialAxis(film: LimbFilm<'coronal'>, state: KneeEvidence['state']): Outcome<Axis> {
  const centre = tibialCentres(state).find((o) => usable(film, o.inputs));
  if (film.film.view === 'long-leg' && centre && usable(film, ANKLE))
    return ok({
      name: `mechanical axis of the tibia (${centre.name})`,
      inputs: [...centre.inputs, ...ANKLE],
      through: centre.centre,
      direction: (r) => {
        const c = centre.centre(r);
        return c.ok ? direction(ankle(r), c.value) : c;
      },
    });
  if (!usable(film, TIBIAL_SHAFT.inputs))
    return cannot(missing(film, 'the ankle (long-leg film) or the tibial shaft at two levels', 'talus-medial'));
  return ok({
    name: 'axis of the tibial shaft',
    inputs: TIBIAL_SHAFT.inputs,
    through: (r) => ok(midpoint(r.at('tibial-shaft-distal-medial'), r.at('tibial-shaft-distal-lateral'))),
    direction: TIBIAL_SHAFT.direction,
  });
}

/** The tibia's joint line on a lateral film, at the middle of the plateau or tray, along the shaft's anatomic axis (JL-11). */
export function sagittalTibialLevel(
  film: LimbFilm<'sagittal'>,
  { state, implants }: TibiaAsItIs,
): Outcome<Level<'sagittal'>> {
  if (film.scale === null) return cannot({ ...NO_SCALE, field: `films[${film.film.id}].scale` });
  const axisMarks = shaftMarks('tibial', 'both');
  if (!usable(film, PLATEAU)) return cannot(missing(film, 'both corners of tray or plateau', 'plateau-anterior'));
  if (!usable(film, axisMarks))
    return cannot(missing(film, 'both cortices of the tibial shaft at two levels', axisMarks[0] ?? ''));
  const insertMm = state === 'replaced' ? (implants?.insertMm ?? null) : null;
  if (state === 'replaced' && insertMm === null) return cannot(NO_INSERT);
  return ok({
    film,
    insertMm,
    inputs: [...PLATEAU, ...axisMarks],
    axis: 'axis of the tibial shaft on the lateral film (both cortices)',
    turnSdDeg: 0,
    warnings: [],
    distance: (r, landmark) =>
      combine(plateauDirection(r), shaftLine('tibial', 'both', r), (along, shaft) => {
        if (r.mmPerUnit === null) return cannot(NO_SCALE);
        const lift = (r.insertMm ?? CARTILAGE_MM) / r.mmPerUnit;
        const surface = plus(
          midpoint(r.at('plateau-anterior'), r.at('plateau-posterior')),
          point('sagittal', -along.y, along.x),
          lift,
        );
        return millimetres(dot(between(r.at(landmark), surface), shaft.along), r);
      }),
  });
}

const missing = (film: LimbFilm<'coronal'> | LimbFilm<'sagittal'>, what: string, id: string) => ({
  code: 'landmark-missing',
  message: `Film ${film.film.id}: ${what} must be marked for the tibial joint line.`,
  field: `marks[${id}]`,
  mend: `Mark ${what}.`,
});

const FEMUR_STANDS_IN: Warning = {
  code: 'bearing-from-femur',
  message:
    "The insert's thickness is not known: on this standing film the femoral component's tangent stands in for the bearing line.",
  field: 'implants.insertMm',
  mend: 'Give the insert thickness from the operation note or label.',
};
