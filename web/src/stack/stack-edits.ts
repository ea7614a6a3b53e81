import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { markOn, onFilm } from '../case/marking.ts';
import type { Place } from '../film/viewport.ts';

/**
 * A press on a slice: a new mark, the same mark on another slice, or one more point of an outline. An outline lies on one slice: a
 * point on another slice begins it anew there.
 */
export function placeOnSlice(
  file: CaseFile,
  name: Pick<Mark, 'landmark' | 'side' | 'film'>,
  at: Place & { readonly slice: number },
): Extract<Edit, { kind: 'put-mark' }> {
  const there = markOn(file, name);
  const goesOn = landmark(name.landmark).outline && there?.slice === at.slice ? there.points : [];
  const { landmark: id, side, film } = name;
  return {
    kind: 'put-mark',
    mark: {
      landmark: id,
      side,
      film,
      slice: at.slice,
      ...(there?.sdMm === undefined ? {} : { sdMm: there.sdMm }),
      points: [...goesOn, onFilm(at)],
      how: 'by-hand',
    },
  };
}
