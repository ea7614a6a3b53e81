import { type GreyFilm, valueAt } from './grey-film.ts';

/** A line on the film along which grey is read. */
export interface Reading {
  readonly x: number;
  readonly y: number;
  /** Unit direction in which it is read. */
  readonly dx: number;
  readonly dy: number;
  /** From and to, pixels along the direction. */
  readonly from: number;
  readonly to: number;
  readonly step: number;
  /** Mean over this many pixels to either side of the line, which quiets noise along a straight edge. */
  readonly halfWidth: number;
}

/** Grey along a line, mean over a band about it. */
export function acrossProfile(film: GreyFilm, r: Reading): Float64Array {
  const n = Math.max(1, Math.floor((r.to - r.from) / r.step) + 1);
  const out = new Float64Array(n);
  const band = Math.max(0, Math.round(r.halfWidth));
  for (let i = 0; i < n; i++) {
    const t = r.from + i * r.step;
    let sum = 0;
    for (let k = -band; k <= band; k++) sum += valueAt(film, r.x + t * r.dx - k * r.dy, r.y + t * r.dy + k * r.dx);
    out[i] = sum / (2 * band + 1);
  }
  return out;
}

/** Slope of a profile a sample, after a Gaussian of `sigma` samples; ends repeat. */
export function slopes(profile: Float64Array, sigma: number): Float64Array {
  const reach = Math.max(1, Math.ceil(3 * sigma));
  const weight = Float64Array.from({ length: reach + 1 }, (_, k) => k * Math.exp(-0.5 * (k / sigma) ** 2));
  const norm = weight.reduce((s, w, k) => s + 2 * k * w, 0);
  const n = profile.length;
  const at = (i: number) => profile[Math.min(n - 1, Math.max(0, i))] ?? 0;
  return Float64Array.from({ length: n }, (_, i) => {
    let s = 0;
    for (let k = 1; k <= reach; k++) s += (weight[k] ?? 0) * (at(i + k) - at(i - k));
    return s / norm;
  });
}

/** A crest of a curve: where it lies in samples, between them, and how high it is there. */
export interface Crest {
  readonly at: number;
  readonly height: number;
}

/** Local maxima above zero, in order, each placed between samples by the parabola through three. */
export function crests(curve: Float64Array): Crest[] {
  const found: Crest[] = [];
  for (let i = 1; i + 1 < curve.length; i++) {
    const [a, b, c] = [curve[i - 1] ?? 0, curve[i] ?? 0, curve[i + 1] ?? 0];
    if (!(b > 0 && b > a && b >= c)) continue;
    const bend = a - 2 * b + c;
    const shift = bend < 0 ? (0.5 * (a - c)) / bend : 0;
    found.push({ at: i + shift, height: b - 0.25 * (a - c) * shift });
  }
  return found;
}

/** Middle value of a list; 0 of an empty one. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? upper) + upper) / 2;
}
