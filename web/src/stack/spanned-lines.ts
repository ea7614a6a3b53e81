import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { dot3, type SliceStack } from '@gapline/core/landmarks/slice-stack.ts';
import { point } from '@gapline/core/plane/point.ts';
import { areaCentre } from '@gapline/core/rotation/area-centre.ts';
import type { Place } from '../film/viewport.ts';

/** Lines that rotation is measured between, from one landmark to the other. */
const LINES: readonly (readonly [LandmarkId, LandmarkId])[] = [
  ['ct-medial-epicondyle-sulcus', 'ct-lateral-epicondyle'],
  ['ct-medial-epicondyle-peak', 'ct-lateral-epicondyle'],
  ['ct-femoral-posterior-medial', 'ct-femoral-posterior-lateral'],
  ['ct-tray-posterior-medial', 'ct-tray-posterior-lateral'],
  ['ct-plateau-outline', 'ct-tubercle-tip'],
];

/** A line as it lies over the slice that is shown. */
export interface SpannedLine {
  readonly id: string;
  readonly from: Place;
  readonly to: Place;
  /** Both ends lie on the slice that is shown. */
  readonly here: boolean;
}

export interface StackPlane {
  readonly stack: SliceStack;
  readonly mmPerPx: { readonly x: number; readonly y: number };
}

/** The lines between marks of one side, laid over one slice along the normal; a line with its ends elsewhere shows faintly. */
export function spannedLines(marks: readonly Mark[], plane: StackPlane, slice: number): readonly SpannedLine[] {
  const end = (id: LandmarkId): { readonly at: Place; readonly here: boolean } | null => {
    const mark = marks.find((m) => m.landmark === id);
    if (!mark || mark.slice === undefined) return null;
    const points = mark.points.map((p) => point('film', p.x, p.y));
    const [only] = points;
    const centre = points.length > 1 ? areaCentre(points) : null;
    const at = centre?.ok ? centre.value : points.length === 1 ? only : null;
    return at ? { at: laidOver(at, { from: mark.slice, to: slice }, plane), here: mark.slice === slice } : null;
  };
  return LINES.flatMap(([a, b]) => {
    const [from, to] = [end(a), end(b)];
    return from && to ? [{ id: `${a} ${b}`, from: from.at, to: to.at, here: from.here && to.here }] : [];
  });
}

/** A pixel of one slice where it lies over another: slices of a tilted gantry are shifted against each other. */
function laidOver(at: Place, slices: { from: number; to: number }, { stack, mmPerPx }: StackPlane): Place {
  const [from, to] = [stack.each[slices.from]?.originMm, stack.each[slices.to]?.originMm];
  if (!from || !to) return at;
  const shift = [from[0] - to[0], from[1] - to[1], from[2] - to[2]] as const;
  return { x: at.x + dot3(shift, stack.along) / mmPerPx.x, y: at.y + dot3(shift, stack.down) / mmPerPx.y };
}
