import type { ConstraintLevel, Insert } from '../../catalogue/catalogue.ts';
import { levelRank } from '../../constraint/least-constraint.ts';
import { charge } from '../price.ts';
import type { Choice } from './choices.ts';
import type { PreparedFemur, PreparedTray } from './prepare.ts';
import type { PosteriorChoice, Tables, TibialChoice } from './tables.ts';

export const NEVER = Number.POSITIVE_INFINITY;

/** A tray with one insert for one femur at one level: everything that is charged but the three lengths. */
export interface Joint {
  readonly tray: PreparedTray;
  readonly insert: Insert;
  /** Blocks under the tray, cheapest bottom first. */
  readonly choices: readonly TibialChoice[];
  /** Width and fixation of the tibia without and with blocks. */
  readonly plain: number;
  readonly loaded: number;
  /** Lower bound of all that. */
  readonly least: number;
}

/** One femur at one level with all that may join it. */
export interface Node {
  readonly level: ConstraintLevel;
  readonly femur: PreparedFemur;
  /** Level, differences that no part changes, width of the femur. */
  readonly fixed: number;
  /** Lower bound of what is charged on the differences of J, q and K. */
  readonly tied: number;
  /** Fixation of the femur without and with augments or coupler. */
  readonly plain: number;
  readonly loaded: number;
  readonly distal: readonly Choice[];
  readonly posterior: readonly PosteriorChoice[];
  readonly joints: readonly Joint[];
  readonly least: number;
}

/** Sets the lower bound of a joint. */
export const jointOf = (joint: Omit<Joint, 'least'>): Joint => ({
  ...joint,
  least: Math.min(joint.plain, joint.loaded) + (joint.choices[0]?.bottom.value ?? NEVER),
});

/** Sets the lower bound of a node. */
export const nodeOf = (node: Omit<Node, 'least'>): Node => ({
  ...node,
  least:
    node.fixed +
    node.tied +
    Math.min(node.plain, node.loaded) +
    (node.distal[0]?.bottom.value ?? NEVER) +
    (node.posterior[0]?.bottom.value ?? NEVER) +
    (node.joints[0]?.least ?? NEVER),
});

/** What is charged at a level whatever the parts: constraint above the least, and differences that no part changes. */
export function alwaysCharged({ question }: Tables, level: ConstraintLevel): number {
  const { bounds, prices, state } = question;
  const { extensionLaxityMm: e, flexionLaxityMm: f } = state;
  const rank = levelRank(level);
  if (rank < bounds.leastRank) return NEVER;
  return (
    charge(rank - bounds.leastRank, prices.constraint) +
    charge(e.lateral - e.medial, prices['difference-extension']) +
    charge(f.lateral - f.medial, prices['difference-flexion'])
  );
}

/** Lower bound of what is charged on the differences at a level, whatever the slope. */
export function leastTied(tables: Tables, level: ConstraintLevel): number {
  return tables.question.prepared.catalogue.limits.slopeDeg.reduce((least, slope) => {
    const ties = tables.ties(level, slope);
    return ties ? Math.min(least, ties.jLessKBottom.value + ties.qLessKBottom.value + ties.qLessJBottom.value) : least;
  }, NEVER);
}

function jointsOf(tables: Tables, femur: PreparedFemur, level: ConstraintLevel): Joint[] {
  const { leastPolyethyleneMm } = tables.question.bounds;
  return femur.bearings[level]
    .flatMap(({ tray, inserts }): Joint[] => {
      const width = tables.width(tray.tray.widthMm, 'tray');
      if (width === NEVER) return [];
      const { plain, loaded } = tables.fixations(tray, level);
      const cost = { plain: width + (plain?.cost ?? NEVER), loaded: width + (loaded?.cost ?? NEVER) };
      return inserts
        .filter((insert) => insert.leastPolyethyleneMm >= leastPolyethyleneMm)
        .map((insert) => jointOf({ tray, insert, choices: tables.tibial(tray, insert), ...cost }));
    })
    .filter((joint) => joint.least < NEVER)
    .sort((a, b) => a.least - b.least);
}

/** Every femur that keeps the limits at a level. */
export function nodesOf(tables: Tables, level: ConstraintLevel): Node[] {
  const { prepared, state } = tables.question;
  const always = alwaysCharged(tables, level);
  const tied = leastTied(tables, level);
  if (always + tied === NEVER) return [];
  return prepared.femurs[state.side].flatMap((femur) => {
    const fixed = always + tables.width(femur.femur.widthMm, 'femur');
    if (fixed === NEVER) return [];
    const { plain, loaded } = tables.fixations(femur, level);
    const fix = { plain: plain?.cost ?? NEVER, loaded: loaded?.cost ?? NEVER };
    const distal = tables.distal(femur);
    const posterior = tables.posterior(femur);
    if (distal.length === 0 || posterior.length === 0 || Math.min(fix.plain, fix.loaded) === NEVER) return [];
    const node = nodeOf({
      level,
      femur,
      fixed,
      tied,
      ...fix,
      distal,
      posterior,
      joints: jointsOf(tables, femur, level),
    });
    return node.least < NEVER ? [node] : [];
  });
}
