/**
 * Points carry their frame in their type, so that two frames cannot be mixed by accident.
 *
 * - `film`: pixels of one film, x to the right (column), y **down** (row), pixel centres at whole numbers.
 * - `coronal`: AP films, x = **lateral +**, y = **proximal +**; unit: isotropic film pixels, see `film-to-limb`.
 * - `sagittal`: lateral films, x = **anterior +**, y = **proximal +**; same unit.
 * - `axial`: skyline films, x = **lateral +**, y = **anterior +**; same unit.
 * - `transverse`: CT slices laid over each other, x = **lateral +**, y = **anterior +**, millimetres in the patient.
 * - `femoral`, `tibial`: millimetres, spec section 1: origin where the target joint line meets the
 *   mechanical axis; x = lateral + (coronal) or anterior + (sagittal), y = proximal +.
 */
export type FrameName = 'film' | 'coronal' | 'sagittal' | 'axial' | 'transverse' | 'femoral' | 'tibial';

export interface Point<F extends FrameName> {
  readonly frame: F;
  readonly x: number;
  readonly y: number;
}

export const point = <F extends FrameName>(frame: F, x: number, y: number): Point<F> => ({ frame, x, y });

/** Vector from `a` to `b`. */
export const between = <F extends FrameName>(a: Point<F>, b: Point<NoInfer<F>>): Point<F> =>
  point(a.frame, b.x - a.x, b.y - a.y);

export const plus = <F extends FrameName>(a: Point<F>, v: Point<NoInfer<F>>, times = 1): Point<F> =>
  point(a.frame, a.x + v.x * times, a.y + v.y * times);

export const midpoint = <F extends FrameName>(a: Point<F>, b: Point<NoInfer<F>>): Point<F> =>
  point(a.frame, (a.x + b.x) / 2, (a.y + b.y) / 2);

export const dot = <F extends FrameName>(a: Point<F>, b: Point<NoInfer<F>>): number => a.x * b.x + a.y * b.y;

/** z of the cross product: positive when `b` lies counter-clockwise of `a` in a y-up frame. */
export const cross = <F extends FrameName>(a: Point<F>, b: Point<NoInfer<F>>): number => a.x * b.y - a.y * b.x;

export const length = (v: Point<FrameName>): number => Math.hypot(v.x, v.y);

export const distance = <F extends FrameName>(a: Point<F>, b: Point<NoInfer<F>>): number =>
  Math.hypot(b.x - a.x, b.y - a.y);
