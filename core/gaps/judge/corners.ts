import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import { meeting, meetsBox, type Plane } from './planes.ts';
import { ANGLES } from './profile.ts';
import { NEVER, out, TOLERANCE, type Trial, type W, weigh } from './trial.ts';

/** What hangs on one length alone: where its cost bends, and the cost, infinite beyond the limits. */
export interface Own {
  readonly bends: readonly number[];
  readonly cost: (x: number) => number;
}

/** One choice of parts: what is left is J, q and K. */
export interface Choice {
  readonly level: ConstraintLevel;
  readonly j: Own;
  readonly q: Own;
  readonly k: Own;
  /** What slope opens at 90 degrees, and the shape at each angle of mid-flexion, mm. */
  readonly opens: number;
  readonly looser: readonly number[];
}

export interface Least {
  readonly cost: number;
  /** Share of the arc of motion. */
  readonly arc: number;
}

const OPENING = { ps: 5, vvc: 10, hinge: 1e9 } as const;
const MORE_IN_FLEXION = { ps: 4, vvc: 8, hinge: 1e9 } as const;

/**
 * The least cost of one choice of parts. The cost is a sum of hinges in J, q, K, in J - K, q - K, q - J, and for the
 * arc in J cos t + q sin t - K. Such a sum is least at a corner: a point where three independent planes meet on which
 * it bends. So every such point is tried; those of the arc only where the cost without the arc leaves it open.
 */
export class Corners {
  private readonly c: Choice;
  private readonly e: readonly [number, number];
  private readonly f: readonly [number, number];
  private readonly w: Readonly<Record<'em' | 'el' | 'fm' | 'fl' | 'fe' | 'arc', W>>;
  private readonly J: readonly number[];
  private readonly Q: readonly number[];
  private readonly K: readonly number[];
  /** Laxity at each angle and side is `cos J + sin q - K` and this, mm. */
  private readonly along: readonly (readonly [number, number, number])[][];
  private least: Least = { cost: NEVER, arc: 0 };

  constructor(t: Trial, c: Choice) {
    this.c = c;
    const { extensionLaxityMm: e, flexionLaxityMm: f } = t.state;
    this.e = [e.medial, e.lateral];
    this.f = [f.medial + c.opens, f.lateral + c.opens];
    this.w = {
      em: weigh(t, 'laxity-extension-medial'),
      el: weigh(t, 'laxity-extension-lateral'),
      fm: weigh(t, 'laxity-flexion-medial'),
      fl: weigh(t, 'laxity-flexion-lateral'),
      fe: weigh(t, 'flexion-extension'),
      arc: weigh(t, 'arc'),
    };
    const possible = (own: Own) => [...new Set(own.bends)].filter((x) => own.cost(x) < 1e9);
    this.J = possible(c.j);
    this.Q = possible(c.q);
    this.K = possible(c.k);
    this.along = [0, 1].map((side) =>
      ANGLES.map((deg, i) => {
        const r = (deg * Math.PI) / 180;
        const from = this.e[side] as number;
        const to = this.f[side] as number;
        return [Math.cos(r), Math.sin(r), from + ((to - from) * deg) / 90 + (c.looser[i] ?? 0)] as const;
      }),
    );
  }

  private arcAt(j: number, q: number, k: number): number {
    let sum = 0;
    for (const side of this.along) {
      let worst = 0;
      for (const [cos, sin, at] of side) worst = Math.max(worst, out(cos * j + sin * q - k + at, this.w.arc));
      sum += worst;
    }
    return sum;
  }

  /** All but the arc. */
  private straightAt(j: number, q: number, k: number): number {
    const { e, f, w, c } = this;
    const more = (f[0] + f[1] - e[0] - e[1]) / 2 + q - j;
    if (Math.max(e[0], e[1]) + j - k > OPENING[c.level] + TOLERANCE) return NEVER;
    if (more > MORE_IN_FLEXION[c.level] + TOLERANCE) return NEVER;
    const tied =
      out(e[0] + j - k, w.em) +
      out(e[1] + j - k, w.el) +
      out(f[0] + q - k, w.fm) +
      out(f[1] + q - k, w.fl) +
      out(more, w.fe);
    // What costs as much as the best point already cannot better it: the rest need not be added up.
    const withJ = tied + (tied < this.least.cost ? c.j.cost(j) : NEVER);
    const withQ = withJ + (withJ < this.least.cost ? c.q.cost(q) : NEVER);
    return withQ + (withQ < this.least.cost ? c.k.cost(k) : NEVER);
  }

