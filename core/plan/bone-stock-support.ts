import type { FemurMap, SurfaceLoss, TibiaMap } from '../bone/bone-map.ts';
import { REBUILD_AREA_PCT } from '../bone/propose-class.ts';
import type { Compartment, PerCompartment } from '../landmarks/side.ts';
import { type FindingsBook, goWithout, type Known, together } from './findings-book.ts';

/** Bone map of both bones, with what the drawings added. */
export interface Maps {
  readonly femur: FemurMap;
  readonly tibia: TibiaMap;
}

/** Marks of one surface on both sides, and the plane that the map counts from, all as levels into the bone, mm. */
export interface MarkedSurface {
  readonly label: string;
  /** Path of the surface's map in the case, e.g. `bone.tibiaMap.plateau`. */
  readonly field: string;
  readonly marks: PerCompartment<Known | null>;
  readonly losses: Partial<PerCompartment<SurfaceLoss>> | undefined;
  /** Level of the resection plane; null = the present component's thickness or its marks are missing. */
  readonly plane: Known | null;
}

/** Map and mark further apart than this, or than two standard deviations of their difference, are shown as in conflict, mm. */
const WORTH_SAYING_MM = 3;

/**
 * Where sound bone begins on each side, from the mark and from the map (PLAN-21), as a level into the bone, mm, in the mark's own count
 * (femur proximal +, tibia distal +, posterior femur anterior +).
 *
 * Mark and map are two readings of one level and are never added: the deeper holds, with its spread. The map's level is the plane's plus
 * its depth. A loss under no more than 40 % of the side does not lower the support: the component rests on the rest, and the
 * depth is filled. Where the plane is not known, the better of the two marks stands in for it, which errs towards more loss.
 * A depth without spread leaves the spread of the support unknown; a share that is not known counts as more than 40 %; both are said.
 */
export function supportFromMap(book: FindingsBook, surface: MarkedSurface): PerCompartment<Known | null> {
  const plane = surface.plane ?? betterMark(surface.marks);
  const side = (s: Compartment): Known | null => {
    const [mark, loss] = [surface.marks[s], surface.losses?.[s]];
    const at = { label: `${s} ${surface.label}`, field: `${surface.field}.${s}` };
    return mark && plane && loss?.depthMm !== undefined ? deeper(book, { mark, plane, loss, ...at }) : mark;
  };
  return { medial: side('medial'), lateral: side('lateral') };
}

/** The mark nearer the joint, standing in for the plane. */
function betterMark({ medial, lateral }: PerCompartment<Known | null>): Known | null {
  const better = !medial || (lateral && lateral.value < medial.value) ? lateral : medial;
  return better && { ...better, from: 'better of the two bone marks, the bone face of the component not known' };
}

interface TwoReadings {
  readonly mark: Known;
  readonly plane: Known;
  readonly loss: SurfaceLoss;
  readonly label: string;
  readonly field: string;
}

function deeper(book: FindingsBook, two: TwoReadings): Known {
  const { mark, plane, loss, label, field } = two;
  const depth = Math.max(0, loss.depthMm ?? 0);
  if (loss.unsupportedPct !== undefined && loss.unsupportedPct <= REBUILD_AREA_PCT) {
    const share = `map: ${mm(depth)} deep under ${loss.unsupportedPct.toFixed(0)} % of the side`;
    return depth > 0 ? { ...mark, from: `${mark.from}; ${share}, the rest carries` } : mark;
  }
  const mapped: Known = {
    value: plane.value + depth,
    sd: together(loss.depthSdMm ?? null, plane.sd),
    ...(plane.shared ? { shared: plane.shared } : {}),
    from: `map: ${mm(depth)} beyond the resection plane (${plane.from})`,
  };
  compare(book, two, mapped);
  if (mapped.value <= mark.value) return { ...mark, from: `${mark.from}; the map says no deeper` };
  if (loss.unsupportedPct === undefined) goWithout(book, SHARE(two, mark));
  if (loss.depthSdMm === undefined) goWithout(book, SPREAD({ label, field }));
  return { ...mapped, from: `${mapped.from}; deeper than the mark by ${mm(mapped.value - mark.value)}` };
}

function compare(book: FindingsBook, { mark, plane, label, field }: TwoReadings, mapped: Known): void {
  const apart = mapped.value - mark.value;
  const sd = together(mapped.sd, mark.sd);
  if (Math.abs(apart) <= Math.max(WORTH_SAYING_MM, 2 * (sd ?? 0))) return;
  book.apart.push({
    code: 'map-and-mark-apart',
    message: `${label.charAt(0).toUpperCase()}${label.slice(1)}: sound bone begins ${mm(mapped.value - plane.value)} beyond the resection plane by the map and ${mm(mark.value - plane.value)} by the mark; the deeper holds.`,
    field: `${field}.depthMm`,
    mend: 'Correct the depth in the map, or the mark of the bone surface.',
  });
}

const mm = (v: number) => `${v.toFixed(1)} mm`;

const SHARE = ({ label, field }: TwoReadings, mark: Known) => ({
  what: `Share without support, ${label}`,
  field: `${field}.unsupportedPct`,
  wouldChange: `At ${REBUILD_AREA_PCT} % or less the component rests on the rest of the side and the support stays where the mark is, at ${mm(mark.value)}.`,
});

const SPREAD = ({ label, field }: { readonly label: string; readonly field: string }) => ({
  what: `Spread of the depth, ${label}`,
  field: `${field}.depthSdMm`,
  wouldChange: 'The spread of this support: without it the bone that may be found cannot be drawn on this side.',
});
