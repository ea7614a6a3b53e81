import type { PerCompartment } from '../../landmarks/side.ts';
import { isSame } from './is-same.ts';
import { NO_STEM, type Pinned } from './pinned.ts';

type Thick = { readonly thicknessMm: number } | null;

/** What is fixed by hand and leaves the catalogue as it is: it stands among the limits of the search. */
export interface ByHand {
  /** J, q and U, mm. */
  readonly j?: number;
  readonly q?: number;
  readonly u?: number;
  /** Thickness of augments on each side, mm, 0 = none. */
  readonly distal?: PerCompartment<number>;
  readonly posterior?: PerCompartment<number>;
  readonly blocks?: PerCompartment<number>;
  /** Offset of the femoral coupler, mm, 0 = none. */
  readonly offsetMm?: number;
  /** Whether a bone must have its stem or must do without; absent = either. */
  readonly femurStemmed?: boolean;
  readonly tibiaStemmed?: boolean;
}

export const NOTHING_BY_HAND: ByHand = {};

/** The limits that the pins set on the search; null where they set none. */
export function byHandOf(pinned: Pinned): ByHand | null {
  const { femoralStem, tibialStem } = pinned;
  const all = {
    j: pinned.femurProximalMm,
    q: pinned.femurAnteriorMm,
    u: pinned.trayMm,
    distal: pinned.distalAugmentsMm,
    posterior: pinned.posteriorAugmentsMm,
    blocks: pinned.tibialAugmentsMm,
    offsetMm: pinned.femoralOffsetMm,
    femurStemmed: femoralStem === undefined ? undefined : femoralStem !== NO_STEM,
    tibiaStemmed: tibialStem === undefined ? undefined : tibialStem !== NO_STEM,
  };
  const set = Object.entries(all).filter(([, value]) => value !== undefined);
  return set.length > 0 ? (Object.fromEntries(set) as ByHand) : null;
}

/** Pairs of augments of the wanted thickness on each side; all of them where none is wanted. */
export const pairsByHand = <P extends PerCompartment<number>>(
  pairs: P[],
  parts: readonly Thick[],
  wanted: PerCompartment<number> | undefined,
): P[] =>
  wanted
    ? pairs.filter(
        (p) =>
          isSame(parts[p.medial]?.thicknessMm ?? 0, wanted.medial) &&
          isSame(parts[p.lateral]?.thicknessMm ?? 0, wanted.lateral),
      )
    : pairs;

/** Whether a coupler of this offset, 0 = none, is left. */
export const offsetByHand = (offsetMm: number, { offsetMm: wanted }: ByHand): boolean =>
  wanted === undefined || isSame(offsetMm, wanted);
