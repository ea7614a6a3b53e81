import type { MetaphysisMap, SurfaceLoss } from '../bone/bone-map.ts';
import type { DefectOnFilm } from '../bone/defect-on-film.ts';
import { type MapOfBone, mapField, SIDES } from '../bone/map-of-bone.ts';
import type { Compartment, PerCompartment } from '../landmarks/side.ts';
import type { Quantity } from '../measure/quantity.ts';
import { boneOf, type DrawnOnSide } from './bone-stock-drawn.ts';

/** A field that was entered and drawn: the entered value holds, the drawn one is shown beside it. */
export interface EnteredAndDrawn {
  readonly field: string;
  readonly entered: number;
  readonly drawn: Quantity;
  readonly film: string;
  /** True where they lie further apart than two standard deviations of the drawn one and than what an estimate by eye allows. */
  readonly apart: boolean;
}

/** A field that only a drawing gave. */
export interface TakenFromDrawing {
  readonly field: string;
  readonly value: Quantity;
  readonly film: string;
  readonly plane: string;
}

export interface MergedMap {
  readonly map: MapOfBone;
  readonly taken: readonly TakenFromDrawing[];
  readonly both: readonly EnteredAndDrawn[];
}

interface Book {
  readonly taken: TakenFromDrawing[];
  readonly both: EnteredAndDrawn[];
}

type Sides = Partial<PerCompartment<SurfaceLoss>>;
type Drawings = (surface: string, side: Compartment | 'both') => readonly DefectOnFilm[];

/**
 * The map of one bone with what the drawings add (BONE-11). A field entered by hand wins and the drawn value is shown beside it; one that
 * was not entered is taken from the drawings, a depth with its spread. Of several drawings of one surface the deepest gives the depth;
 * shares on one film add up, and the first film in the case's order that shows one gives the share. Lengths mm, shares %.
 */
export function mergeMap(entered: MapOfBone, drawn: readonly DrawnOnSide[]): MergedMap {
  const book: Book = { taken: [], both: [] };
  const own = drawn.filter((d) => boneOf(d.drawn) === entered.bone);
  const drawings: Drawings = (surface, side) =>
    own.flatMap((d) => (d.drawn.surface === surface && d.compartment === side && d.size.ok ? [d.size.value] : []));
  return { map: entered.bone === 'femur' ? femur(entered, drawings, book) : tibia(entered, drawings, book), ...book };
}

function femur(m: MapOfBone & { bone: 'femur' }, drawings: Drawings, book: Book): MapOfBone {
  const { distal, posterior, anterior, metaphysis, ...rest } = m.map;
  const root = mapField('femur');
  return {
    bone: 'femur',
    map: {
      ...rest,
      ...kept('distal', sides(distal, { drawn: (s) => drawings('femur-distal', s), field: `${root}.distal`, book })),
      ...kept(
        'posterior',
        sides(posterior, { drawn: (s) => drawings('femur-posterior', s), field: `${root}.posterior`, book }),
      ),
      ...kept(
        'anterior',
        surface(anterior, { drawn: allSides(drawings, 'femur-anterior'), field: `${root}.anterior`, book }),
      ),
      ...kept('metaphysis', cavity(metaphysis, { drawn: allSides(drawings, 'femur-metaphysis'), field: root, book })),
    },
  };
}

function tibia(m: MapOfBone & { bone: 'tibia' }, drawings: Drawings, book: Book): MapOfBone {
  const { plateau, metaphysis, ...rest } = m.map;
  const root = mapField('tibia');
  return {
    bone: 'tibia',
    map: {
      ...rest,
      ...kept(
        'plateau',
        sides(plateau, { drawn: (s) => drawings('tibia-plateau', s), field: `${root}.plateau`, book }),
      ),
      ...kept('metaphysis', cavity(metaphysis, { drawn: allSides(drawings, 'tibia-metaphysis'), field: root, book })),
    },
  };
}

/** A field that has nothing stays absent: unknown, never empty. */
const kept = <K extends string, T extends object>(key: K, value: T): Partial<Record<K, T>> =>
  Object.keys(value).length > 0 ? ({ [key]: value } as Record<K, T>) : {};

const allSides = (drawings: Drawings, surfaceName: string): readonly DefectOnFilm[] =>
  (['both', ...SIDES] as const).flatMap((side) => drawings(surfaceName, side));

interface At<D> {
  readonly drawn: D;
  readonly field: string;
  readonly book: Book;
}

