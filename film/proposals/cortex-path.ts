/** What a column of the strip would be worth as a wall, row by row, counted outwards from the middle line. */
export interface WallWorth {
  /** Rise of grey outwards: canal to cortex. */
  readonly inner: Float32Array;
  /** Fall of grey outwards: cortex to soft tissue. */
  readonly outer: Float32Array;
  readonly rows: number;
  /** Columns from the middle line outwards. */
  readonly reach: number;
}

export interface CortexLimits {
  /** Least and greatest distance of the inner wall from the middle line, columns. */
  readonly inner: { readonly least: number; readonly most: number };
  /** Least and greatest thickness of the cortex, columns. */
  readonly thickness: { readonly least: number; readonly most: number };
  /** What a step of one column costs, of the inner wall or of the thickness. */
  readonly stepCost: number;
}

/** The two walls of one cortex, columns from the middle line at each row. */
export interface CortexPath {
  readonly inner: Int32Array;
  readonly outer: Int32Array;
  readonly worth: number;
}

/** Columns by which the inner wall or the thickness may change from row to row, the ways that this leaves, and the one that stays. */
const STEPS = 2;
const WAYS = 2 * STEPS + 1;
const STAY = WAYS * STEPS + STEPS;

/**
 * The pair of walls of one side that together are worth most, moving by at most two columns a row (minimal path by dynamic
 * programming; Bellman 1957). Inner wall and thickness are sought together, so that an edge that has no partner, skin or
 * the near side of the fibula, loses against a cortex. Of equal paths the inner and thinner one. Null when no pair fits in.
 */
export function cortexPath(walls: WallWorth, limits: CortexLimits): CortexPath | null {
  const { rows, reach } = walls;
  const i0 = limits.inner.least;
  const ni = Math.min(limits.inner.most, reach - 1 - limits.thickness.least) - i0 + 1;
  const t0 = limits.thickness.least;
  const nt = limits.thickness.most - t0 + 1;
  if (ni < 1 || nt < 1 || rows < 1) return null;
  const states = ni * nt;
  const came = new Uint8Array(rows * states);
  let before = new Float32Array(states);
  let now = new Float32Array(states);
  for (let row = 0; row < rows; row++) {
    for (let a = 0; a < ni; a++)
      for (let b = 0; b < nt; b++) {
        const s = a * nt + b;
        const outer = i0 + a + t0 + b;
        if (outer >= reach) {
          now[s] = Number.NEGATIVE_INFINITY;
          continue;
        }
        const own = (walls.inner[row * reach + i0 + a] ?? 0) + (walls.outer[row * reach + outer] ?? 0);
        const from = row === 0 ? { worth: 0, step: STAY } : bestBefore(before, { a, b, ni, nt, cost: limits.stepCost });
        now[s] = own + from.worth;
        came[row * states + s] = from.step;
      }
    [before, now] = [now, before];
  }
  return walkedBack(before, came, { rows, i0, t0, nt });
}

function bestBefore(
  before: Float32Array,
  { a, b, ni, nt, cost }: { a: number; b: number; ni: number; nt: number; cost: number },
): { worth: number; step: number } {
  let worth = Number.NEGATIVE_INFINITY;
  let step = STAY;
  for (let da = -STEPS; da <= STEPS; da++) {
    if (a + da < 0 || a + da >= ni) continue;
    for (let db = -STEPS; db <= STEPS; db++) {
      if (b + db < 0 || b + db >= nt) continue;
      const w = (before[(a + da) * nt + b + db] ?? Number.NEGATIVE_INFINITY) - cost * (Math.abs(da) + Math.abs(db));
      if (w > worth) [worth, step] = [w, WAYS * (da + STEPS) + db + STEPS];
    }
  }
  return { worth, step };
}

function walkedBack(
  last: Float32Array,
  came: Uint8Array,
  { rows, i0, t0, nt }: { rows: number; i0: number; t0: number; nt: number },
): CortexPath | null {
  let s = 0;
  for (let k = 1; k < last.length; k++) if ((last[k] ?? 0) > (last[s] ?? 0)) s = k;
  const worth = last[s] ?? Number.NEGATIVE_INFINITY;
  if (!Number.isFinite(worth)) return null;
  const inner = new Int32Array(rows);
  const outer = new Int32Array(rows);
  for (let row = rows - 1; row >= 0; row--) {
    const a = Math.floor(s / nt);
    const b = s - a * nt;
    inner[row] = i0 + a;
    outer[row] = i0 + a + t0 + b;
    const step = came[row * last.length + s] ?? STAY;
    s = (a + Math.floor(step / WAYS) - STEPS) * nt + b + (step % WAYS) - STEPS;
  }
  return { inner, outer, worth };
}
