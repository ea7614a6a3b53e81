import { canalSpan } from './canal-span.ts';
import { boundsOutwards, boundsUpTo, type SlopeBounds } from './slope-bounds.ts';
import { type CanalSection, longestWithin, straightFit } from './straight-stem.ts';
import { type StemBow, straightenedFor } from './straighten-canal.ts';

/** A place where a stem (or its mantle) and a wall meet. */
export interface WallContact {
  readonly zMm: number;
  readonly wall: 'low' | 'high';
}

/** How far the longest stem of one width goes. */
export interface Reach {
  /** Where it ends, mm along the bone; null = it enters nowhere. */
  readonly reachMm: number | null;
  /** Where the walls hold it there, its tip last. */
  readonly contacts: readonly WallContact[];
}

/** Traced walls from a seat outwards, straightened for a bowed stem, with the slope bounds of every length of one width. */
export interface SweptCanal {
  readonly sections: readonly CanalSection[];
  readonly bounds: readonly SlopeBounds[];
  readonly widthMm: number;
}

export interface Sweep {
  readonly widthMm: number;
  readonly fromMm: number;
  readonly bow: StemBow | null;
}

/** Sweeps that are known already: all lengths of one diameter ask for the same. */
const known = new WeakMap<readonly CanalSection[], Map<string, SweptCanal>>();
const reaches = new WeakMap<SweptCanal, Map<number, Reach>>();
/** A canal that is asked about from many seats, as while a mark is dragged, is not kept without end. */
const MOST_KEPT = 300;

/** The canal as stems of one width and shape see it from one seat. The same question is answered from what is known. */
export function sweptCanal(sections: readonly CanalSection[], sweep: Sweep): SweptCanal {
  const { widthMm, fromMm, bow } = sweep;
  const kept = known.get(sections) ?? new Map<string, SweptCanal>();
  const key = `${widthMm}/${fromMm}/${bow?.radiusMm ?? 0}`;
  const before = kept.get(key);
  if (before) return before;
  const traced = canalSpan(sections, Math.max(fromMm, sections[0]?.zMm ?? 0), sections.at(-1)?.zMm ?? 0);
  const walls = bow ? straightenedFor(traced, bow) : traced;
  const made: SweptCanal = { sections: walls, bounds: boundsOutwards(walls, widthMm), widthMm };
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, made);
  known.set(sections, kept);
  return made;
}

/** The longest stem that passes with at most so much tilt, and what stops it (STM-5, STM-9). */
export function reachOf(swept: SweptCanal, mostTiltDeg: number): Reach {
  const kept = reaches.get(swept) ?? new Map<number, Reach>();
  const before = kept.get(mostTiltDeg);
  if (before) return before;
  const longest = longestWithin(swept.sections, swept.widthMm, { mostTiltDeg, bounds: swept.bounds });
  const first = swept.sections[0];
  const reachMm = longest === null || !first ? null : first.zMm + longest;
  const made = { reachMm, contacts: reachMm === null ? [] : heldAt(swept, reachMm) };
  kept.set(mostTiltDeg, made);
  reaches.set(swept, kept);
  return made;
}

function heldAt(swept: SweptCanal, reachMm: number): readonly WallContact[] {
  const { widthMm } = swept;
  const first = swept.sections[0]?.zMm ?? 0;
  const span = canalSpan(swept.sections, first, reachMm);
  const fit = straightFit(span, widthMm, boundsUpTo(swept, { zMm: reachMm, diameterMm: widthMm }));
  if (!fit.ok) return [];
  const slope = Math.tan((fit.value.tiltDeg * Math.PI) / 180);
  return touched(span, { axisMm: (z) => fit.value.startMm + slope * (z - first), radiusMm: widthMm / 2 });
}

/** Clearance below which a wall counts as touched, mm. */
const TOUCHES_MM = 0.05;

/** Walls that an axis touches, from the joint outwards: of neighbouring sections the nearest. */
export function touched(
  span: readonly CanalSection[],
  { axisMm, radiusMm }: { readonly axisMm: (zMm: number) => number; readonly radiusMm: number },
): readonly WallContact[] {
  const found: WallContact[] = [];
  for (const wall of ['low', 'high'] as const) {
    const gaps = span.map((s) =>
      wall === 'low' ? axisMm(s.zMm) - radiusMm - s.lowMm : s.highMm - radiusMm - axisMm(s.zMm),
    );
    for (const [i, gap] of gaps.entries()) {
      const at = span[i];
      const [before, after] = [gaps[i - 1] ?? Infinity, gaps[i + 1] ?? Infinity];
      if (at && gap <= TOUCHES_MM && gap < before && gap <= after) found.push({ zMm: at.zMm, wall });
    }
  }
  return found.toSorted((a, b) => a.zMm - b.zMm || (a.wall < b.wall ? -1 : 1));
}
