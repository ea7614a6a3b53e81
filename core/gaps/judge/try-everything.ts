import type { Insert } from '../../catalogue/catalogue.ts';
import { slopesOf, takesInsert } from './by-hand.ts';
import { Corners } from './corners.ts';
import { type FemoralBody, femoralBodies } from './femoral-bodies.ts';
import { holdings } from './holding.ts';
import { placed, trayCouplers } from './place.ts';
import { profileOf } from './profile.ts';
import { bearing, type TibialBody, tibialBodies } from './tibial-bodies.ts';
import { type Held, leastRank, NEVER, out, RANK, type Trial, type Verdict, weigh } from './trial.ts';

export type { Trial, Verdict } from './trial.ts';

/**
 * The judge of the solver: writes the cost down once more from the specification and tries every combination of
 * parts, lengths, slopes, couplers and ways to hold each bone, each at every point where its cost could be least. It
 * shares no code with what it judges (types only), and takes its time.
 */
interface Parts {
  readonly femoral: FemoralBody;
  readonly tibial: TibialBody;
  readonly insert: Insert;
  readonly held: { readonly femur: Held; readonly tibia: HeldTibia };
  /** What is charged whatever the three lengths. */
  readonly fixed: number;
}

/** How the tibia is held, what it costs with the place of the tray, and the coupler between. */
interface HeldTibia extends Held {
  readonly coupler: string | null;
}

interface Combination extends Parts {
  /** Least cost without the arc of motion. */
  readonly bound: number;
  readonly corners: Corners;
}

function joins(t: Trial, femoral: FemoralBody, rest: { tibial: TibialBody; insert: Insert }): boolean {
  const { femurInsert, insertTray, femurTray } = t.catalogue.compatibility;
  const { tibial, insert } = rest;
  return (
    femoral.levels.includes(insert.level) &&
    tibial.levels.includes(insert.level) &&
    femurInsert.some((r) => r.femurSize === femoral.size && r.insertSize === insert.size && r.level === insert.level) &&
    insertTray.some((r) => r.insertSize === insert.size && r.traySize === tibial.size) &&
    femurTray.some((r) => r.femurSize === femoral.size && r.traySize === tibial.size)
  );
}

const cheapestOfEachFlexion = (held: readonly Held[]): readonly Held[] =>
  held.filter((a, i) =>
    held.every((b, n) => a.flexionDeg !== b.flexionDeg || a.cost < b.cost || (a.cost === b.cost && i <= n)),
  );

class Everything {
  tried = 0;
  best: Verdict | null = null;
  private readonly t: Trial;
  private readonly parts: Parts[] = [];
  private readonly open: Combination[] = [];

  constructor(t: Trial) {
    this.t = t;
  }

  private get ceiling(): number {
    return this.best?.cost ?? NEVER;
  }

  private note(c: Parts, least: { cost: number; arc: number }): void {
    const cost = c.fixed + least.cost;
    if (!(cost < this.ceiling)) return;
    this.best = {
      cost,
      arc: least.arc,
      level: c.insert.level,
      femur: c.femoral.ref,
      tray: c.tibial.ref,
      femoral: c.held.femur,
      tibial: c.held.tibia,
      trayCoupler: c.held.tibia.coupler,
      tried: 0,
    };
  }

  /** One femoral choice held in one way, with one tibial choice and one insert, at every slope. */
  private combine(parts: Parts): void {
    const { state } = this.t;
    const { femoral, tibial, insert, held, fixed } = parts;
    const slopes = slopesOf(this.t);
    this.tried += slopes.length;
    if (fixed > this.ceiling) return;
    const { looser, back } = profileOf(this.t, femoral.outlines, held.femur.flexionDeg);
    const rad = Math.PI / 180;
    for (const slope of slopes) {
      const corners = new Corners(this.t, {
        level: insert.level,
        j: femoral.j,
        q: femoral.q(back),
        k: bearing(this.t, tibial, insert.heightMm),
        opens: state.flexionContactBehindMm * (Math.tan(slope * rad) - Math.tan(state.referenceSlopeDeg * rad)),
        looser,
      });
      const bound = corners.straight();
      if (bound === NEVER) continue;
      this.open.push({ ...parts, bound: fixed + bound, corners });
      this.note(parts, corners.soFar);
    }
  }

  private join(femoral: FemoralBody, tibial: TibialBody, insert: Insert): void {
    const { state, leastPolyethyleneMm } = this.t;
    const rank = RANK[insert.level];
    const needs = leastRank(state);
    if (insert.leastPolyethyleneMm < leastPolyethyleneMm || rank < needs) return;
    const w = (id: string) => weigh(this.t, id);
    const { extensionLaxityMm: e, flexionLaxityMm: f } = state;
    const fixed =
      femoral.fixed +
      tibial.fixed +
      out(insert.labelMm, w('insert-thick')) +
      out(insert.labelMm, w('insert-very-thick')) +
      out(rank - needs, w('constraint')) +
      out(e.lateral - e.medial, w('difference-extension')) +
      out(f.lateral - f.medial, w('difference-flexion'));
    const { size, augmented, coupler, boxMm, segment } = femoral;
    const ofTibia = this.tibiae(tibial, rank);
    const ofFemur = holdings(this.t, { bone: 'femur', size, rank, augmented, coupler, boxMm, segment });
    // How a bone is held meets the rest through the flexion of the femur alone: of those that flex alike the cheapest.
    const [tibia] = ofTibia.toSorted((a, b) => a.cost - b.cost);
    if (tibia && tibia.cost < NEVER)
      for (const femur of cheapestOfEachFlexion(ofFemur))
        this.parts.push({ femoral, tibial, insert, held: { femur, tibia }, fixed: fixed + femur.cost + tibia.cost });
  }

  /** Every way to hold the tibia with every coupler, and what it costs where it sets the tray. */
  private tibiae(body: TibialBody, rank: number): HeldTibia[] {
    const { size, augmented, segment } = body;
    const couplers = segment ? [] : trayCouplers(this.t, size);
    return [null, ...couplers].flatMap((coupler) => {
      const standing = { bone: 'tibia' as const, size, rank, augmented, coupler: coupler !== null, boxMm: 0, segment };
      return holdings(this.t, standing).map((held) => ({
        ...held,
        cost: held.cost + (segment ? 0 : placed(this.t, body, { stem: held.stem, coupler })),
        coupler: coupler?.ref ?? null,
      }));
    });
  }

  run(): Verdict | null {
    const femora = femoralBodies(this.t);
    const tibiae = tibialBodies(this.t);
    for (const femoral of femora)
      for (const tibial of tibiae)
        for (const insert of this.t.catalogue.inserts)
          if (takesInsert(this.t, insert) && joins(this.t, femoral, { tibial, insert }))
            this.join(femoral, tibial, insert);
    for (const parts of this.parts.sort((a, b) => a.fixed - b.fixed)) this.combine(parts);
    // The arc can only add: a combination that is dearer without it need not be settled with it.
    for (const c of this.open.sort((a, b) => a.bound - b.bound)) {
      if (c.bound >= this.ceiling) break;
      this.note(c, c.corners.all(c.bound - c.fixed, this.ceiling - c.fixed));
    }
    return this.best && { ...this.best, tried: this.tried };
  }
}

/** The least cost of all combinations, or null where none keeps the limits; and how many were tried. */
export const tryEverything = (trial: Trial): Verdict | null => new Everything(trial).run();
