import { type LandmarkId, landmark } from '../landmarks/landmark-table.ts';
import type { Mark } from '../landmarks/mark.ts';
import { CORONAL_VIEWS } from '../landmarks/view.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import type { CaseFinding } from './check-case.ts';

/** What must lie in front of what on a lateral film: the patella and the tubercle before the backs of condyles and plateau. */
const FRONT: readonly LandmarkId[] = [
  'patella-superior-pole',
  'patella-inferior-pole',
  'patella-articular-superior',
  'patella-articular-inferior',
  'tibial-tubercle',
];
const BEHIND: readonly LandmarkId[] = ['posterior-condyle', 'posterior-condyle-other', 'plateau-posterior'];

/**
 * Films whose direction or side the marks contradict (SIDE-5, SIDE-6): a lateral film on which patella and tubercle lie behind the knee is mirrored
 * or stated the wrong way round; an AP film on which the fibula lies medial is mirrored or of the other side. Both are held: every sign measured on
 * them would be wrong. Bones cannot be exchanged as marks can, hence this look beside LM-4.
 */
export function markFindings(file: CaseFile): CaseFinding[] {
  return file.films.flatMap((film, i) => {
    const marks = file.marks.filter((m) => m.film === film.id && m.points.length > 0);
    if (film.view === 'lateral') return mirroredLateral(film, i, marks);
    if (!CORONAL_VIEWS.includes(film.view)) return [];
    const sides = [...new Set(marks.map((m) => m.side))];
    const faults = sides.flatMap((side) =>
      fibulaMedial(
        film,
        i,
        marks.filter((m) => m.side === side),
      ),
    );
    return faults.slice(0, 1);
  });
}

interface Place {
  readonly x: number;
  readonly y: number;
}

/** Middle of the marks that fit, film pixels; null without any, or where a coordinate is no number. */
function middleOf(marks: readonly Mark[], fits: (m: Mark) => boolean): Place | null {
  const points = marks.filter(fits).flatMap((m) => m.points);
  const mean = (axis: 'x' | 'y') => points.reduce((sum, p) => sum + p[axis], 0) / points.length;
  const at = { x: mean('x'), y: mean('y') };
  return points.length > 0 && Number.isFinite(at.x) && Number.isFinite(at.y) ? at : null;
}

/** How far the first marks lie to the right of the others, seen along the limb, px: a film may lie turned. Null where either is not marked. */
function rightOf(marks: readonly Mark[], ids: readonly LandmarkId[], others: readonly LandmarkId[]): number | null {
  const bone = (of: 'femur' | 'tibia') => middleOf(marks, (m) => landmark(m.landmark).bone === of);
  const [femur, tibia] = [bone('femur'), bone('tibia')];
  const up = femur && tibia ? { x: femur.x - tibia.x, y: femur.y - tibia.y } : { x: 0, y: -1 };
  const length = Math.hypot(up.x, up.y);
  const [a, b] = [ids, others].map((set) => middleOf(marks, (m) => set.includes(m.landmark)));
  if (!a || !b || !(length > 0)) return null;
  return ((a.x - b.x) * -up.y + (a.y - b.y) * up.x) / length;
}

function mirroredLateral(film: CaseFilm, i: number, marks: readonly Mark[]): CaseFinding[] {
  const forward = film.columnsTowards === 'anterior' ? 1 : film.columnsTowards === 'posterior' ? -1 : null;
  const off = rightOf(marks, FRONT, BEHIND);
  if (forward === null || off === null || forward * off >= 0) return [];
  const right = film.columnsTowards === 'anterior' ? 'posterior' : 'anterior';
  return [
    {
      code: 'lateral-mirrored',
      message: `On film ${film.id} patella or tubercle are marked behind the knee: its direction is stated the wrong way round, or it is mirrored. It is held.`,
      file: film.file,
      field: `films[${i}].columnsTowards`,
      mend: `State that its columns run towards ${right}; if the marks are wrong, place them again.`,
      remedy: 'film-held',
      film: i,
    },
  ];
}

const TIBIA: readonly LandmarkId[] = [
  'tray-medial-edge',
  'tray-lateral-edge',
  'tibial-cortex-medial',
  'tibial-cortex-lateral',
  'medial-plateau',
  'lateral-plateau',
  'tibial-spines',
];

function fibulaMedial(film: CaseFilm, i: number, marks: readonly Mark[]): CaseFinding[] {
  const side = marks[0]?.side;
  const { columnsTowards } = film;
  if (!side || (columnsTowards !== 'patient-left' && columnsTowards !== 'patient-right')) return [];
  const lateral = columnsTowards === `patient-${side}` ? 1 : -1;
  const off = rightOf(marks, ['fibular-tip'], TIBIA);
  if (off === null || lateral * off >= 0) return [];
  const other = side === 'right' ? 'left' : 'right';
  return [
    {
      code: 'fibula-medial',
      message: `On film ${film.id} the fibula of the ${side} knee lies on its medial side: the film is mirrored, or it shows the ${other} knee. It is held.`,
      file: film.file,
      field: `films[${i}].side`,
      mend: `Read the marker on the film; correct its side to ${other}, or the direction of its columns.`,
      remedy: 'film-held',
      film: i,
    },
  ];
}
