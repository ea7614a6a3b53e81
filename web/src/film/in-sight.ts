import type { Mark } from '@gapline/core/landmarks/mark.ts';
import type { DrawnLayer } from '@gapline/core/plan/plan.ts';
import { type FilmSize, type Place, show, type Viewport } from './viewport.ts';

/** The part of the film where the marks of the knee crowd; null while there are too few. */
export function kneeIn(marks: readonly Mark[], view: Viewport, size: FilmSize): Viewport | null {
  const knee = marks.filter((m) => NEAR_THE_KNEE.some((word) => m.landmark.includes(word))).flatMap((m) => m.points);
  return around(knee, { view, size, rim: 0.5 });
}

/** The part of the film that the construct takes up; null where none is drawn. */
export function constructIn(drawn: readonly DrawnLayer[], view: Viewport, size: FilmSize): Viewport | null {
  const parts = drawn.filter((l) => l.belongs === 'plan' && PARTS.includes(l.kind)).flatMap((l) => l.points);
  return around(parts, { view, size, rim: 0.06 });
}

/** The part of the film round some points, with a rim in parts of their greater extent; null for fewer than two. */
function around(
  points: readonly Place[],
  { view, size, rim }: { readonly view: Viewport; readonly size: FilmSize; readonly rim: number },
): Viewport | null {
  if (points.length < 2) return null;
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  const margin = Math.max(Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)) * rim;
  const from = { x: Math.min(...xs) - margin, y: Math.min(...ys) - margin };
  const to = { x: Math.max(...xs) + margin, y: Math.max(...ys) + margin };
  return show(view, { from, to }, size);
}

/** What makes a construct on the film. */
const PARTS: readonly DrawnLayer['kind'][] = ['component', 'augment', 'stem'];
const NEAR_THE_KNEE = ['condyle', 'tray', 'plateau', 'femoral-component', 'tibial-bone', 'femoral-bone', 'epicondyle'];
