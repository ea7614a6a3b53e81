import { CONSTRAINT_LEVELS, type ConstraintLevel, type Insert } from '../../catalogue/catalogue.ts';
import type { Choice } from './choices.ts';
import { leastOver } from './hinges.ts';
import { type Joint, jointOf, NEVER, type Node, nodeOf } from './nodes.ts';
import { type Found, precedes, SAME_COST } from './order.ts';
import type { PreparedFemur } from './prepare.ts';
import type { PosteriorChoice, Tables, TibialChoice } from './tables.ts';
import type { Ties } from './ties.ts';

/** Restricts the search to constructs of one kind; what is absent is free. */
export interface Kind {
  readonly femur?: (femur: PreparedFemur) => boolean;
  readonly level?: (level: ConstraintLevel) => boolean;
  readonly insert?: (insert: Insert) => boolean;
  readonly distal?: (choice: Choice) => boolean;
  readonly posterior?: (choice: PosteriorChoice) => boolean;
  readonly blocks?: (choice: Choice) => boolean;
}

/** Whether a construct is of this kind. */
export const isOfKind = (f: Found, kind: Kind): boolean =>
  kind.femur?.(f.femur) !== false &&
  kind.level?.(f.level) !== false &&
  kind.insert?.(f.insert) !== false &&
  kind.distal?.(f.distal) !== false &&
  kind.posterior?.(f.posterior) !== false &&
  kind.blocks?.(f.tibial.blocks) !== false;

/** What is already known when a search begins. */
export interface Known {
  /** Constructs found before; the best of the kind is where the search starts from. */
  readonly found?: readonly Found[];
  /** Dearer constructs than this are not wanted. */
  readonly ceiling?: number;
}

/**
 * Branch and bound over the small tables (docs/decisions/solver.md): levels, then femurs, then pairs of distal and of
 * posterior augments, then tray, insert and blocks. Every branch has a lower bound, the sum of the bottoms of its
 * hinges; only what could still beat the best is settled exactly.
 */
export class Search {
  private readonly tables: Tables;
  private readonly kind: Kind;
  private readonly ceiling: number;
  private best: Found | null = null;
  /** How many choices of parts had to be settled; the rest fell to their lower bounds. */
  settled = 0;

  constructor(tables: Tables, kind: Kind = {}, known: Known = {}) {
    this.tables = tables;
    this.kind = kind;
    this.ceiling = known.ceiling ?? NEVER;
    for (const found of known.found ?? []) if (isOfKind(found, kind)) this.offer(found);
  }

  /** The exact least construct of this kind, or null where none keeps the limits. */
  run(): Found | null {
    for (const level of CONSTRAINT_LEVELS) {
      if (this.kind.level?.(level) === false || !this.worth(this.tables.leastAt(level))) continue;
      const nodes = this.tables
        .nodesAt(level)
        .flatMap((node) => this.ofKind(node) ?? [])
        .sort((a, b) => a.least - b.least);
      for (const node of nodes) if (this.worth(node.least)) this.visit(node);
    }
    return this.best;
  }

  private worth(least: number): boolean {
    return least < NEVER && least <= Math.min(this.ceiling, this.best?.cost ?? NEVER) + SAME_COST;
  }

  private offer(found: Found): void {
    if (!this.best || precedes(found, this.best, this.tables.question)) this.best = found;
  }

  /** The node without what is not of the kind; null where nothing is left, or where it is too dear anyhow. */
  private ofKind(node: Node): Node | null {
    const { kind } = this;
    if (kind.femur?.(node.femur) === false || !this.worth(node.least)) return null;
    if (!(kind.distal || kind.posterior || kind.insert || kind.blocks)) return node;
    const { distal: d, posterior: p, blocks: b } = kind;
    const distal = d ? node.distal.filter((c) => d(c)) : node.distal;
    const posterior = p ? node.posterior.filter((c) => p(c)) : node.posterior;
    const joints = node.joints
      .filter(({ insert }) => kind.insert?.(insert) !== false)
      .map((joint) => (b ? jointOf({ ...joint, choices: joint.choices.filter((c) => b(c.blocks)) }) : joint))
      .filter((joint) => joint.least < NEVER)
      .sort((x, y) => x.least - y.least);
    const left = nodeOf({ ...node, distal, posterior, joints });
    return left.least < NEVER ? left : null;
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
    const settled = this.tables.settled(distal, posterior, { tibial, ties });
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
    this.offer(found);
  }
}
