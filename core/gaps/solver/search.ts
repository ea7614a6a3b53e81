import { CONSTRAINT_LEVELS, type ConstraintLevel, type Insert } from '../../catalogue/catalogue.ts';
import { levelRank } from '../../constraint/least-constraint.ts';
import { charge } from '../price.ts';
import type { Choice } from './choices.ts';
import { leastOver } from './hinges.ts';
import type { PreparedFemur, PreparedTray } from './prepare.ts';
import { type Settled, settle } from './settle.ts';
import type { PosteriorChoice, Tables, TibialChoice } from './tables.ts';
import type { Ties } from './ties.ts';

/** A full choice of parts and where it settles. */
export interface Found {
  readonly level: ConstraintLevel;
  readonly femur: PreparedFemur;
  readonly tray: PreparedTray;
  readonly insert: Insert;
  readonly slopeDeg: number;
  readonly distal: Choice;
  readonly posterior: PosteriorChoice;
  readonly tibial: TibialChoice;
  readonly settled: Settled;
  readonly cost: number;
}

/** Restricts the search to constructs of one kind; what is absent is free. */
export interface Kind {
  readonly femur?: (femur: PreparedFemur) => boolean;
  readonly level?: (level: ConstraintLevel) => boolean;
  readonly insert?: (insert: Insert) => boolean;
  readonly distal?: (choice: Choice) => boolean;
  readonly posterior?: (choice: PosteriorChoice) => boolean;
  readonly blocks?: (choice: Choice) => boolean;
}

/** Costs closer than this are equal, and the stated order decides. */
const SAME_COST = 1e-9;

/**
 * Order among equal costs (GAP-20): less constraint, fewer augments, thinner augments, thinner insert, smaller
 * offset, slope nearer the reference, then the catalogue's own order, the medial side first.
 */
function order(f: Found, referenceSlopeDeg: number): readonly number[] {
  return [
    levelRank(f.level),
    f.distal.augments + f.posterior.augments + f.tibial.blocks.augments,
    f.distal.thicknessMm + f.posterior.thicknessMm + f.tibial.blocks.thicknessMm,
    f.insert.labelMm,
    f.posterior.coupler?.offsetMm ?? 0,
    Math.abs(f.slopeDeg - referenceSlopeDeg),
    f.slopeDeg,
    f.femur.index,
    f.tray.index,
    f.distal.medial,
    f.posterior.medial,
    f.tibial.blocks.medial,
  ];
}

function precedes(a: Found, b: Found, referenceSlopeDeg: number): boolean {
  if (Math.abs(a.cost - b.cost) > SAME_COST) return a.cost < b.cost;
  const x = order(a, referenceSlopeDeg);
  const y = order(b, referenceSlopeDeg);
  const at = x.findIndex((v, i) => v !== y[i]);
  return at >= 0 && (x[at] as number) < (y[at] as number);
}

/** A tray with one insert at one level for one femur: everything that is charged but the three lengths. */
interface Joint {
  readonly tray: PreparedTray;
  readonly insert: Insert;
  readonly choices: readonly TibialChoice[];
  readonly plain: number;
  readonly loaded: number;
  readonly least: number;
}

interface Node {
  readonly level: ConstraintLevel;
  readonly femur: PreparedFemur;
  readonly fixed: number;
  readonly plain: number;
  readonly loaded: number;
  readonly distal: readonly Choice[];
  readonly posterior: readonly PosteriorChoice[];
  readonly joints: readonly Joint[];
  readonly least: number;
}

const NEVER = Number.POSITIVE_INFINITY;

export class Search {
  private readonly tables: Tables;
  private readonly kind: Kind;
  private best: Found | null = null;
  /** How many choices of parts had to be settled; the rest fell to their lower bounds. */
  settled = 0;

  constructor(tables: Tables, kind: Kind = {}) {
    this.tables = tables;
    this.kind = kind;
  }

  /** The exact least construct of this kind, or null where none keeps the limits. */
  run(): Found | null {
    const nodes = CONSTRAINT_LEVELS.flatMap((level) => this.nodesAt(level)).sort((a, b) => a.least - b.least);
    for (const node of nodes) if (this.worth(node.least)) this.visit(node);
    return this.best;
  }

  private worth(least: number): boolean {
    return least < NEVER && (this.best === null || least <= this.best.cost + SAME_COST);
  }

  private nodesAt(level: ConstraintLevel): Node[] {
    const { prepared, bounds, prices, state } = this.tables.question;
    const rank = levelRank(level);
    if (rank < bounds.leastRank || this.kind.level?.(level) === false) return [];
    const e = state.extensionLaxityMm;
    const f = state.flexionLaxityMm;
    const always =
      charge(rank - bounds.leastRank, prices.constraint) +
      charge(e.lateral - e.medial, prices['difference-extension']) +
      charge(f.lateral - f.medial, prices['difference-flexion']);
    const ties = prepared.catalogue.limits.slopeDeg.flatMap((slope) => this.tables.ties(level, slope) ?? []);
    if (ties.length === 0) return [];
    const tied = Math.min(...ties.map((t) => t.jLessKBottom.value + t.qLessKBottom.value + t.qLessJBottom.value));
    return prepared.femurs[state.side]
      .filter((femur) => this.kind.femur?.(femur) !== false)
      .flatMap((femur) => this.node(level, femur, always, tied) ?? []);
  }

