import type { OffsetCoupler } from '../catalogue/catalogue.ts';
import { NO_OFFSET_MM } from '../stems/offset-direction.ts';
import type { BoneState, StemLimit } from './bone-state.ts';
import type { TrayPlace } from './construct.ts';
import type { PartsOfConstruct } from './parts-of.ts';
import { stemLimit } from './stem-limits.ts';

/** Rounding between lengths of parts, mm. */
const TOUCH_MM = 1e-9;

/** The tray over the middle of its bone: without a stem nothing holds it elsewhere. */
const OVER_THE_MIDDLE: TrayPlace = { lateralMm: 0, anteriorMm: 0 };

/** Never -0, so that equal plans are equal bytes. */
const away = (mm: number, share: number): number => 0 - mm * share;

/**
 * Where the middle of a tray stands on its bone when its stem follows the canal (GAP-31): the axis of the stem carries it, and a
 * coupler, turned towards the middle of the bone, sets it back by its offset.
 *
 * @param limit what the measured canal says of the stem; its `offset` is what the tray needs, mm, + = lateral, + = anterior.
 * @param coupler between tray and stem; null = none.
 * @returns mm from the middle of the bone, + = lateral, + = anterior, 0 = over it; `anteriorMm` null where the side view is not
 * known. Null where the canal does not say (GAP-19). With less than 0.5 mm needed a coupler has no direction: null too.
 *
 * Example: needed 3 mm medial and 4 mm posterior. Without a coupler the tray stands 3 mm lateral and 4 mm anterior; with one
 * of 4 mm a fifth of that is left: 0.6 mm lateral and 0.8 mm anterior.
 */
export function trayPlace(limit: StemLimit | null, coupler: OffsetCoupler | null): TrayPlace | null {
  const needed = limit?.offset;
  if (!needed) return null;
  const { lateralMm, anteriorMm } = needed;
  const neededMm = Math.hypot(lateralMm, anteriorMm ?? 0);
  if (coupler && neededMm < NO_OFFSET_MM) return null;
  const left = coupler ? 1 - coupler.offsetMm / neededMm : 1;
  return { lateralMm: away(lateralMm, left), anteriorMm: anteriorMm === null ? null : away(anteriorMm, left) };
}

/** The same of a tray that may have no stem: then it stands over the middle of its bone. */
const trayPlaceOn = (
  stem: { readonly ref: string } | null,
  limit: StemLimit | null,
  coupler: OffsetCoupler | null,
): TrayPlace | null => (stem ? trayPlace(limit, coupler) : OVER_THE_MIDDLE);

/** Where the tray of a construct stands on its bone; null = there is a stem, and the canal does not say. */
export const trayPlaceIn = (
  { tibialStem, tibialOffset, tibialSegment }: PartsOfConstruct,
  state: BoneState,
): TrayPlace | null =>
  tibialSegment
    ? OVER_THE_MIDDLE
    : trayPlaceOn(tibialStem, tibialStem && stemLimit(state, 'tibia', tibialStem.ref), tibialOffset);

/**
 * Whether a coupler comes into question between a tray and its stem (GAP-32): made for the tibia and for this size, an offset of
 * at least 0.5 mm is needed, and the canal takes the stem with the length that the coupler adds, as far as that is known.
 */
export function couplerGoes(coupler: OffsetCoupler, traySize: number, limit: StemLimit | null): boolean {
  const needed = limit?.offset;
  if (coupler.bone === 'femur' || !needed || !takesSize(coupler, traySize)) return false;
  if (Math.hypot(needed.lateralMm, needed.anteriorMm ?? 0) < NO_OFFSET_MM) return false;
  const mostMm = limit.mostAddedMm ?? null;
  return mostMm === null || coupler.addedLengthMm <= mostMm + TOUCH_MM;
}

/** Whether a coupler takes a size of femur or tray; one that states no sizes takes all. */
export const takesSize = ({ sizes }: OffsetCoupler, size: number): boolean => sizes?.includes(size) !== false;
