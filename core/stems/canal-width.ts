import type { CanalInView } from './canal-view.ts';

/** Width of a canal at one level. */
export interface CanalWidth {
  readonly zMm: number;
  readonly widthMm: number;
  /** From marking both walls and from the scale, mm. */
  readonly sdMm: number;
  readonly outerMm: number | null;
}

const widthSd = (canal: CanalInView, widthMm: number, levels: number): number =>
  Math.hypot((Math.SQRT2 * canal.wallSdMm) / Math.sqrt(levels), canal.scaleRelativeSd * widthMm);

/** Inner width at every traced level of one view, mm, with its spread (STM-6). */
export const canalWidths = (canal: CanalInView): readonly CanalWidth[] =>
  canal.sections.map((s, i) => {
    const widthMm = s.highMm - s.lowMm;
    const outer = canal.outer?.[i];
    return {
      zMm: s.zMm,
      widthMm,
      sdMm: widthSd(canal, widthMm, 1),
      outerMm: outer ? outer.highMm - outer.lowMm : null,
    };
  });

export interface Isthmus {
  readonly view: CanalInView['view'];
  readonly zMm: number;
  readonly widthMm: number;
  readonly sdMm: number;
  /** The canal still narrows where the trace ends: the true isthmus lies beyond. */
  readonly atEndOfTrace: boolean;
}

/** How many neighbouring levels are averaged, so that the narrowest of many noisy widths is not taken for the canal's. */
const LEVELS = 3;

/**
 * The narrowest place of one view (STM-6): the least mean width of three neighbouring levels, mm, at the middle one. Null with fewer
 * than three levels.
 */
export function isthmusOf(canal: CanalInView): Isthmus | null {
  const widths = canalWidths(canal);
  let best: Isthmus | null = null;
  for (let i = 0; i + LEVELS <= widths.length; i++) {
    const three = widths.slice(i, i + LEVELS);
    const widthMm = three.reduce((sum, w) => sum + w.widthMm, 0) / LEVELS;
    if (best && widthMm >= best.widthMm - 1e-9) continue;
    best = {
      view: canal.view,
      zMm: three[1]?.zMm ?? 0,
      widthMm,
      sdMm: widthSd(canal, widthMm, LEVELS),
      atEndOfTrace: i + LEVELS === widths.length,
    };
  }
  return best;
}

/** The narrower of two views: what a round stem has to pass. Null where neither is traced. */
export function narrowestIsthmus(views: readonly (CanalInView | null)[]): Isthmus | null {
  const found = views.flatMap((v) => (v ? [isthmusOf(v)] : [])).filter((i) => i !== null);
  return found.reduce<Isthmus | null>((a, b) => (a === null || b.widthMm < a.widthMm - 1e-9 ? b : a), null);
}
