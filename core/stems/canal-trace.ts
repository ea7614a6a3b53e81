/** A point on a film, pixels: x = column, y = row. */
interface FilmPoint {
  readonly x: number;
  readonly y: number;
}

/** The walls of a canal at one level of one film: inner cortex on both sides, outer where seen. */
export interface CanalLevel {
  readonly innerA: FilmPoint;
  readonly innerB: FilmPoint;
  readonly outerA?: FilmPoint;
  readonly outerB?: FilmPoint;
}

/** The canal of one bone traced on one film, levels from the joint outwards. */
export interface CanalTrace {
  readonly bone: 'femur' | 'tibia';
  readonly film: string;
  readonly levels: readonly CanalLevel[];
  /** Standard deviation of marking a wall, mm in the patient; absent = the default of docs/rules/stems.md. */
  readonly sdMm?: number;
}
