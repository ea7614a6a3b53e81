import type { MetaphysisMap } from '../bone/bone-map.ts';
import type { MetaphysealPart } from './metaphyseal-part.ts';

/** Thinnest wall that may be left beside the part, mm (META-1; proposal, grade D). */
export const LEAST_WALL_MM = 2;
/** Widest gap between part and wall, each side, that graft or cement may fill, mm (META-2; proposal, grade D). */
export const MOST_GAP_MM = 3;
/** How much deeper than the cavity a bed may be cut for a part, mm (META-3; proposal, grade D). */
export const MOST_DEEPER_MM = 10;
/** Share of the cavity's wall that must be host bone, % (META-4; from memory). */
export const LEAST_HOST_PCT = 50;

/** One part of the catalogue in a measured cavity. */
export interface CavityVerdict {
  readonly kind: MetaphysealPart['kind'];
  readonly ref: string;
  readonly name: string;
  readonly verdict: 'fits' | 'does-not-fit' | 'not-known';
  /** What speaks against it; empty unless it does not fit. */
  readonly against: readonly string[];
  /** What is not measured or not stated, and leaves the verdict open. */
  readonly notKnown: readonly string[];
  /** How it lies, in words. */
  readonly lies: readonly string[];
  /** Part less cavity, side to side and front to back, mm: + = bone is cut for it, - = it stands off the wall; null = not known. */
  readonly overMm: { readonly width: number | null; readonly ap: number | null };
  /** Thinnest wall that is left, mm; null = not known. */
  readonly wallLeftMm: number | null;
  /** Cavity that is left open beyond the part, mm, >= 0; null = not known. */
  readonly unfilledMm: number | null;
}

interface Found {
  readonly against: string[];
  readonly notKnown: string[];
  readonly lies: string[];
}

const mm = (v: number) => `${v.toFixed(1)} mm`;

/** One direction: too wide for the walls, too loose to touch them, or how it lies. */
function across(
  found: Found,
  overMm: number | null,
  [way, film, wallMm]: readonly [string, string, number | undefined],
): void {
  if (overMm === null) {
    found.notKnown.push(`${way}: ${film}`);
    return;
  }
  const each = Math.abs(overMm) / 2;
  if (overMm < -2 * MOST_GAP_MM) found.against.push(`stands ${mm(each)} off the wall on each side, ${way}: too small`);
  else if (overMm <= 0) found.lies.push(`${mm(each)} of gap on each side, ${way}`);
  else if (wallMm === undefined) found.notKnown.push(`wall left after ${mm(each)} are cut on each side, ${way}`);
  else if (wallMm - each < LEAST_WALL_MM)
    found.against.push(`leaves ${mm(Math.max(0, wallMm - each))} of wall, ${way}; ${LEAST_WALL_MM} mm are wanted`);
  else found.lies.push(`${mm(each)} of bone cut on each side, ${way}`);
}

/**
 * Where a part stands along the bone: a cone is set at the cavity's mouth, wherever that lies; a sleeve hangs from its component, so
 * that a mouth beyond the plane takes as much of its height.
 */
function level(found: Found, { kind, part }: MetaphysealPart, fromPlaneMm: number | undefined): number {
  const from = fromPlaneMm ?? 0;
  if (fromPlaneMm === undefined) found.notKnown.push("level of the cavity's mouth");
  if (from <= 0) return 0;
  if (kind === 'cone') {
    found.lies.push(`set ${mm(from)} beyond the plane, cement between it and the component`);
    return 0;
  }
  if (from >= part.heightMm) found.against.push(`ends before the cavity begins, ${mm(from)} beyond the plane`);
  else found.lies.push(`held by its far ${mm(part.heightMm - from)}: the cavity begins ${mm(from)} beyond the plane`);
  return from;
}

function along(found: Found, overMm: number | null): void {
  if (overMm === null) found.notKnown.push('depth of the cavity along the bone');
  else if (overMm > MOST_DEEPER_MM) found.against.push(`reaches ${mm(overMm)} deeper than the cavity`);
  else if (overMm > 0) found.lies.push(`bed cut ${mm(overMm)} deeper`);
  else if (overMm < 0) found.lies.push(`${mm(-overMm)} of cavity left beyond it for graft`);
}

function contact(found: Found, hostPct: number | undefined): void {
  if (hostPct === undefined) found.notKnown.push('share of the wall that is host bone');
  else if (hostPct < LEAST_HOST_PCT)
    found.against.push(`${hostPct} % of the wall is host bone; ${LEAST_HOST_PCT} % are wanted`);
  else found.lies.push(`${hostPct} % of the wall is host bone`);
}

/**
 * One cone or sleeve in the measured cavity of a metaphysis (META-1 to META-4): width from the AP film, depth front to back from the
 * lateral one, height along the bone, remaining wall, host contact. Three-valued: one measure that excludes it is enough;
 * one that is missing leaves it not known.
 *
 * Lengths mm. Reasons are in the order: width, depth, level, height, contact. The limits are proposals of grade D, shown as such: published
 * series state results of parts that were chosen in theatre, not the fits that were refused.
 */
export function fitCavity(fitted: MetaphysealPart, cavity: MetaphysisMap): CavityVerdict {
  const { kind, part } = fitted;
  const found: Found = { against: [], notKnown: [], lies: [] };
  const less = (of: number | undefined, from: number | undefined) =>
    of === undefined || from === undefined ? null : of - from;
  const wider = { width: less(part.widthMm, cavity.cavityWidthMm), ap: less(part.apMm, cavity.cavityApMm) };
  across(found, wider.width, ['side to side', 'cavity from in front', cavity.wallMm]);
  const fromSide = part.apMm === undefined ? 'depth of the part is not in the catalogue' : 'cavity from the side';
  across(found, wider.ap, ['front to back', fromSide, cavity.wallMm]);
  const from = level(found, fitted, cavity.cavityFromPlaneMm);
  const over = less(part.heightMm - from, cavity.cavityHeightMm);
  along(found, over);
  contact(found, cavity.hostContactPct);
  const cut = Math.max(0, wider.width ?? 0, wider.ap ?? 0) / 2;
  return {
    kind,
    ref: part.ref,
    name: part.name,
    verdict: found.against.length > 0 ? 'does-not-fit' : found.notKnown.length > 0 ? 'not-known' : 'fits',
    ...found,
    overMm: wider,
    wallLeftMm: cavity.wallMm === undefined ? null : Math.max(0, cavity.wallMm - cut),
    unfilledMm: over === null ? null : Math.max(0, -over),
  };
}

/** How far a part departs from the cavity: bone cut and gap count alike, what is not known not at all. */
const misfit = (v: CavityVerdict): number =>
  Math.abs(v.overMm.width ?? 0) + Math.abs(v.overMm.ap ?? 0) + 0.5 * (v.unfilledMm ?? 0);
const rank = { fits: 0, 'not-known': 1, 'does-not-fit': 2 } as const;

/** Best fit first (META-5): what fits before what is not known before what does not; then least misfit; then by reference. */
export const bestFitFirst = (verdicts: readonly CavityVerdict[]): readonly CavityVerdict[] =>
  verdicts.toSorted(
    (a, b) =>
      rank[a.verdict] - rank[b.verdict] || misfit(a) - misfit(b) || (a.ref < b.ref ? -1 : a.ref > b.ref ? 1 : 0),
  );

/** Whether the cavity is measured at all: without its width nothing can be said of any part. */
export const cavityIsMeasured = (cavity: MetaphysisMap | undefined): cavity is MetaphysisMap =>
  cavity?.cavityWidthMm !== undefined || cavity?.cavityApMm !== undefined;
