import { cannot, type Outcome, ok, type Warning } from '../measure/outcome.ts';
import { inverse, type MarkedPair, mapped, type Registration, register, type Spot } from './register.ts';

/** Root mean square residual above which the points are not the same ones, mm (VIEW-3). */
export const LARGEST_RESIDUAL_MM = 2.5;
/** The points' root mean square distance from their middle below which they lie too near one another, mm (VIEW-4). */
export const LEAST_REACH_MM = 15;
/** Scales of the two films that differ by more are told, share (VIEW-5). */
export const SCALE_DIFFERENCE = 0.03;

/** What is known of the pixels of one film. */
export interface FilmPixels {
  /** Millimetres in the patient per pixel across and down; null without a scale. */
  readonly mmPerPx: { readonly x: number; readonly y: number } | null;
  /** Height of a pixel over its width. */
  readonly aspect: number;
}

export interface FilmRegistration {
  /** In the later film's millimetres. */
  readonly registration: Registration;
  readonly residualMm: number;
  /** Number of the pair that fits worst, and by how much. */
  readonly worst: { readonly pair: number; readonly mm: number };
  /** How the earlier film's own scale compares: 1 = they agree, above 1 = it makes things too small; null where it has none. */
  readonly scaleRatio: number | null;
  /** From film pixels of the earlier film to film pixels of the later one, and back. */
  readonly toLater: PixelMap;
  readonly toEarlier: PixelMap;
}

/** `x' = xx x + xy y + x0`, `y' = yx x + yy y + y0`. */
export interface PixelMap {
  readonly xx: number;
  readonly xy: number;
  readonly yx: number;
  readonly yy: number;
  readonly x0: number;
  readonly y0: number;
}

/**
 * Lays an earlier film onto a later one by points marked on both (VIEW-2 to VIEW-5). Pairs: `from` = film pixels of the
 * earlier film, `onto` = of the later one. The later film must have a scale, since the residual is told in its millimetres;
 * the earlier one needs none, and where it has one the two scales are held against each other.
 * Refuses too few points, points that nearly coincide, and a residual beyond that of honest marking.
 */
export function registerFilms(
  pairs: readonly MarkedPair[],
  { earlier, later }: { readonly earlier: FilmPixels; readonly later: FilmPixels },
): Outcome<FilmRegistration> {
  const ontoUnit = later.mmPerPx;
  if (!ontoUnit)
    return cannot({
      code: 'no-scale',
      message: 'The later film has no scale, so nobody can say in millimetres how well the two films fit.',
      mend: 'Give the later film a scale.',
    });
  const fromUnit = earlier.mmPerPx ?? { x: 1, y: earlier.aspect };
  const fit = register(pairs.map((p) => ({ from: scaled(p.from, fromUnit), onto: scaled(p.onto, ontoUnit) })));
  if (!fit.ok) return fit;
  const { residuals, reach, rms, scale, similarity } = fit.value;
  if (reach < LEAST_REACH_MM)
    return cannot({
      code: 'points-too-near',
      message: `The points lie within some ${Math.round(2 * reach)} mm of one another: the rest of the film would be laid on by guess.`,
      mend: `Choose points that lie farther apart: ${LEAST_REACH_MM} mm from their middle, or more.`,
    });
  const worst = residuals.reduce((far, mm, pair) => (mm > far.mm ? { pair, mm } : far), { pair: 0, mm: -1 });
  if (rms > LARGEST_RESIDUAL_MM)
    return cannot({
      code: 'residual-too-large',
      message: `The points miss one another by ${rms.toFixed(1)} mm (most: ${worst.mm.toFixed(1)} mm at ${pairs[worst.pair]?.name ?? `point ${worst.pair + 1}`}); more than ${LARGEST_RESIDUAL_MM} mm is not the same shape.`,
      mend: 'Check the marks, beginning with the worst, or take points of one bone that did not change.',
    });
  const scaleRatio = earlier.mmPerPx ? scale : null;
  return ok(
    {
      registration: fit.value,
      residualMm: rms,
      worst,
      scaleRatio,
      toLater: pixelMap((spot) => unscaled(mapped(similarity, scaled(spot, fromUnit)), ontoUnit)),
      toEarlier: pixelMap((spot) => unscaled(mapped(inverse(similarity), scaled(spot, ontoUnit)), fromUnit)),
    },
    scaleRatio !== null && Math.abs(Math.log(scaleRatio)) > SCALE_DIFFERENCE ? [scalesDiffer(scaleRatio)] : [],
  );
}

const scalesDiffer = (ratio: number): Warning => ({
  code: 'scales-differ',
  message: `By these points the scales of the two films differ by ${(100 * Math.abs(ratio - 1)).toFixed(0)} %.`,
  mend: 'Check how both got their scale; the earlier film is shown to the scale of the later one.',
});

const scaled = (spot: Spot, unit: Spot): Spot => ({ x: spot.x * unit.x, y: spot.y * unit.y });
const unscaled = (spot: Spot, unit: Spot): Spot => ({ x: spot.x / unit.x, y: spot.y / unit.y });

/** A map in one straight line each way, read off where it takes three places. */
function pixelMap(map: (spot: Spot) => Spot): PixelMap {
  const [o, x, y] = [map({ x: 0, y: 0 }), map({ x: 1, y: 0 }), map({ x: 0, y: 1 })];
  return { xx: x.x - o.x, xy: y.x - o.x, yx: x.y - o.y, yy: y.y - o.y, x0: o.x, y0: o.y };
}
