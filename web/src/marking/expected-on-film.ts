import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CaseFile, CaseFilm } from '@gapline/core/plan/case.ts';
import { mapped, register } from '@gapline/core/plane/register.ts';
import type { Place } from '../film/viewport.ts';
import { expectedPlace } from '../sketch/expected-place.ts';

/** About where a landmark lies on a film, and how many film pixels a millimetre of the drawing takes there. */
export interface Expected {
  readonly at: Place;
  readonly pxPerMm: number;
}

/**
 * Where a landmark is expected on a film: the small drawing laid onto what is marked of that leg already, by turn, scale and
 * shift. Film pixels; good to a few centimetres, enough to bring the place into sight, never to mark by. Null with fewer than
 * three marks, or where it is not known which way the columns run.
 */
export function expectedOnFilm(
  file: CaseFile,
  film: CaseFilm,
  of: { landmark: LandmarkId; side: Side },
): Expected | null {
  const flip = flipOf(film, of.side);
  if (flip === null) return null;
  const drawn = (id: LandmarkId): Place => {
    const { x, y } = expectedPlace(id);
    return { x: flip * x, y };
  };
  const marks = file.marks.filter(
    (m) => m.film === film.id && m.side === of.side && m.landmark !== of.landmark && m.landmark !== 'calibration-ball',
  );
  const fit = register(
    marks.flatMap((m) => {
      const n = m.points.length;
      const onto = { x: m.points.reduce((s, p) => s + p.x / n, 0), y: m.points.reduce((s, p) => s + p.y / n, 0) };
      return n > 0 ? [{ from: drawn(m.landmark), onto }] : [];
    }),
  );
  return fit.ok ? { at: mapped(fit.value.similarity, drawn(of.landmark)), pxPerMm: fit.value.scale } : null;
}

/** The drawings show a right knee as the viewer faces it, or with the front to the left: -1 where the film shows it the other way. */
function flipOf({ view, columnsTowards }: CaseFilm, side: Side): 1 | -1 | null {
  if (!columnsTowards) return null;
  if (view === 'lateral') return columnsTowards === 'posterior' ? 1 : -1;
  const lateralIsLeft = columnsTowards !== `patient-${side}`;
  return lateralIsLeft ? 1 : -1;
}
