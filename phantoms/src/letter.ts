import type { Side } from '@gapline/core/landmarks/side.ts';

type Stroke = readonly [number, number, number, number];

/** Strokes of the two side letters on a field 0..1 wide and 0..1.5 high. */
const STROKES: Readonly<Record<Side, readonly Stroke[]>> = {
  left: [
    [0.05, 0, 0.05, 1.5],
    [0.05, 1.5, 0.9, 1.5],
  ],
  right: [
    [0.05, 0, 0.05, 1.5],
    [0.05, 0, 0.6, 0],
    [0.6, 0, 0.88, 0.18],
    [0.88, 0.18, 0.92, 0.4],
    [0.92, 0.4, 0.86, 0.62],
    [0.86, 0.62, 0.6, 0.78],
    [0.6, 0.78, 0.05, 0.78],
    [0.5, 0.78, 0.95, 1.5],
  ],
};

/** Draws a lead letter into a picture of densities: upper left corner, height in pixels, density to add. */
export function drawLetter(
  picture: { readonly data: Float32Array; readonly columns: number; readonly rows: number },
  side: Side,
  place: { readonly column: number; readonly row: number; readonly height: number; readonly density: number },
): void {
  const unit = place.height / 1.5;
  const thick = 0.09 * unit;
  const margin = Math.ceil(thick + 2);
  for (let r = place.row - margin; r <= place.row + place.height + margin; r++)
    for (let c = place.column - margin; c <= place.column + unit + margin; c++) {
      if (r < 0 || c < 0 || r >= picture.rows || c >= picture.columns) continue;
      let near = Number.POSITIVE_INFINITY;
      for (const [x0, y0, x1, y1] of STROKES[side]) {
        const [ax, ay] = [place.column + x0 * unit, place.row + y0 * unit];
        const [dx, dy] = [(x1 - x0) * unit, (y1 - y0) * unit];
        const t = Math.min(1, Math.max(0, ((c - ax) * dx + (r - ay) * dy) / (dx * dx + dy * dy)));
        near = Math.min(near, Math.hypot(c - ax - t * dx, r - ay - t * dy));
      }
      const cover = Math.min(1, Math.max(0, thick - near + 0.5));
      const at = r * picture.columns + c;
      if (cover > 0) picture.data[at] = Math.max(picture.data[at]!, cover * place.density);
    }
}
