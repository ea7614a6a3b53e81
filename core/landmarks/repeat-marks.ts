import { fitCircle } from '../plane/circle.ts';
import { point } from '../plane/point.ts';
import { LANDMARKS, type LandmarkId, landmark } from './landmark-table.ts';
import type { Mark } from './mark.ts';
import { type RepeatedMark, sameLandmark } from './repeated-mark.ts';

/** Degrees of freedom from which a measured spread goes before the default: five points placed twice (LM-9). */
export const LEAST_FREEDOM = 10;

export const SPREAD_SOURCE = 'Bland & Altman 1996';

/** Width of a pixel in the patient, mm; null where the film has no scale. */
export type MmPerPx = (film: string) => { readonly x: number; readonly y: number } | null;

export interface SpreadInput {
  readonly marks: readonly Mark[];
  readonly repeats: readonly RepeatedMark[];
  readonly mmPerPx: MmPerPx;
}

/** One landmark that was placed more than once. */
export interface MarkSpread extends Pick<Mark, 'landmark' | 'side' | 'film'> {
  readonly placings: number;
  /** Who placed it, each once; a placing without a name adds none. */
  readonly people: readonly string[];
  /** Greatest distance between two placings, mm; of an outline between centres. */
  readonly apartMm: number;
  /** Within-mark standard deviation of one coordinate of one point, mm. */
  readonly sdMm: number;
  /** Degrees of freedom behind it. */
  readonly freedom: number;
}

/** Landmarks that are as sharp as each other, by the table's own default. */
export interface SharpnessSpread {
  /** The table's default, mm. */
  readonly defaultMm: number;
  readonly label: string;
  /** Marks that were placed more than once. */
  readonly marks: number;
  readonly freedom: number;
  /** Pooled within-mark standard deviation of one coordinate, mm, whoever placed; null without repeats. */
  readonly pooledMm: number | null;
  /** The same from placings of one and the same person only; null where nobody placed a mark twice. */
  readonly onePersonMm: number | null;
  /** What is reckoned with: the pooled value from `LEAST_FREEDOM` on, before that the default. */
  readonly usedMm: number;
  readonly measured: boolean;
}

export interface MarkingSpread {
  readonly each: readonly MarkSpread[];
  /** Sharpest first; all that the table knows. */
  readonly classes: readonly SharpnessSpread[];
}

const LABELS: Readonly<Record<number, string>> = {
  0.5: 'Metal edges and tangent points',
  0.7: 'Outlines and ends of components',
  1: 'Points of bone',
  1.5: 'Tibial tubercle',
};

/** One placing in mm: where it lies, by whom, and the variance of its place for a variance of 1 of each point. */
interface Placing {
  readonly x: number;
  readonly y: number;
  readonly by: string | null;
  readonly gain: number;
  readonly pixelMm: number;
}

interface Pool {
  squares: number;
  freedom: number;
}

interface MarkPool {
  readonly mark: MarkSpread;
  readonly all: Pool;
  readonly onePerson: Pool;
  readonly pixelMm: number;
}

/**
 * Spread of marking from landmarks placed more than once (LM-9): the within-mark standard deviation, pooled over marks that
 * are as sharp as each other: root of the summed squares about each mark's own mean over the summed degrees of freedom, two
 * coordinates a placing. Of an outline the centre is compared and turned back into the spread of one point by the
 * covariance of the fit. Result in mm in the patient, 0 = always in one place; never below the rounding of a pixel.
 * Marks on films without scale and second places of a conflict do not count. Source: Bland & Altman 1996.
 */
export function markingSpread(input: SpreadInput): MarkingSpread {
  const pools = marksPlacedAgain(input).flatMap((of) => poolOf(of, input) ?? []);
  return { each: pools.map((p) => p.mark), classes: SHARPNESSES.map((mm) => classOf(mm, pools)) };
}

const SHARPNESSES: readonly number[] = [...new Set(LANDMARKS.map((l) => l.markingSdMm))].toSorted((a, b) => a - b);

/** Each landmark, side and film that has a repeat, once, in the order of the repeats. */
function marksPlacedAgain({ repeats }: SpreadInput): readonly RepeatedMark[] {
  const counted = repeats.filter((r) => r.why === 'repeat');
  return counted.filter((r, i) => counted.findIndex((other) => sameLandmark(other, r)) === i);
}

