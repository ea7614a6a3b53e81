import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import { type ArcTerm, arcTermOf } from './arc-term.ts';
import { FemoralTables } from './femoral-tables.ts';
import { HoldMemory } from './hold-memory.ts';
import { flexionOf, heldBy, plainStance, type Stance, stancesOf, type WaysOf } from './holds.ts';
import type { Kind } from './kind.ts';
import type { PreparedFemur, PreparedTray } from './prepared.ts';
import type { Question } from './question.ts';
import { TibialTables } from './tibial-tables.ts';
import { type LevelTies, type Ties, tiesAt } from './ties.ts';
import { type TrayHolds, trayHolds } from './tray-holds.ts';
import { waysByHand } from './ways-by-hand.ts';

/** A table for each level of constraint. */
const byLevel = <T>(): Record<ConstraintLevel, T[]> => ({ ps: [], vvc: [], hinge: [] });

/**
 * The small tables into which the minimum splits for one bone state: those of the femur, those of the tibia, and here what
 * holds both and what ties them. Each is built when first asked for and kept.
 */
export class Tables {
  readonly question: Question;
  readonly femur: FemoralTables;
  readonly tibia: TibialTables;
  private readonly plainTable = byLevel<readonly Stance[]>();
  private readonly stanceTable = byLevel<readonly Stance[]>();
  private readonly trayTable = byLevel<TrayHolds>();
  private readonly tieTable: Partial<Record<ConstraintLevel, LevelTies>> = {};
  private readonly ways: WaysOf;

  constructor(question: Question) {
    this.question = question;
    this.femur = new FemoralTables(question);
    this.tibia = new TibialTables(question);
    this.ways = waysByHand((question.memory ?? new HoldMemory()).of(question), question.bounds.byHand);
  }

  /** Ways for a femur to stand at a level. */
  stances(femur: PreparedFemur, level: ConstraintLevel): readonly Stance[] {
    const { index } = femur;
    const table = this.stanceTable[level];
    table[index] ??= this.stancesOf(femur, level);
    return table[index];
  }

  private stancesOf(femur: PreparedFemur, level: ConstraintLevel): readonly Stance[] {
    const { state } = this.question;
    const { holdTable } = femur;
    const isFlexed = () => flexionOf(femur, this.ways(femur, level), state) !== 0;
    if (state.targetOutline || (state.femoralStemLimits && isFlexed()))
      return stancesOf(femur, this.ways(femur, level), state);
    const table = this.plainTable[level];
    table[holdTable] ??= [plainStance(heldBy(this.ways(femur, level)))];
    return table[holdTable];
  }

  /** What holds a tray at a level, with its width and its place on the bone; of one kind of coupler only where that is asked. */
  under(tray: PreparedTray, level: ConstraintLevel, allows?: Kind['underTray']): TrayHolds {
    if (allows) return this.holdsOf(tray, level, allows);
    const { index } = tray;
    const table = this.trayTable[level];
    table[index] ??= this.holdsOf(tray, level);
    return table[index];
  }

  private holdsOf(tray: PreparedTray, level: ConstraintLevel, allows?: Kind['underTray']): TrayHolds {
    return trayHolds(tray, this.ways(tray, level), {
      centredMm: this.tibia.width(tray),
      question: this.question,
      allows,
    });
  }

  /** What ties the lengths at a level, one for each slope at which the limits leave something. */
  tiesAt(level: ConstraintLevel): LevelTies {
    this.tieTable[level] ??= tiesAt(level, this.question);
    return this.tieTable[level];
  }

  /** What is charged on mid-flexion; null where its weight is nothing. */
  arc(ties: Ties, { looserMm }: Stance): ArcTerm | null {
    const { state, prices } = this.question;
    if (!(prices.arc.weight > 0)) return null;
    for (const known of ties.arcs) if (known.looserMm === looserMm) return known.arc;
    const arc = arcTermOf(state, { opensMm: ties.opensMm, looserMm }, prices.arc);
    ties.arcs.push({ looserMm, arc });
    return arc;
  }
}
