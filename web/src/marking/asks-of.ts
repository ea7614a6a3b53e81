import { type Calibration, hasMillimetres } from '@gapline/core/calibration/calibration.ts';
import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import { type Point, point } from '@gapline/core/plane/point.ts';
import type { CanalTrace } from '@gapline/core/stems/canal-trace.ts';
import { isMarked, markOn } from '../case/marking.ts';
import type { Ask } from './search.ts';

interface On {
  readonly file: CaseFile;
  readonly film: CaseFilm;
  readonly side: Side;
  readonly calibration: Calibration | undefined;
}

/** What can be looked for on this film and is not there yet, in the order in which it is offered. */
export function asksOf(on: On): readonly Ask[] {
  const { film } = on;
  const knee = film.view === 'ap' || film.view === 'long-leg' || film.view === 'lateral';
  return [
    ...(isThere(on, 'calibration-ball') ? [] : [ballAsk(on)]),
    ...(knee && COMPONENT_MARKS.some((id) => isWanted(on, id)) ? [componentsAsk(on)] : []),
    ...(['femur', 'tibia'] as const).flatMap((bone) => canalAsk(on, bone) ?? []),
  ];
}

const COMPONENT_MARKS: readonly LandmarkId[] = [
  'femoral-component-medial-edge',
  'medial-condyle-distal',
  'tray-medial-edge',
  'plateau-anterior',
  'posterior-condyle',
];
/** Of these each film holds those of its view. */
const ON_LATERAL: ReadonlySet<LandmarkId> = new Set(['plateau-anterior', 'posterior-condyle']);

const isThere = ({ file, film, side }: On, landmark: LandmarkId): boolean =>
  isMarked(file, { landmark, side, film: film.id });
const isWanted = (on: On, id: LandmarkId): boolean =>
  (on.film.view === 'lateral') === ON_LATERAL.has(id) && !isThere(on, id);

function ballAsk({ film }: On): Ask {
  const spacing = film.scaleFacts.imagerPixelSpacing?.[1];
  const diameterMm = film.scale?.kind === 'ball' ? film.scale.diameterMm : undefined;
  return {
    is: 'ball',
    search: {
      ...(diameterMm === undefined ? {} : { diameterMm }),
      ...(spacing === undefined ? {} : { detectorMmPerPx: spacing }),
    },
  };
}

/** On a film of both legs the knee is looked for in the half of its side. */
function componentsAsk({ film, side }: On): Ask {
  const view = film.view === 'lateral' ? 'lateral' : 'ap';
  if (film.side !== 'both' || !film.columnsTowards) return { is: 'components', search: { view } };
  const { columns, rows } = film.scaleFacts;
  const isRightHalf = film.columnsTowards === `patient-${side}`;
  return {
    is: 'components',
    search: { view, near: point('film', columns * (isRightHalf ? 0.75 : 0.25), rows / 2) },
  };
}

const SHAFT: Readonly<Record<'coronal' | 'lateral', Readonly<Record<CanalTrace['bone'], readonly LandmarkId[]>>>> = {
  coronal: {
    femur: [
      'femoral-shaft-distal-medial',
      'femoral-shaft-distal-lateral',
      'femoral-shaft-proximal-medial',
      'femoral-shaft-proximal-lateral',
    ],
    tibia: [
      'tibial-shaft-proximal-medial',
      'tibial-shaft-proximal-lateral',
      'tibial-shaft-distal-medial',
      'tibial-shaft-distal-lateral',
    ],
  },
  lateral: {
    femur: [
      'femoral-sagittal-distal-anterior',
      'femoral-sagittal-distal-posterior',
      'femoral-sagittal-proximal-anterior',
      'femoral-sagittal-proximal-posterior',
    ],
    tibia: [
      'tibial-sagittal-proximal-anterior',
      'tibial-sagittal-proximal-posterior',
      'tibial-sagittal-distal-anterior',
      'tibial-sagittal-distal-posterior',
    ],
  },
};

/** The canal between the two levels at which the shaft is marked; null where it is traced, or the shaft is not marked. */
function canalAsk(on: On, bone: CanalTrace['bone']): Ask | null {
  const { file, film, side, calibration } = on;
  if (side !== file.side || file.canals?.some((c) => c.bone === bone && c.film === film.id)) return null;
  const at = SHAFT[film.view === 'lateral' ? 'lateral' : 'coronal'][bone].map(
    (landmark) => markOn(file, { landmark, side, film: film.id })?.points[0],
  );
  const [a, b, c, d] = at;
  if (!a || !b || !c || !d) return null;
  const mmPerPx =
    calibration && hasMillimetres(calibration) ? calibration.mmPerPx.x : film.scaleFacts.imagerPixelSpacing?.[1];
  if (mmPerPx === undefined) return null;
  const middle = (p: typeof a, q: typeof a): Point<'film'> => point('film', (p.x + q.x) / 2, (p.y + q.y) / 2);
  return { is: 'canal', bone, search: { near: middle(a, b), far: middle(c, d), mmPerPx } };
}
