import { ANKLE, ankle, HIP, hip } from '../landmarks/bony-lines.ts';
import { type CentreOption, femoralCentres, tibialCentres } from '../landmarks/knee-centre.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { shakable } from '../landmarks/reading.ts';
import type { Warning } from '../measure/outcome.ts';
import { type Direction, direction, normalOf } from '../plane/direction.ts';
import { between, dot, type Point, point } from '../plane/point.ts';

/** Options further apart than this across the limb are worth a look, mm (LIMB-2). */
export const CENTRES_APART_MM = 3;

/** Compares every knee centre that can be had with the one in use, across the limb: the direction that turns the axes. */
export function centreCautions(
  films: readonly LimbFilm<'coronal'>[],
  state: KneeEvidence['state'],
): readonly Warning[] {
  const film = films.find((f) => f.film.view === 'long-leg' && f.film.role === 'present');
  if (!film || film.mmPerUnit === null) return [];
  return [...compare(film, femoralCentres(state), 'femur'), ...compare(film, tibialCentres(state), 'tibia')];
}

function compare(film: LimbFilm<'coronal'>, options: readonly CentreOption[], bone: string): readonly Warning[] {
  const found = options.flatMap((o) => {
    const c = centre(film, o);
    return c ? [{ o, c }] : [];
  });
  const [used, ...others] = found;
  if (!used) return [];
  const across = acrossTheLimb(film);
  return others.flatMap(({ o, c }) => {
    const apart = Math.abs(dot(between(used.c, c), across)) * (film.mmPerUnit ?? 0);
    return apart > CENTRES_APART_MM
      ? [
          {
            code: 'knee-centres-apart',
            message: `Knee centre of the ${bone}: “${used.o.name}” and “${o.name}” lie ${apart.toFixed(1)} mm apart; 1 mm turns the axis by about 0.3 degrees.`,
            mend: 'Check the marks; the component may stand off the middle of the bone.',
          },
        ]
      : [];
  });
}

/** Square to the line from hip to ankle, so that a film that lies turned is judged alike; the frame's x where either is not marked. */
function acrossTheLimb(film: LimbFilm<'coronal'>): Direction<'coronal'> {
  if (![HIP, ...ANKLE].every((id) => film.placed.has(id) && !film.faults.has(id))) return point('coronal', 1, 0);
  const { reading } = shakable(film, [HIP, ...ANKLE]);
  const down = direction(hip(reading), ankle(reading));
  return down.ok ? normalOf(down.value) : point('coronal', 1, 0);
}

function centre(film: LimbFilm<'coronal'>, option: CentreOption): Point<'coronal'> | null {
  if (!option.inputs.every((id) => film.placed.has(id) && !film.faults.has(id))) return null;
  const c = option.centre(shakable(film, option.inputs).reading);
  return c.ok ? c.value : null;
}