function sides(entered: Sides = {}, { drawn, field, book }: At<(side: Compartment) => readonly DefectOnFilm[]>): Sides {
  const of = (side: Compartment) =>
    kept(side, surface(entered[side], { drawn: drawn(side), field: `${field}.${side}`, book }));
  return { ...of('medial'), ...of('lateral') };
}

function surface(entered: SurfaceLoss = {}, { drawn, field, book }: At<readonly DefectOnFilm[]>): SurfaceLoss {
  const deepest = largest(drawn, 'depthMm');
  const depthMm = settle(entered.depthMm, { found: deepest, of: 'depthMm', field: `${field}.depthMm`, book });
  const share = shareOnOneFilm(drawn);
  const unsupportedPct = settle(entered.unsupportedPct, {
    found: share,
    of: 'unsupportedPct',
    field: `${field}.unsupportedPct`,
    book,
  });
  const sd = entered.depthMm === undefined ? deepest?.depthMm?.sd : undefined;
  return {
    ...(typeof sd === 'number' ? { depthSdMm: sd } : {}),
    ...entered,
    ...(depthMm === undefined ? {} : { depthMm }),
    ...(unsupportedPct === undefined ? {} : { unsupportedPct }),
  };
}

/** Width and height from the AP film, depth front to back from the lateral one, which also stands in for the height. */
function cavity(entered: MetaphysisMap = {}, { drawn, field, book }: At<readonly DefectOnFilm[]>): MetaphysisMap {
  const ap = largest(
    drawn.filter((d) => d.frame === 'coronal'),
    'widthMm',
  );
  const lateral = largest(
    drawn.filter((d) => d.frame === 'sagittal'),
    'widthMm',
  );
  const take = (
    name: 'cavityWidthMm' | 'cavityApMm' | 'cavityHeightMm' | 'cavityFromPlaneMm',
    of: Length,
    from = ap,
  ) => {
    const value = settle(entered[name], { found: from, of, field: `${field}.metaphysis.${name}`, book });
    return value === undefined ? {} : { [name]: value };
  };
  return {
    ...entered,
    ...take('cavityWidthMm', 'widthMm'),
    ...take('cavityApMm', 'widthMm', lateral),
    ...take('cavityHeightMm', 'heightMm', ap ?? lateral),
    ...take('cavityFromPlaneMm', 'fromPlaneMm', ap ?? lateral),
  };
}

type Length = 'depthMm' | 'widthMm' | 'heightMm' | 'fromPlaneMm';

const largest = (drawn: readonly DefectOnFilm[], of: Length): DefectOnFilm | undefined =>
  drawn.reduce<DefectOnFilm | undefined>(
    (most, d) => (d[of] !== null && d[of].value > (most?.[of]?.value ?? -1) ? d : most),
    undefined,
  );

/** Shares of one film laid together, no more than the whole; spreads in quadrature. */
function shareOnOneFilm(drawn: readonly DefectOnFilm[]): DefectOnFilm | undefined {
  const first = drawn.find((d) => d.unsupportedPct !== null);
  if (!first) return undefined;
  const shares = drawn.flatMap((d) => (d.film === first.film && d.unsupportedPct ? [d.unsupportedPct] : []));
  const sd = shares.reduce<number | null>(
    (sum, s) => (sum === null || s.sd === null ? null : Math.hypot(sum, s.sd)),
    0,
  );
  const value = Math.min(
    100,
    shares.reduce((sum, s) => sum + s.value, 0),
  );
  return { ...first, unsupportedPct: { value, unit: '%', sd } };
}

/** How far an estimate by eye may lie off, mm and % (planning defaults, grade D). */
const BY_EYE = { mm: 3, '%': 15 } as const;

interface Found {
  readonly found: DefectOnFilm | undefined;
  readonly of: Length | 'unsupportedPct';
  readonly field: string;
  readonly book: Book;
}

/** The entered value where there is one, else the drawn one; what was drawn is written down either way. */
function settle(entered: number | undefined, { found, of, field, book }: Found): number | undefined {
  const drawn = found?.[of];
  if (!found || !drawn) return entered;
  const { film, plane } = found;
  if (entered === undefined) {
    book.taken.push({ field, value: drawn, film, plane });
    return drawn.value;
  }
  const apart =
    Math.abs(entered - drawn.value) > Math.max(BY_EYE[of === 'unsupportedPct' ? '%' : 'mm'], 2 * (drawn.sd ?? 0));
  book.both.push({ field, entered, drawn, film, apart });
  return entered;
}
