import type { OffsetCoupler } from '../catalogue/catalogue.ts';
import type { Side } from '../landmarks/side.ts';

/** Where the component's middle lies as seen from the stem's axis, mm: + = lateral, + = anterior; null = not measured. */
export interface OffsetNeeded {
  readonly lateralMm: number;
  readonly anteriorMm: number | null;
}

export interface OffsetDirection {
  /** Size and direction of the whole offset; without the side view its coronal part alone. */
  readonly sizeMm: number;
  /**
   * Hour of a clock laid on the joint face, 12 = anterior, seen from the joint out along the bone, to the nearest half hour;
   * null while one view is missing or the offset is under half a millimetre.
   */
  readonly clock: number | null;
  /** E.g. "3.2 mm medial, 1.5 mm posterior". */
  readonly words: string;
}

/** Offset under which none is called for, mm. */
export const NO_OFFSET_MM = 0.5;

const part = (mm: number, [plus, minus]: readonly [string, string]): string | null =>
  Math.abs(mm) < NO_OFFSET_MM ? null : `${Math.abs(mm).toFixed(1)} mm ${mm > 0 ? plus : minus}`;

/** Half hours of a direction: clockwise from 12, given how far it points to the right and up. */
function halfHour(rightMm: number, upMm: number): number {
  const turn = Math.atan2(rightMm, upMm) / (2 * Math.PI);
  const hours = (Math.round(turn * 24) / 2 + 12) % 12;
  return hours === 0 ? 12 : hours;
}

/**
 * Size and clock hour of the offset that sets a component over its bone's middle while its stem follows the canal (STM-11): both
 * views together. The clock is seen from the joint: on a right tibia (seen from above) lateral lies at 3, on a
 * right femur (seen from below) at 9; on left limbs the other way round.
 *
 * Example: right tibia, canal 3 mm lateral and 4 mm anterior of the tray's middle: the tray stands 3 mm medial and
 * 4 mm posterior of its stem: 5.0 mm at 7 o'clock.
 */
export function offsetDirection(
  needed: OffsetNeeded,
  limb: { readonly bone: 'femur' | 'tibia'; readonly side: Side },
): OffsetDirection {
  const { lateralMm, anteriorMm } = needed;
  const lateralIsRight = (limb.bone === 'tibia') === (limb.side === 'right');
  const sizeMm = Math.hypot(lateralMm, anteriorMm ?? 0);
  const words = [
    part(lateralMm, ['lateral', 'medial']),
    anteriorMm === null ? null : part(anteriorMm, ['anterior', 'posterior']),
  ]
    .filter((w) => w !== null)
    .join(', ');
  return {
    sizeMm,
    clock:
      anteriorMm === null || sizeMm < NO_OFFSET_MM
        ? null
        : halfHour(lateralIsRight ? lateralMm : -lateralMm, anteriorMm),
    words: words === '' ? 'no offset' : words,
  };
}

export interface ChosenOffset {
  /** Null = none. */
  readonly coupler: OffsetCoupler | null;
  /** How far the component still stands off the bone's middle, mm. */
  readonly restMm: number;
}

/** What the coupler that was taken leaves, turned to the direction of the offset; null = none was taken. */
export const takenOffset = (sizeMm: number, coupler: OffsetCoupler | null): ChosenOffset => ({
  coupler,
  restMm: Math.abs(sizeMm - (coupler?.offsetMm ?? 0)),
});

/** The coupler of a bone whose size comes nearest to the offset (ties: the smaller), turned to its direction; none where that is nearer. */
export function chooseOffset(sizeMm: number, couplers: readonly OffsetCoupler[]): ChosenOffset {
  const sorted = couplers.toSorted((a, b) => a.offsetMm - b.offsetMm || (a.ref < b.ref ? -1 : 1));
  return sorted.reduce<ChosenOffset>(
    (best, coupler) => {
      const restMm = Math.abs(sizeMm - coupler.offsetMm);
      return restMm < best.restMm - 1e-9 ? { coupler, restMm } : best;
    },
    { coupler: null, restMm: sizeMm },
  );
}
