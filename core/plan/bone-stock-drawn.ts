import type { DrawnDefect } from '../bone/bone-map.ts';
import { type DefectOnFilm, defectOnFilm, type OutlineOnFilm, type PlaneOption } from '../bone/defect-on-film.ts';
import { SIDES } from '../bone/map-of-bone.ts';
import { coronalFilms, sagittalFilms } from '../joint-line/joint-line-input.ts';
import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { landmark } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import type { Compartment } from '../landmarks/side.ts';
import { cannot, type Outcome, type Reason } from '../measure/outcome.ts';
import { type BoneFaces, planesOnAp } from './bone-stock-planes.ts';
import { planesOnLateral } from './bone-stock-planes-lateral.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import { isOnFilm } from './check-case.ts';
import type { TargetTilt } from './target-axes.ts';

/** One drawn defect as one side of the knee sees it, measured or with the reason why not. */
export interface DrawnOnSide {
  readonly drawn: DrawnDefect;
  /** `both` for a cavity or the anterior surface. */
  readonly compartment: Compartment | 'both';
  readonly size: Outcome<DefectOnFilm>;
}

export interface FilmsToDrawOn {
  readonly file: CaseFile;
  readonly evidence: KneeEvidence;
  readonly tilt: TargetTilt;
}

/**
 * Measures every drawn defect of a case (BONE-10) on its film: distal femur and plateau on AP films, posterior and anterior femur on
 * lateral ones, cavities on either. A drawing over both sides counts for each side with its own part. In the case's order.
 */
export function measureDrawn({ file, evidence, tilt }: FilmsToDrawOn): readonly DrawnOnSide[] {
  const drawings = file.bone?.drawn ?? [];
  if (drawings.length === 0) return [];
  const on: Present = {
    ap: coronalFilms(evidence, evidence.side, 'present'),
    lateral: sagittalFilms(evidence, evidence.side, 'present'),
    tilt,
    faces: file.implants ?? {},
    films: file.films,
  };
  return drawings.flatMap((drawn) => {
    const sides: readonly (Compartment | 'both')[] =
      drawn.compartment === 'both' && hasSides(drawn) ? SIDES : [drawn.compartment];
    return sides.map((compartment) => ({ drawn, compartment, size: measured(drawn, compartment, on) }));
  });
}

/** Present films of the knee, and what its planes are found with. */
interface Present {
  readonly ap: readonly LimbFilm<'coronal'>[];
  readonly lateral: readonly LimbFilm<'sagittal'>[];
  readonly tilt: TargetTilt;
  readonly faces: BoneFaces;
  readonly films: readonly CaseFilm[];
}

/** Surfaces of which each condyle or plateau has its own. */
const hasSides = ({ surface }: DrawnDefect): boolean =>
  surface === 'femur-distal' || surface === 'tibia-plateau' || surface === 'femur-posterior';

export const boneOf = ({ surface }: DrawnDefect): 'femur' | 'tibia' =>
  surface.startsWith('femur') ? 'femur' : 'tibia';

function measured(drawn: DrawnDefect, compartment: Compartment | 'both', on: Present): Outcome<DefectOnFilm> {
  const { tilt, faces } = on;
  const film = on.films.find((f) => f.id === drawn.film);
  if (film && !drawn.outline.every((p) => isOnFilm(p, film))) return cannot(outside(drawn, film));
  const outline: OutlineOnFilm = {
    outline: drawn.outline,
    ofOneSide: drawn.compartment === 'both' && compartment !== 'both',
  };
  const ap = on.ap.find((f) => f.film.id === drawn.film);
  const lateral = on.lateral.find((f) => f.film.id === drawn.film);
  const onAp = drawn.surface !== 'femur-posterior' && drawn.surface !== 'femur-anterior';
  if (ap && onAp) {
    const has = ap.placed.has.bind(ap.placed);
    const side = compartment === 'both' ? null : compartment;
    return firstThatFits(ap, planesOnAp({ bone: boneOf(drawn), side, tilt, faces, has }), { drawn, outline });
  }
  const planes = planesOnLateral(drawn.surface, faces);
  if (lateral && planes.length > 0) return firstThatFits(lateral, planes, { drawn, outline });
  return cannot(ap || lateral ? otherView(drawn, ap ? 'AP' : 'lateral') : noFilm(drawn));
}

/** The first plane whose marks stand on the film and that can be found; else what the first one lacks. */
function firstThatFits<F extends LimbFrame>(
  film: LimbFilm<F>,
  planes: readonly PlaneOption<F>[],
  { drawn, outline }: { readonly drawn: DrawnDefect; readonly outline: OutlineOnFilm },
): Outcome<DefectOnFilm> {
  let refused: Reason | null = null;
  for (const plane of planes) {
    if (!plane.inputs.every((id) => film.placed.has(id))) continue;
    const size = defectOnFilm(film, plane, outline);
    if (size.ok) return size;
    refused ??= size.reason;
    // Another plane would not make a better outline.
    if (size.reason.field === 'outline') break;
  }
  return cannot({ ...(refused ?? noPlane(film, planes[0])), field: fieldOf(drawn) });
}

const fieldOf = (drawn: DrawnDefect): string => `bone.drawn[${drawn.id}]`;

function noPlane<F extends LimbFrame>(film: LimbFilm<F>, first: PlaneOption<F> | undefined): Reason {
  const missing = first?.inputs.filter((id) => !film.placed.has(id)) ?? [];
  return {
    code: 'no-resection-plane',
    message: `Film ${film.film.id} shows no resection plane to measure the drawn defect from.`,
    mend: missing.length > 0 ? `Mark: ${missing.map((id) => landmark(id).label).join('; ')}.` : 'Give the component.',
  };
}

const outside = (drawn: DrawnDefect, film: CaseFilm): Reason => ({
  code: 'drawn-outside-picture',
  message: `A drawn defect lies outside film ${film.id} (${film.scaleFacts.columns} x ${film.scaleFacts.rows} pixels).`,
  field: fieldOf(drawn),
  mend: 'Draw it again on its film.',
});

const noFilm = (drawn: DrawnDefect): Reason => ({
  code: 'drawn-on-no-film',
  message: `A defect is drawn on film “${drawn.film}”, which is no present AP or lateral film of this knee that can be measured on.`,
  field: fieldOf(drawn),
  mend: 'Draw it on such a film, or correct side, view or orientation of the film.',
});

const otherView = (drawn: DrawnDefect, view: string): Reason => ({
  code: 'drawn-on-other-view',
  message: `A ${view} film does not show the ${drawn.surface.replace('-', ', ')} by itself.`,
  field: fieldOf(drawn),
  mend:
    view === 'AP'
      ? 'Draw posterior and anterior loss on a lateral film.'
      : 'Draw loss of the distal femur and of the plateau on an AP film.',
});
