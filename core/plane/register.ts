import { cannot, type Outcome, ok } from '../measure/outcome.ts';

/** A place of a film, on axes of equal unit, x to the right and y down. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** One and the same thing, marked on two films. */
export interface MarkedPair {
  readonly from: Spot;
  readonly onto: Spot;
  /** What it is, for words. */
  readonly name?: string;
}

/** Turn, one scale and shift: `x' = re x - im y + dx`, `y' = im x + re y + dy`. Never mirrors. */
export interface Similarity {
  readonly re: number;
  readonly im: number;
  readonly dx: number;
  readonly dy: number;
}

export interface Registration {
  readonly similarity: Similarity;
  /** Times that the first film has to be enlarged, above 0. */
  readonly scale: number;
  /** From the film's x axis towards its y axis: clockwise as seen is +; deg in (-180, 180]. */
  readonly turnDeg: number;
  /** How far each mapped point lies from its fellow, in the unit of `onto`, in the order given. */
  readonly residuals: readonly number[];
  /** Root mean square of the residuals. */
  readonly rms: number;
  /** Middle of the points on the film they are laid onto, and their root mean square distance from it. */
  readonly middle: Spot;
  readonly reach: number;
}

/**
 * Lays one film onto another: the similarity that brings the points of the first as near as possible, in least squares of
 * distance, to the same points on the second (Umeyama, IEEE Trans Pattern Anal Mach Intell 1991; 13:376; in the plane, with
 * mirroring left out, his solution is one complex division). Pairs: three or more, each film on axes of one unit of its own.
 * The residuals are in the unit of `onto`. Refuses fewer than three pairs, and points in one place on either film.
 */
export function register(pairs: readonly MarkedPair[]): Outcome<Registration> {
  if (pairs.length < 3)
    return cannot({
      code: 'too-few-points',
      message: `Laying one film onto another takes three points marked on both; ${pairs.length} given.`,
      mend: 'Mark the same three points on both films.',
    });
  const [from, onto] = [middleOf(pairs.map((p) => p.from)), middleOf(pairs.map((p) => p.onto))];
  let [re, im, spread, reach] = [0, 0, 0, 0];
  for (const p of pairs) {
    const [z, w] = [minus(p.from, from), minus(p.onto, onto)];
    re += z.x * w.x + z.y * w.y;
    im += z.x * w.y - z.y * w.x;
    spread += z.x * z.x + z.y * z.y;
    reach += w.x * w.x + w.y * w.y;
  }
  // Products of the spreads: a turn is lost where either film's points, or what they have in common, come to nothing.
  const common = Math.hypot(re, im);
  if (!(spread > 1e-12) || !(reach > 1e-12) || !(common > 1e-9 * Math.sqrt(spread * reach)))
    return cannot(IN_ONE_PLACE);
  const turn = { re: re / spread, im: im / spread };
  const similarity = {
    ...turn,
    dx: onto.x - turn.re * from.x + turn.im * from.y,
    dy: onto.y - turn.im * from.x - turn.re * from.y,
  };
  const residuals = pairs.map((p) => {
    const off = minus(mapped(similarity, p.from), p.onto);
    return Math.hypot(off.x, off.y);
  });
  return ok({
    similarity,
    scale: common / spread,
    turnDeg: (Math.atan2(im, re) * 180) / Math.PI,
    residuals,
    rms: Math.sqrt(residuals.reduce((s, r) => s + r * r, 0) / pairs.length),
    middle: onto,
    reach: Math.sqrt(reach / pairs.length),
  });
}

const IN_ONE_PLACE = {
  code: 'points-coincide',
  message: 'The points lie in one place, or in no order that the other film repeats: no turn can be told from them.',
  mend: 'Choose points that lie far apart, and check that each is the same one on both films.',
} as const;

/** Where a place of the first film comes to lie on the second. */
export const mapped = ({ re, im, dx, dy }: Similarity, { x, y }: Spot): Spot => ({
  x: re * x - im * y + dx,
  y: im * x + re * y + dy,
});

/** The way back. A registration never has a scale of 0, so there always is one. */
export function inverse({ re, im, dx, dy }: Similarity): Similarity {
  const square = re * re + im * im;
  const back = { re: re / square, im: -im / square };
  return { ...back, dx: -(back.re * dx - back.im * dy), dy: -(back.im * dx + back.re * dy) };
}

/**
 * Standard deviation of each coordinate of a mapped place at `at` (unit of `onto`), to first order, when each coordinate of
 * each pair errs by `sd` (both marks together): sd sqrt(1/n + r^2 / (n reach^2)), with r the distance from the points' middle.
 * The residual alone does not tell it: far from three near points a good fit can still be far out.
 */
export function errorAt(of: Registration, at: Spot, sd: number): number {
  const far = Math.hypot(at.x - of.middle.x, at.y - of.middle.y) / of.reach;
  return sd * Math.sqrt((1 + far * far) / of.residuals.length);
}

const minus = (a: Spot, b: Spot): Spot => ({ x: a.x - b.x, y: a.y - b.y });
const middleOf = (spots: readonly Spot[]): Spot => ({
  x: spots.reduce((s, p) => s + p.x, 0) / spots.length,
  y: spots.reduce((s, p) => s + p.y, 0) / spots.length,
});
