import type { BoneQuality } from '../bone/bone-class.ts';
import type { Stem } from '../catalogue/catalogue.ts';
import type { StemVerdict } from './judge-stem.ts';

/** The longest stem of one diameter, fixation and shape that passes, view by view. */
export interface LongestOfDiameter {
  readonly fixation: Stem['fixation'];
  readonly shape: 'straight' | 'bowed';
  readonly diameterMm: number;
  /** Longest that passes each view within the allowed tilt, mm from the seat; null = that view is not traced, or it enters nowhere. */
  readonly apMm: number | null;
  readonly lateralMm: number | null;
  /** The trace ends before the stem is stopped: it may be longer. */
  readonly apEndsWithTrace: boolean;
  readonly lateralEndsWithTrace: boolean;
  /** Lengths of the catalogue that pass both views, and those that are not known. */
  readonly passes: readonly number[];
  readonly notKnown: readonly number[];
}

const order = { passes: 0, 'not-known': 1, 'does-not-pass': 2 } as const;
const shortOf = (v: StemVerdict): number => v.bypass.filter((b) => b.standing === 'not-met').length;
const tilt = (v: StemVerdict): number => Math.abs(v.component.coronalDeg ?? 0) + Math.abs(v.component.sagittalDeg ?? 0);
const restMm = (v: StemVerdict): number => v.offset?.choice.restMm ?? 0;
const unmet = (v: StemVerdict): number =>
  v.fill === null ? 0 : [v.fill.fill, v.fill.engaged].filter((s) => s !== 'met').length;

/** The fixation that a bone asks for (STM-3). */
export const preferredFixation = (quality: BoneQuality | 'unknown'): Stem['fixation'] =>
  quality === 'osteoporotic' ? 'cemented' : 'press-fit';

/**
 * Verdicts, best first (STM-15): what passes before what is not known; weak spots passed; the fixation that the bone asks for; least tilt
 * (to a tenth of a degree); least rest of offset (to a millimetre); published limits of fill and engagement met; the shorter; the thicker; by reference.
 */
export const bestFirst = (verdicts: readonly StemVerdict[], prefers: Stem['fixation']): readonly StemVerdict[] =>
  verdicts
    .filter((v) => v.verdict !== 'does-not-pass')
    .toSorted(
      (a, b) =>
        order[a.verdict] - order[b.verdict] ||
        shortOf(a) - shortOf(b) ||
        Number(a.fixation !== prefers) - Number(b.fixation !== prefers) ||
        Math.round(10 * tilt(a)) - Math.round(10 * tilt(b)) ||
        Math.round(restMm(a)) - Math.round(restMm(b)) ||
        unmet(a) - unmet(b) ||
        a.lengthMm - b.lengthMm ||
        b.diameterMm - a.diameterMm ||
        (a.ref < b.ref ? -1 : 1),
    );

/** One row for each fixation, shape and diameter, in that order, thinnest first. */
export function longestByDiameter(
  verdicts: readonly StemVerdict[],
  stems: readonly Stem[],
): readonly LongestOfDiameter[] {
  const shapes = new Map(stems.map((s) => [s.ref, s.bowRadiusMm === undefined ? 'straight' : 'bowed'] as const));
  const rows = new Map<string, LongestOfDiameter>();
  for (const v of verdicts) {
    const shape = shapes.get(v.ref) ?? 'straight';
    const key = `${v.fixation}/${shape}/${v.diameterMm}`;
    const row = rows.get(key) ?? {
      fixation: v.fixation,
      shape,
      diameterMm: v.diameterMm,
      apMm: null,
      lateralMm: null,
      apEndsWithTrace: false,
      lateralEndsWithTrace: false,
      passes: [],
      notKnown: [],
    };
    rows.set(key, {
      ...row,
      // A stem that ends before the trace begins tells nothing; a longer one of the same diameter does.
      apMm: row.apMm ?? v.ap?.longestMm ?? null,
      lateralMm: row.lateralMm ?? v.lateral?.longestMm ?? null,
      apEndsWithTrace: row.apEndsWithTrace || (v.ap?.longestEndsWithTrace ?? false),
      lateralEndsWithTrace: row.lateralEndsWithTrace || (v.lateral?.longestEndsWithTrace ?? false),
      passes: v.verdict === 'passes' ? [...row.passes, v.lengthMm] : row.passes,
      notKnown: v.verdict === 'not-known' ? [...row.notKnown, v.lengthMm] : row.notKnown,
    });
  }
  const rank = (r: LongestOfDiameter) => `${r.fixation}/${r.shape}`;
  return [...rows.values()].toSorted(
    (a, b) => (rank(a) < rank(b) ? -1 : rank(a) > rank(b) ? 1 : 0) || a.diameterMm - b.diameterMm,
  );
}