  private at(j: number, q: number, k: number): number {
    const straight = this.straightAt(j, q, k);
    if (straight < this.least.cost) {
      const arc = this.arcAt(j, q, k);
      if (straight + arc < this.least.cost) this.least = { cost: straight + arc, arc };
    }
    return straight;
  }

  /** Where the differences bend. */
  private differences() {
    const { e, f, w, c } = this;
    const more = (f[0] + f[1] - e[0] - e[1]) / 2;
    return {
      jk: [w.em.lo - e[0], w.em.hi - e[0], w.el.lo - e[1], w.el.hi - e[1], OPENING[c.level] - Math.max(e[0], e[1])],
      qk: [w.fm.lo - f[0], w.fm.hi - f[0], w.fl.lo - f[1], w.fl.hi - f[1]],
      qj: [w.fe.lo - more, w.fe.hi - more, MORE_IN_FLEXION[c.level] - more],
    };
  }

  /** Every corner without the arc: the least cost without it, and with it the least of these points. */
  straight(): number {
    const { J, Q, K } = this;
    if (J.length === 0 || Q.length === 0 || K.length === 0) return NEVER;
    const { jk, qk, qj } = this.differences();
    let bound = NEVER;
    const at = (j: number, q: number, k: number) => {
      bound = Math.min(bound, this.at(j, q, k));
    };
    // Two lengths known: the third at a bend of its own or at one of a difference.
    const q3 = (j: number, k: number) => {
      for (const q of Q) at(j, q, k);
      for (const g of qj) at(j, j + g, k);
      for (const g of qk) at(j, k + g, k);
    };
    const k3 = (j: number, q: number) => {
      for (const k of K) at(j, q, k);
      for (const g of jk) at(j, q, j - g);
      for (const g of qk) at(j, q, q - g);
    };
    const j3 = (q: number, k: number) => {
      for (const j of J) at(j, q, k);
      for (const g of qj) at(q - g, q, k);
      for (const g of jk) at(k + g, q, k);
    };
    // The first at a bend of its own, the second at one of its own or tied to the first.
    for (const j of J) {
      for (const q of [...Q, ...qj.map((g) => j + g)]) k3(j, q);
      for (const g of jk) q3(j, j - g);
    }
    for (const q of Q) {
      for (const g of qj) k3(q - g, q);
      for (const k of [...K, ...qk.map((g) => q - g)]) j3(q, k);
    }
    for (const k of K) {
      for (const j of [...J, ...jk.map((g) => k + g)]) q3(j, k);
      for (const g of qk) j3(k + g, k);
    }
    return bound;
  }

  private planes(): { straight: Plane[]; arc: Plane[] } {
    const { jk, qk, qj } = this.differences();
    const straight: Plane[] = [
      ...this.J.map((d): Plane => [1, 0, 0, d]),
      ...this.Q.map((d): Plane => [0, 1, 0, d]),
      ...this.K.map((d): Plane => [0, 0, 1, d]),
      ...jk.map((d): Plane => [1, 0, -1, d]),
      ...qk.map((d): Plane => [0, 1, -1, d]),
      ...qj.map((d): Plane => [-1, 1, 0, d]),
    ];
    const { lo, hi } = this.w.arc;
    const arc: Plane[] = [];
    for (const side of this.along)
      side.forEach(([c, s, at], i) => {
        // One angle leaves its window; one angle becomes worse than another, on the same or on opposite sides of it.
        for (const edge of [lo, hi]) arc.push([c, s, -1, edge - at]);
        for (const [c2, s2, at2] of side.slice(i + 1))
          arc.push([c - c2, s - s2, 0, at2 - at], [c + c2, s + s2, -2, lo + hi - at - at2]);
      });
    const box = [this.J, this.Q, this.K].map((xs) => [Math.min(...xs), Math.max(...xs)] as const);
    const meets = (plane: Plane) => meetsBox(plane, box);
    return { straight: straight.filter(meets), arc: arc.filter(meets) };
  }

  /** Every corner that holds a plane of the arc. */
  private bent(): void {
    const { straight, arc } = this.planes();
    arc.forEach((p, i) => {
      const others = [...arc.slice(i + 1), ...straight];
      others.forEach((r, n) => {
        for (let m = n + 1; m < others.length; m++) {
          const corner = meeting(p, r, others[m] as Plane);
          if (corner) this.at(...corner);
        }
      });
    });
  }

  /** The least cost, given what `straight` gave and that no more than a ceiling is of interest. */
  all(bound: number, ceiling: number): Least {
    if (bound < ceiling && this.least.cost > bound + 1e-12) this.bent();
    return this.least;
  }

  get soFar(): Least {
    return this.least;
  }
}
