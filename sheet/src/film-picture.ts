import { encode } from 'fast-png';

/** A film as grey levels for print: 0 black, 255 white, row by row. */
export interface SheetPicture {
  readonly rows: number;
  readonly columns: number;
  readonly grey: Uint8Array;
}

/** A part of a film in film pixels; may reach beyond the picture, where it is black. */
export interface Cut {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * A part of a film as PNG, made smaller to at most `most` columns by the mean of the pixels that fall together (never enlarged):
 * thin lines of cement and cortex keep their grey instead of being skipped.
 */
export function cutPng(picture: SheetPicture, cut: Cut, most: number): Uint8Array {
  const step = Math.max(1, cut.width / most);
  const width = Math.max(1, Math.round(cut.width / step));
  const height = Math.max(1, Math.round(cut.height / step));
  const data = new Uint8Array(width * height);
  for (let row = 0; row < height; row++) {
    const [top, bottom] = span(cut.y, row * step, step);
    for (let column = 0; column < width; column++) {
      const [left, right] = span(cut.x, column * step, step);
      data[row * width + column] = mean(picture, { left, right, top, bottom });
    }
  }
  return encode({ width, height, data, channels: 1, depth: 8 });
}

const span = (from: number, offset: number, step: number): readonly [number, number] => {
  const first = Math.floor(from + offset);
  return [first, Math.max(first + 1, Math.floor(from + offset + step))];
};

interface Window {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function mean({ rows, columns, grey }: SheetPicture, { left, right, top, bottom }: Window): number {
  let [sum, count] = [0, 0];
  for (let y = Math.max(0, top); y < Math.min(rows, bottom); y++) {
    for (let x = Math.max(0, left); x < Math.min(columns, right); x++) {
      sum += grey[y * columns + x] ?? 0;
      count++;
    }
  }
  return count > 0 ? Math.round(sum / count) : 0;
}
