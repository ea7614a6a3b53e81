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
  /** The same as a share of the component's own width there, %; + = the canal lies lateral or anterior; null = not known. */
  readonly axisSharePct: number | null;
  /** Where a straight stem as thick as the proposed one, held without offset or tilt, first meets a wall, mm from its seat. */
  readonly heldMeets: { readonly fromSeatMm: number; readonly wall: 'low' | 'high' } | null;
}

/** In what a canal is read: its surroundings, the proposed stem, and the component's own width and depth. */
export interface ReadIn {
  readonly around: StemSurroundings;
  readonly stem: Stem | null;
  readonly sizeMm: Readonly<Record<CanalInView['view'], number>> | null;
}

/** What one view of a canal shows, before any stem is judged in it (STM-6, STM-10). */
export function readCanal(canal: CanalInView | null, { around, stem, sizeMm }: ReadIn): CanalReading | null {
  if (!canal) return null;
  const { seatMm } = around;
  const bow = canalBow(canal);
  const boss = around.bossMm[canal.view];
  const found = boss === null ? null : canalAxisAt(canal, seatMm);
  const axis = found && { ...found, acrossMm: found.acrossMm - (boss ?? 0) };
  const post = stem && boss !== null ? { diameterMm: stem.diameterMm, seatMm, acrossMm: boss, tiltDeg: 0 } : null;
  const met = post && firstContact(canal.sections, post);
  const reaches = met !== null && met.zMm <= seatMm + (stem?.lengthMm ?? 0);
  return {
    film: canal.film,
    widths: canalWidths(canal),
    bow: bow.ok ? bow.value : null,
    axis,
    axisSharePct: axis && sizeMm ? (100 * axis.acrossMm) / sizeMm[canal.view] : null,
    heldMeets: reaches ? { fromSeatMm: met.zMm - seatMm, wall: met.wall } : null,
  };
}
