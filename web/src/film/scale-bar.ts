/** Lengths that a scale bar may have, mm. */
const LENGTHS = [1, 2, 5, 10, 20, 50, 100, 200, 500];

/** Longest round length that still fits into `room` screen pixels, and how long it is there. */
export function scaleBar(mmPerScreenPx: number, room: number): { readonly mm: number; readonly px: number } | null {
  if (!(mmPerScreenPx > 0) || !Number.isFinite(mmPerScreenPx)) return null;
  const mm = LENGTHS.filter((length) => length / mmPerScreenPx <= room).at(-1);
  return mm === undefined ? null : { mm, px: mm / mmPerScreenPx };
}
