/** Wheel pixels for one slice: one notch of a common wheel. */
const NOTCH = 100;
/** Dragged pixels for one slice, unless the whole stack needs less than the picture is high. */
const LEAST_DRAG = 3;

/** Slices to go by, and what is left of the way until the next one. */
export interface Scrolled {
  readonly by: number;
  readonly rest: number;
}

/** A way in pixels as whole slices; the rest is kept for the next piece of the way. */
function whole(way: number, each: number): Scrolled {
  const by = Math.trunc(way / each);
  return { by: by === 0 ? 0 : by, rest: way - by * each };
}

/**
 * Slices that a turn of the wheel goes by: down = towards the feet, so that the stack follows the wheel as a page does.
 * Small steps of a touch pad add up; a change of direction begins anew.
 */
export function wheelSlices(deltaY: number, rest: number): Scrolled {
  const kept = Math.sign(rest) === Math.sign(deltaY) ? rest : 0;
  const { by, rest: left } = whole(kept + deltaY, NOTCH);
  return { by: by === 0 ? 0 : -by, rest: left };
}

/** Slices that a drag goes by: up = towards the head; the height of the picture goes through the whole stack. */
export function dragSlices(
  dy: number,
  { rest, height, count }: { readonly rest: number; readonly height: number; readonly count: number },
): Scrolled {
  const { by, rest: left } = whole(rest + dy, Math.max(height / Math.max(count, 1), LEAST_DRAG));
  return { by: by === 0 ? 0 : -by, rest: left };
}

/** A slice that the stack has. */
export const within = (slice: number, count: number): number => Math.min(Math.max(slice, 0), count - 1);
