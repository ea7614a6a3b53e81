import type { DrawnDefect } from '../bone/bone-map.ts';
import type { PlaneOnFilm, PlaneOption } from '../bone/defect-on-film.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { NO_SCALE } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import { PLATEAU, shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { normalOf } from '../plane/direction.ts';
import { type Line, lineThrough } from '../plane/line.ts';
import { plus } from '../plane/point.ts';
import type { BoneFaces } from './bone-stock-planes.ts';

type R = Reading<'sagittal'>;

const edgeOn = (plane: Line<'sagittal'>): PlaneOnFilm<'sagittal'> => ({ plane, middle: null, edge: null });

const plane = (
  name: string,
  inputs: readonly LandmarkId[],
  find: (r: R) => Outcome<Line<'sagittal'>>,
): PlaneOption<'sagittal'> => ({
  name,
  inputs: [...new Set(inputs)],
  find: (r) => {
    const line = find(r);
    return line.ok ? ok(edgeOn(line.value)) : line;
  },
});

const reversed = ({ through, along }: Line<'sagittal'>): Line<'sagittal'> => ({
  through,
  along: { frame: along.frame, x: -along.x, y: -along.y },
});

/** A line moved along its normal by a length in mm, + = to its left. Refuses without a scale. */
const moved = (line: Line<'sagittal'>, mm: number, r: R): Outcome<Line<'sagittal'>> =>
  r.mmPerUnit === null
    ? cannot(NO_SCALE)
    : ok({ ...line, through: plus(line.through, normalOf(line.along), mm / r.mmPerUnit) });

/** Parallel to the posterior cortex through a point, the bone in front of it. */
const posteriorThrough = (id: LandmarkId, r: R): Outcome<Line<'sagittal'>> => {
  const cortex = shaftLine('femoral', 'posterior', r);
  return cortex.ok ? ok(reversed({ through: r.at(id), along: cortex.value.along })) : cortex;
};

/**
 * Resection planes on a lateral film (PLAN-21), best first, by the surface that was drawn. Posterior femur: parallel to the posterior
 * cortex at the present component's bone face or, where its thickness is not known, through the bone mark. Anterior femur: the anterior
 * cortex. Metaphyses: the distal inner face of the femoral component; the tray's bone face, with its slope.
 * Empty for a surface that a lateral film cannot tell by side.
 */
export function planesOnLateral(surface: DrawnDefect['surface'], faces: BoneFaces): readonly PlaneOption<'sagittal'>[] {
  const posterior = shaftMarks('femoral', 'posterior');
  switch (surface) {
    case 'femur-posterior': {
      const { femurPosteriorMm: thickness } = faces;
      const byFace = plane("femoral component's posterior bone face", ['posterior-condyle', ...posterior], (r) => {
        const line = posteriorThrough('posterior-condyle', r);
        return line.ok ? moved(line.value, thickness ?? 0, r) : line;
      });
      const byMark = plane('posterior bone mark', ['femoral-bone-posterior', ...posterior], (r) =>
        posteriorThrough('femoral-bone-posterior', r),
      );
      return thickness === undefined ? [byMark] : [byFace, byMark];
    }
    case 'femur-anterior':
      return [plane('anterior cortex', shaftMarks('femoral', 'anterior'), (r) => shaftLine('femoral', 'anterior', r))];
    case 'femur-metaphysis': {
      const [front, back] = ['femoral-component-distal-anterior', 'femoral-component-distal-posterior'] as const;
      return [
        plane('distal inner face of the femoral component', [front, back], (r) => lineThrough(r.at(back), r.at(front))),
      ];
    }
    case 'tibia-metaphysis': {
      const tray = plane("tray's bone face", PLATEAU, (r) => {
        const line = lineThrough(r.at('plateau-anterior'), r.at('plateau-posterior'));
        return line.ok ? moved(line.value, faces.trayThicknessMm ?? 0, r) : line;
      });
      return faces.trayThicknessMm === undefined
        ? [{ ...tray, name: "tray's upper face, its thickness not known" }]
        : [tray];
    }
    default:
      return [];
  }
}
