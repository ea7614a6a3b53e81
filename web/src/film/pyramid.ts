/** One level of a film's pyramid: level 0 is the film itself, each next one is half as wide and high. */
export interface Level {
  readonly width: number;
  readonly height: number;
  readonly values: Uint16Array<ArrayBuffer>;
}

/** Halving ends when the longer side is no longer than this. */
const SMALLEST = 256;

/**
 * The film and its halvings. Value of a halved pixel: the rounded mean of its 2 x 2 pixels; at an odd
 * edge the last row or column counts twice.
 */
export function pyramid(base: Level): readonly Level[] {
  const levels = [base];
  for (let last = base; Math.max(last.width, last.height) > SMALLEST; ) {
    last = halve(last);
    levels.push(last);
  }
  return levels;
}

function halve({ width, height, values }: Level): Level {
  const w = (width + 1) >> 1;
  const h = (height + 1) >> 1;
  const half = new Uint16Array(w * h);
  const whole = width >> 1;
  for (let y = 0; y < h; y++) {
    const upper = 2 * y * width;
    const lower = Math.min(2 * y + 1, height - 1) * width;
    let to = y * w;
    for (let x = 0; x < whole; x++) {
      const a = upper + 2 * x;
      const b = lower + 2 * x;
      half[to++] = (values[a]! + values[a + 1]! + values[b]! + values[b + 1]! + 2) >> 2;
    }
    if (whole < w) half[to] = (2 * values[upper + width - 1]! + 2 * values[lower + width - 1]! + 2) >> 2;
  }
  return { width: w, height: h, values: half };
}