  private node(level: ConstraintLevel, femur: PreparedFemur, always: number, tied: number): Node | null {
    const fixed = always + this.tables.width(femur.femur.widthMm, 'femur');
    if (fixed === NEVER) return null;
    const { plain, loaded } = this.tables.fixations(femur, level);
    const fix = { plain: plain?.cost ?? NEVER, loaded: loaded?.cost ?? NEVER };
    const distal = this.tables.distal(femur).filter((c) => this.kind.distal?.(c) !== false);
    const posterior = this.tables.posterior(femur).filter((c) => this.kind.posterior?.(c) !== false);
    const joints = this.joints(femur, level);
    const least =
      fixed +
      tied +
      Math.min(fix.plain, fix.loaded) +
      (distal[0]?.bottom.value ?? NEVER) +
      (posterior[0]?.bottom.value ?? NEVER) +
      (joints[0]?.least ?? NEVER);
    return least === NEVER ? null : { level, femur, fixed, ...fix, distal, posterior, joints, least };
  }

  private joints(femur: PreparedFemur, level: ConstraintLevel): Joint[] {
    const { bounds } = this.tables.question;
    return femur.bearings[level]
      .flatMap(({ tray, inserts }): Joint[] => {
        const width = this.tables.width(tray.tray.widthMm, 'tray');
        if (width === NEVER) return [];
        const { plain, loaded } = this.tables.fixations(tray, level);
        const cost = { plain: width + (plain?.cost ?? NEVER), loaded: width + (loaded?.cost ?? NEVER) };
        const cheapest = Math.min(cost.plain, cost.loaded);
        return inserts
          .filter((i) => i.leastPolyethyleneMm >= bounds.leastPolyethyleneMm && this.kind.insert?.(i) !== false)
          .map((insert) => {
            const all = this.tables.tibial(tray, insert);
            const choices = this.kind.blocks ? all.filter((c) => this.kind.blocks?.(c.blocks) !== false) : all;
            return { tray, insert, choices, ...cost, least: cheapest + (choices[0]?.bottom.value ?? NEVER) };
          });
      })
      .filter((joint) => joint.least < NEVER)
      .sort((a, b) => a.least - b.least);
  }

  private visit(node: Node): void {
    for (const slopeDeg of this.tables.question.prepared.catalogue.limits.slopeDeg) {
      const ties = this.tables.ties(node.level, slopeDeg);
      if (ties) this.visitSlope(node, ties, slopeDeg);
    }
  }

  private visitSlope(node: Node, ties: Ties, slopeDeg: number): void {
    const tiesToK = ties.jLessKBottom.value + ties.qLessKBottom.value;
    const leastJoint = node.joints[0]?.least ?? NEVER;
    const leastFix = Math.min(node.plain, node.loaded);
    const leastP = node.posterior[0]?.bottom.value ?? NEVER;
    for (const distal of node.distal) {
      const upToD = node.fixed + distal.bottom.value + leastJoint + tiesToK;
      if (!this.worth(upToD + leastFix + leastP + ties.qLessJBottom.value)) break;
      for (const posterior of node.posterior) {
        if (!this.worth(upToD + leastFix + posterior.bottom.value + ties.qLessJBottom.value)) break;
        const loaded = distal.augments + posterior.augments > 0 || posterior.coupler !== null;
        const fix = loaded ? node.loaded : node.plain;
        const { low, high } = distal.hinges;
        const tie = leastOver(ties.qLessJ, ties.qLessJBottom, {
          low: posterior.hinges.low - high,
          high: posterior.hinges.high - low,
        });
        const femoral = node.fixed + fix + distal.bottom.value + posterior.bottom.value + tie;
        if (this.worth(femoral + leastJoint + tiesToK))
          this.visitJoints({ node, ties, slopeDeg, distal, posterior, femoral, parts: node.fixed + fix });
      }
    }
  }

  private visitJoints(at: {
    node: Node;
    ties: Ties;
    slopeDeg: number;
    distal: Choice;
    posterior: PosteriorChoice;
    femoral: number;
    parts: number;
  }): void {
    const { ties, distal, posterior } = at;
    const tiesToK = ties.jLessKBottom.value + ties.qLessKBottom.value;
    for (const joint of at.node.joints) {
      if (!this.worth(at.femoral + joint.least + tiesToK)) break;
      for (const tibial of joint.choices) {
        const cost = tibial.blocks.augments > 0 ? joint.loaded : joint.plain;
        if (!this.worth(at.femoral + Math.min(joint.plain, joint.loaded) + tibial.bottom.value + tiesToK)) break;
        const { low, high } = tibial.hinges;
        const inExtension = leastOver(ties.jLessK, ties.jLessKBottom, {
          low: distal.hinges.low - high,
          high: distal.hinges.high - low,
        });
        const inFlexion = leastOver(ties.qLessK, ties.qLessKBottom, {
          low: posterior.hinges.low - high,
          high: posterior.hinges.high - low,
        });
        if (this.worth(at.femoral + cost + tibial.bottom.value + inExtension + inFlexion))
          this.settle({ ...at, joint, tibial, parts: at.parts + cost });
      }
    }
  }

  private settle(at: {
    node: Node;
    ties: Ties;
    slopeDeg: number;
    distal: Choice;
    posterior: PosteriorChoice;
    joint: Joint;
    tibial: TibialChoice;
    parts: number;
  }): void {
    this.settled++;
    const { ties, distal, posterior, tibial, joint, node } = at;
    const settled = settle({
      j: distal.hinges,
      q: posterior.hinges,
      k: tibial.hinges,
      jLessK: ties.jLessK,
      qLessK: ties.qLessK,
      qLessJ: ties.qLessJ,
    });
    if (!settled || !this.worth(at.parts + settled.cost)) return;
    const found: Found = {
      level: node.level,
      femur: node.femur,
      tray: joint.tray,
      insert: joint.insert,
      slopeDeg: at.slopeDeg,
      distal,
      posterior,
      tibial,
      settled,
      cost: at.parts + settled.cost,
    };
    if (!this.best || precedes(found, this.best, this.tables.question.state.referenceSlopeDeg)) this.best = found;
  }
}
