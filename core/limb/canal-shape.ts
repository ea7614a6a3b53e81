import { cannot, type Outcome, ok, type Reason, type Warning } from '../measure/outcome.ts';
import { Z95 } from '../measure/quantity.ts';
import type { OwnCanal, OwnSection } from './canal-along-itself.ts';

/** A value with its spread and what is to be said of it. */
export interface Shape {
  readonly value: number;
  readonly sd: number;
  readonly cautions: readonly Warning[];
}

const shape = (value: number, sd: number, cautions: readonly Warning[] = []): Outcome<Shape> =>
  Number.isFinite(value) && Number.isFinite(sd) ? ok({ value, sd, cautions }) : cannot(NOT_READABLE);

const NOT_READABLE: Reason = {
  code: 'canal-not-readable',
  message: 'The traced walls give no number.',
  field: 'canals',
  mend: 'Trace the canal again.',
};

const width = (s: OwnSection): number => s.highMm - s.lowMm;

/** Neighbouring levels that are averaged, so that the narrowest of many noisy widths is not taken for the canal's (STM-6). */
const LEVELS = 3;

/** Index of the first of the three neighbouring levels whose mean width is least. */
function narrowest(canal: OwnCanal): number {
  let [at, least] = [0, Number.POSITIVE_INFINITY];
  for (let i = 0; i + LEVELS <= canal.sections.length; i++) {
    const sum = canal.sections.slice(i, i + LEVELS).reduce((t, s) => t + width(s), 0);
    if (sum < least - 1e-9) [at, least] = [i, sum];
  }
  return at;
}

const mean = (values: readonly number[]): number => values.reduce((t, v) => t + v, 0) / values.length;

/** Spread of a mean of three lengths between two walls, each wall marked by itself; the scale moves all alike. */
const spread = (canal: OwnCanal, lengthMm: number): number =>
  Math.hypot((Math.SQRT2 * canal.wallSdMm) / Math.sqrt(LEVELS), canal.scaleRelativeSd * lengthMm);

/** Inner width at the narrowest place traced (LIMB-33), mm: least mean of three neighbouring levels. Cautions where the trace ends there. */
export function narrowestWidth(canal: OwnCanal): Outcome<Shape> {
  const at = narrowest(canal);
  const value = mean(canal.sections.slice(at, at + LEVELS).map(width));
  const ends = at + LEVELS === canal.sections.length;
  return shape(value, spread(canal, value), ends ? [NARROWS_ON] : []);
}

const NARROWS_ON: Warning = {
  code: 'canal-narrows-on',
  message: 'The canal still narrows where the trace ends: the true isthmus lies beyond.',
  field: 'canals',
  mend: 'Trace further from the joint.',
};

/**
 * Thickness of one cortex at the narrowest place of the canal (LIMB-35), mm: mean of three neighbouring levels. Refuses where the outer walls
 * are not traced, and an inner wall that lies outside of the outer one.
 */
export function cortexThickness(canal: OwnCanal, wall: 'low' | 'high'): Outcome<Shape> {
  const at = narrowest(canal);
  const three = canal.sections.slice(at, at + LEVELS).map((s) => {
    const outer = wall === 'low' ? s.outerLowMm : s.outerHighMm;
    return outer === null ? null : wall === 'low' ? s.lowMm - outer : outer - s.highMm;
  });
  const known = three.filter((v) => v !== null);
  if (known.length < LEVELS) return cannot(NO_OUTER);
  const value = mean(known);
  return value < 0 ? cannot(CROSSED) : shape(value, spread(canal, value));
}

const NO_OUTER: Reason = {
  code: 'outer-walls-not-traced',
  message: 'The outer walls are not traced where the canal is narrowest.',
  field: 'canals',
  mend: 'Trace the outer walls too.',
};
const CROSSED: Reason = {
  code: 'walls-crossed',
  message: 'The inner wall lies outside of the outer one.',
  field: 'canals',
  mend: 'Trace inner and outer walls again.',
};

/** Spread of the height at which a width is read, mm: marks of the joint line and of the tubercle. */
const LEVEL_SD_MM = 1.1;

