import type { Stem } from '../catalogue/catalogue.ts';
import { type CanalAxis, canalAxisAt } from '../stems/canal-axis.ts';
import { type CanalBow, canalBow } from '../stems/canal-bow.ts';
import type { CanalInView } from '../stems/canal-view.ts';
import { type CanalWidth, canalWidths } from '../stems/canal-width.ts';
import { firstContact } from '../stems/first-contact.ts';
import type { StemSurroundings } from '../stems/judge-stem.ts';

/** One view of a canal, read. */
export interface CanalReading {
  readonly film: string;
  readonly widths: readonly CanalWidth[];
  /** Null with fewer than five levels. */
  readonly bow: CanalBow | null;
  /** The canal's own axis where the stem begins, against the middle of the component. */
  readonly axis: CanalAxis | null;
  /** Where a straight stem as thick as the proposed one, held without offset or tilt, first meets a wall, mm from its seat. */
  readonly heldMeets: { readonly fromSeatMm: number; readonly wall: 'low' | 'high' } | null;
}

/** What one view of a canal shows, before any stem is judged in it. */
export function readCanal(
  canal: CanalInView | null,
  { around, stem }: { readonly around: StemSurroundings; readonly stem: Stem | null },
): CanalReading | null {
  if (!canal) return null;
  const { seatMm } = around;
  const bow = canalBow(canal);
  const boss = around.bossMm[canal.view];
  const axis = canalAxisAt(canal, seatMm);
  const post = stem && boss !== null ? { diameterMm: stem.diameterMm, seatMm, acrossMm: boss, tiltDeg: 0 } : null;
  const met = post && firstContact(canal.sections, post);
  return {
    film: canal.film,
    widths: canalWidths(canal),
    bow: bow.ok ? bow.value : null,
    axis: axis && boss !== null ? { ...axis, acrossMm: axis.acrossMm - boss } : null,
    heldMeets:
      met && met.zMm <= seatMm + (stem?.lengthMm ?? 0) ? { fromSeatMm: met.zMm - seatMm, wall: met.wall } : null,
  };
}
