import { canalSpan } from './canal-span.ts';
import type { CanalSection } from './straight-stem.ts';

/** What bounds the slope of a stem from one side: the bound, and the two heights whose walls give it. */
export interface SlopeBound {
  readonly slope: number;
  /** Distance along the bone between the two walls that bind, mm; 0 = nothing binds. */
  readonly apartMm: number;
}

/** Slopes (tangent of the tilt) that some shift carries through a canal: empty where `least.slope > greatest.slope`. */
export interface SlopeBounds {
  readonly least: SlopeBound;
  readonly greatest: SlopeBound;
}

export const UNBOUND: SlopeBounds = {
  least: { slope: Number.NEGATIVE_INFINITY, apartMm: 0 },
  greatest: { slope: Number.POSITIVE_INFINITY, apartMm: 0 },
};
const NARROW: SlopeBounds = { least: { slope: 1, apartMm: 0 }, greatest: { slope: -1, apartMm: 0 } };

export const isOpen = ({ least, greatest }: SlopeBounds): boolean => least.slope <= greatest.slope + 1e-12;

/**
 * The bounds when one more section is added outside of those that gave `before`. A stem lies above the low wall of one section
 * and below the high wall of the other: each pair bounds the slope from one side, whatever the shift.
 */
export function boundsWith(
  before: SlopeBounds,
  inner: readonly CanalSection[],
  { section, diameterMm }: { readonly section: CanalSection; readonly diameterMm: number },
): SlopeBounds {
  if (section.highMm - section.lowMm < diameterMm || !isOpen(before)) return NARROW;
  let { least, greatest } = before;
  for (const s of inner) {
    const apartMm = section.zMm - s.zMm;
    const up = (section.highMm - s.lowMm - diameterMm) / apartMm;
    const down = (section.lowMm - s.highMm + diameterMm) / apartMm;
    if (up < greatest.slope) greatest = { slope: up, apartMm };
    if (down > least.slope) least = { slope: down, apartMm };
  }
  return { least, greatest };
}

/** The bounds of every length: entry `i` holds for the canal up to section `i`. One sweep gives all lengths of one diameter. */
export function boundsOutwards(sections: readonly CanalSection[], diameterMm: number): readonly SlopeBounds[] {
  const all: SlopeBounds[] = [];
  let bounds = UNBOUND;
  for (const [i, section] of sections.entries()) {
    bounds = boundsWith(bounds, sections.slice(0, i), { section, diameterMm });
    all.push(bounds);
  }
  return all;
}

/** The bounds of the canal up to a height between two sections, from those of `boundsOutwards` for the same sections. */
export function boundsUpTo(
  swept: { readonly sections: readonly CanalSection[]; readonly bounds: readonly SlopeBounds[] },
  { zMm, diameterMm }: { readonly zMm: number; readonly diameterMm: number },
): SlopeBounds {
  const inside = swept.sections.filter((s) => s.zMm < zMm - 1e-9);
  const before = swept.bounds[inside.length - 1] ?? UNBOUND;
  const section = canalSpan(swept.sections, zMm, zMm)[0];
  return section ? boundsWith(before, inside, { section, diameterMm }) : before;
}