/** Inner width at a height of the trace (LIMB-34), mm, straight between the levels. Refuses heights that the trace does not reach. */
export function widthAt(canal: OwnCanal, zMm: number): Outcome<Shape> {
  const after = canal.sections.findIndex((s) => s.zMm >= zMm);
  const [a, b] = [canal.sections[after - 1], canal.sections[after]];
  if (!a || !b) return cannot(notReached(canal, zMm));
  const t = (zMm - a.zMm) / (b.zMm - a.zMm);
  const value = width(a) + t * (width(b) - width(a));
  const fromWalls = Math.SQRT2 * canal.wallSdMm * Math.hypot(1 - t, t);
  const fromHeight = (LEVEL_SD_MM * (width(b) - width(a))) / (b.zMm - a.zMm);
  return shape(value, Math.hypot(fromWalls, fromHeight, canal.scaleRelativeSd * value));
}

function notReached(canal: OwnCanal, zMm: number): Reason {
  const [first, last] = [canal.sections[0]?.zMm ?? 0, canal.sections.at(-1)?.zMm ?? 0];
  const where =
    zMm < first ? `${Math.ceil(first - zMm)} mm nearer the joint` : `${Math.ceil(zMm - last)} mm further out`;
  return {
    code: 'trace-does-not-reach',
    message: `The trace of the ${canal.bone} does not reach the level that is asked for: it lies ${where}.`,
    field: 'canals',
    mend: 'Trace the canal there too.',
  };
}

/**
 * Flare: inner width in the shaft over that near the joint (LIMB-34), no unit, **smaller = more flared**. The scale falls out. Refuses a width of
 * nothing near the joint. Source: Citak index of the distal femur and the proximal tibia.
 */
export function flare(shaft: Shape, joint: Shape, scaleRelativeSd: number): Outcome<Shape> {
  if (!(joint.value > 0)) return cannot(NOT_READABLE);
  const ratio = shaft.value / joint.value;
  const own = (s: Shape) => Math.sqrt(Math.max(0, s.sd ** 2 - (scaleRelativeSd * s.value) ** 2)) / s.value;
  return shape(ratio, ratio * Math.hypot(own(shaft), own(joint)));
}

/**
 * Radius of the bow of a canal in one view (LIMB-36), mm, **+ = convex towards high (lateral or anterior), - = towards low**: least squares of
 * a parabola through the middles of its levels, an arc of radius 1 / (2 a) while it is shallow. Its spread is that of the curvature carried over
 * to first order. Refuses fewer than five levels, and a curvature that cannot be told from none (95 %): then it names the least radius.
 */
export function bowRadius(canal: OwnCanal): Outcome<Shape> {
  const n = canal.sections.length;
  if (n < 5) return cannot(FEW_LEVELS);
  const z = canal.sections.map((s) => s.zMm);
  const middle = ((z[0] ?? 0) + (z.at(-1) ?? 0)) / 2;
  const half = ((z.at(-1) ?? 0) - (z[0] ?? 0)) / 2;
  const t = z.map((v) => (v - middle) / half);
  const power = (k: number) => mean(t.map((v) => v ** k));
  // The parabola's own direction once level and lean are taken out of it; averages are over the levels.
  const [p1, p2, p3] = [power(1), power(2), power(3)];
  const lean = (p3 - p1 * p2) / (p2 - p1 * p1);
  const own = t.map((v) => v * v - p2 - lean * (v - p1));
  const length = own.reduce((sum, v) => sum + v * v, 0);
  if (!(length > 1e-12)) return cannot(FEW_LEVELS);
  const y = canal.sections.map((s) => (s.lowMm + s.highMm) / 2);
  const a = own.reduce((sum, v, i) => sum + v * (y[i] ?? 0), 0) / length;
  const curvature = (-2 * a) / half ** 2;
  const sd = (Math.SQRT2 * canal.wallSdMm) / Math.sqrt(length) / half ** 2;
  if (Math.abs(curvature) <= Z95 * sd) return cannot(notTold(1 / (Math.abs(curvature) + Z95 * sd)));
  const radius = 1 / curvature;
  return shape(radius, Math.hypot(sd * radius ** 2, canal.scaleRelativeSd * radius));
}

const FEW_LEVELS: Reason = {
  code: 'bow-levels',
  message: 'The bow wants at least five levels.',
  field: 'canals',
  mend: 'Trace more levels.',
};

const notTold = (leastMm: number): Reason => ({
  code: 'bow-not-told',
  message: `Too straight over the length traced to tell its bow: the radius is at least ${Math.round(leastMm)} mm (95 %).`,
  field: 'canals',
  mend: 'Trace a longer part of the bone, and more levels.',
});