function poolOf(of: RepeatedMark, { marks, repeats, mmPerPx }: SpreadInput): MarkPool | null {
  const again = repeats.filter((r) => r.why === 'repeat' && sameLandmark(r, of));
  const placings = [...marks.filter((m) => sameLandmark(m, of)).slice(0, 1), ...again].flatMap(
    (m) => placingOf(m, mmPerPx(m.film)) ?? [],
  );
  if (placings.length < 2) return null;
  const gain = mean(placings.map((p) => p.gain));
  const all = within([placings], gain);
  const people = [...new Set(placings.flatMap((p) => p.by ?? []))];
  const byPerson = people.map((name) => placings.filter((p) => p.by === name));
  const { landmark: id, side, film } = of;
  return {
    mark: {
      landmark: id,
      side,
      film,
      placings: placings.length,
      people,
      apartMm: Math.max(...placings.flatMap((p) => placings.map((q) => Math.hypot(p.x - q.x, p.y - q.y)))),
      sdMm: Math.sqrt(all.squares / all.freedom),
      freedom: all.freedom,
    },
    all,
    onePerson: within(byPerson, gain),
    pixelMm: mean(placings.map((p) => p.pixelMm)),
  };
}

/** Summed squares about the mean of each group, of both coordinates, as of one point of the mark. */
function within(groups: readonly (readonly Placing[])[], gain: number): Pool {
  const pool: Pool = { squares: 0, freedom: 0 };
  for (const group of groups) {
    const [mx, my] = [mean(group.map((p) => p.x)), mean(group.map((p) => p.y))];
    for (const p of group) pool.squares += ((p.x - mx) ** 2 + (p.y - my) ** 2) / gain;
    pool.freedom += 2 * (group.length - 1);
  }
  return pool;
}

function placingOf(mark: Mark, mm: ReturnType<MmPerPx>): Placing | null {
  if (!mm) return null;
  const points = mark.points.map((p) => point('film', p.x * mm.x, p.y * mm.y));
  const by = mark.by?.trim() || null;
  const pixelMm = (mm.x + mm.y) / 2;
  if (!landmark(mark.landmark).outline) {
    const [only] = points;
    return only ? { x: only.x, y: only.y, by, gain: 1, pixelMm } : null;
  }
  const fit = fitCircle(points);
  if (!fit.ok) return null;
  const { centre, centreCovariance: v } = fit.value;
  const gain = (v.xx + v.yy) / 2;
  return gain > 0 ? { x: centre.x, y: centre.y, by, gain, pixelMm } : null;
}

function classOf(defaultMm: number, pools: readonly MarkPool[]): SharpnessSpread {
  const own = pools.filter((p) => landmark(p.mark.landmark).markingSdMm === defaultMm);
  const pixel = Math.max(0, ...own.map((p) => p.pixelMm)) / Math.sqrt(12);
  const pooled = (pick: (p: MarkPool) => Pool): number | null => {
    const freedom = sum(own.map((p) => pick(p).freedom));
    return freedom === 0 ? null : Math.max(pixel, Math.sqrt(sum(own.map((p) => pick(p).squares)) / freedom));
  };
  const pooledMm = pooled((p) => p.all);
  const freedom = sum(own.map((p) => p.all.freedom));
  const measured = pooledMm !== null && pooledMm > 0 && freedom >= LEAST_FREEDOM;
  return {
    defaultMm,
    label: LABELS[defaultMm] ?? `Landmarks of ${defaultMm} mm`,
    marks: own.length,
    freedom,
    pooledMm,
    onePersonMm: pooled((p) => p.onePerson),
    usedMm: measured ? pooledMm : defaultMm,
    measured,
  };
}

/**
 * The marks with the measured spread of their kind, mm, where there is one; a spread stated with a mark itself stays.
 * Without repeats the marks as they are.
 */
export function withMarkingSpread(marks: readonly Mark[], spread: MarkingSpread): readonly Mark[] {
  const measured = new Map(spread.classes.flatMap((c) => (c.measured ? [[c.defaultMm, c.usedMm] as const] : [])));
  if (measured.size === 0) return marks;
  return marks.map((mark) => {
    const sdMm = measured.get(defaultOf(mark.landmark));
    return mark.sdMm === undefined && sdMm !== undefined ? { ...mark, sdMm } : mark;
  });
}

const defaultOf = (id: LandmarkId): number => landmark(id).markingSdMm;
const sum = (values: readonly number[]): number => values.reduce((s, v) => s + v, 0);
const mean = (values: readonly number[]): number => sum(values) / values.length;
