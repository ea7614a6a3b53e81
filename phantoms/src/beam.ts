import { add, cross, dot, minus, type Point3, times } from './space.ts';

/** A point source and a flat detector, in mm of the room; pixels are counted from the centre of the first one. */
export interface Beam {
  readonly source: Point3;
  /** Centre of the detector. */
  readonly centre: Point3;
  /** Unit direction in which columns run, and in which rows run. */
  readonly along: Point3;
  readonly down: Point3;
  readonly spacingMm: number;
  readonly columns: number;
  readonly rows: number;
}

export interface Pixel {
  readonly x: number;
  readonly y: number;
}

/** Where the ray from the source through a point meets the detector, in pixels. */
export function projected(beam: Beam, p: Point3): Pixel {
  const normal = cross(beam.along, beam.down);
  const ray = minus(p, beam.source);
  const t = dot(minus(beam.centre, beam.source), normal) / dot(ray, normal);
  const hit = minus(add(beam.source, times(ray, t)), beam.centre);
  return {
    x: dot(hit, beam.along) / beam.spacingMm + (beam.columns - 1) / 2,
    y: dot(hit, beam.down) / beam.spacingMm + (beam.rows - 1) / 2,
  };
}

/** Magnification at a point: distance of the detector over distance of the point, both along the detector's normal. */
export function magnificationAt(beam: Beam, p: Point3): number {
  const normal = cross(beam.along, beam.down);
  return dot(minus(beam.centre, beam.source), normal) / dot(minus(p, beam.source), normal);
}

/** Room position of a pixel's centre. */
export const onDetector = (beam: Beam, column: number, row: number): Point3 =>
  add(
    beam.centre,
    add(
      times(beam.along, (column - (beam.columns - 1) / 2) * beam.spacingMm),
      times(beam.down, (row - (beam.rows - 1) / 2) * beam.spacingMm),
    ),
  );

/** The same beam on a detector of coarser pixels that cover the same area. */
export function coarser(beam: Beam, factor: number): Beam {
  const columns = Math.ceil(beam.columns / factor);
  const rows = Math.ceil(beam.rows / factor);
  const shift = (n: number, m: number) => ((m * factor - n) / 2) * beam.spacingMm;
  return {
    ...beam,
    columns,
    rows,
    spacingMm: beam.spacingMm * factor,
    centre: add(
      beam.centre,
      add(times(beam.along, shift(beam.columns, columns)), times(beam.down, shift(beam.rows, rows))),
    ),
  };
}
