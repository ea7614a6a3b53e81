import { point } from '@gapline/core/plane/point.ts';
import { type FilmPoint, type GreyFilm, valueAt } from './grey-film.ts';

/** A place on the middle line of a shaft with the directions there; unit vectors of the film. */
export interface Station {
  readonly at: FilmPoint;
  readonly along: { readonly x: number; readonly y: number };
  /** A quarter turn from `along`; the sides of the shaft are counted along it, side A negative. */
  readonly across: { readonly x: number; readonly y: number };
}

/** The film along a shaft, laid straight: one row a station, columns across. */
export interface ShaftStrip {
  readonly stations: readonly Station[];
  /** Grey, row by row. */
  readonly values: Float32Array;
  readonly width: number;
  /** Pixels of the film between two columns. The middle column lies on the middle line. */
  readonly stepPx: number;
}

const unit = (x: number, y: number) => {
  const l = Math.hypot(x, y);
  return l > 0 ? { x: x / l, y: y / l } : { x: 0, y: 1 };
};

/** Stations evenly along a straight line, both ends among them where the length allows. */
export function straightStations(near: FilmPoint, far: FilmPoint, everyPx: number): Station[] {
  const along = unit(far.x - near.x, far.y - near.y);
  const n = Math.floor(Math.hypot(far.x - near.x, far.y - near.y) / everyPx) + 1;
  return Array.from({ length: n }, (_, i) => ({
    at: point('film', near.x + i * everyPx * along.x, near.y + i * everyPx * along.y),
    along,
    across: { x: -along.y, y: along.x },
  }));
}

/** Stations along a bowed middle line: at each, the direction is that of the line over `reach` stations to either side. */
export function bowedStations(middles: readonly FilmPoint[], reach: number): Station[] {
  return middles.map((at, i) => {
    const a = middles[Math.max(0, i - reach)] ?? at;
    const b = middles[Math.min(middles.length - 1, i + reach)] ?? at;
    const along = unit(b.x - a.x, b.y - a.y);
    return { at, along, across: { x: -along.y, y: along.x } };
  });
}

/**
 * Reads the strip: `reachPx` to either side every `stepPx`, each value the mean over `bandPx` along the shaft to either
 * side of the station, so that neighbouring rows just meet.
 */
export function shaftStrip(
  film: GreyFilm,
  stations: readonly Station[],
  { reachPx, stepPx, bandPx }: { reachPx: number; stepPx: number; bandPx: number },
): ShaftStrip {
  const half = Math.floor(reachPx / stepPx);
  const width = 2 * half + 1;
  const values = new Float32Array(width * stations.length);
  const band = Math.max(0, Math.floor(bandPx));
  stations.forEach(({ at, along, across }, row) => {
    for (let c = 0; c < width; c++) {
      const t = (c - half) * stepPx;
      const [x, y] = [at.x + t * across.x, at.y + t * across.y];
      let sum = 0;
      for (let k = -band; k <= band; k++) sum += valueAt(film, x + k * along.x, y + k * along.y);
      values[row * width + c] = sum / (2 * band + 1);
    }
  });
  return { stations, values, width, stepPx };
}

/** Film place of a place on the strip; `column` may lie between two. */
export function onStrip({ stations, width, stepPx }: ShaftStrip, row: number, column: number): FilmPoint {
  const s = stations[row];
  if (!s) throw new RangeError(`the strip has no row ${row}`);
  const t = (column - (width - 1) / 2) * stepPx;
  return point('film', s.at.x + t * s.across.x, s.at.y + t * s.across.y);
}
