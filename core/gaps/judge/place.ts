import type { OffsetCoupler } from '../../catalogue/catalogue.ts';
import { NEVER, out, TOLERANCE, type Trial, weigh } from './trial.ts';

/** A tray as it may be set on its bone. */
export interface Placeable {
  readonly size: number;
  readonly widthMm: number;
}

/** Couplers that the tray of this size could take on the one stem of the catalogue, where the canal lets them. */
export function trayCouplers(t: Trial, size: number): readonly OffsetCoupler[] {
  const limit = t.state.tibialStemLimits?.find((l) => l.ref === t.catalogue.stems[0]?.ref);
  const off = limit?.offset;
  if (!off || Math.hypot(off.lateralMm, off.anteriorMm ?? 0) < 0.5) return [];
  return t.catalogue.offsetCouplers.filter(
    (c) =>
      c.bone !== 'femur' && (c.sizes ?? [size]).includes(size) && c.addedLengthMm <= (limit.mostAddedMm ?? 1e9) + 1e-9,
  );
}

/** Width, place and coupler of a tray: over the middle of its bone, or where stem and coupler carry it. */
export function placed(t: Trial, tray: Placeable, on: { stem: boolean; coupler: OffsetCoupler | null }): number {
  const over = (tray.widthMm - t.state.tibiaWidthMm) / 2;
  const needed = on.stem ? t.state.tibialStemLimits?.find((l) => l.ref === t.catalogue.stems[0]?.ref)?.offset : null;
  // Along the line from stem to middle: the distance that is needed less the offset of the coupler is left.
  const whole = needed ? Math.hypot(needed.lateralMm, needed.anteriorMm ?? 0) : 0;
  const left = whole - (on.coupler?.offsetMm ?? 0);
  const share = needed && whole > 0 ? left / whole : 0;
  const aside = Math.abs((needed?.lateralMm ?? 0) * share);
  const [least, most] = [over - aside, over + aside];
  if (most > t.catalogue.limits.overhangMm + TOLERANCE) return NEVER;
  return (
    (most > 0 ? out(most, weigh(t, 'tray-overhang')) : 0) +
    (least < 0 ? out(-least, weigh(t, 'tray-underhang')) : 0) +
    out(-(needed?.anteriorMm ?? 0) * share, weigh(t, 'tray-front-back')) +
    (on.coupler ? weigh(t, 'offset-coupler').w : 0)
  );
}
