import type { ConstraintLevel, Insert, OffsetCoupler } from '../../catalogue/catalogue.ts';
import { type ChosenStem, chooseStem } from '../../stems/choose-stem.ts';
import type { BoneState } from '../bone-state.ts';
import { boneFacts, cheapestFixation, type Fixation } from '../fixation.ts';
import { charge, type Prices } from '../price.ts';
import { overhangMm } from '../seating.ts';
import type { Bounds } from './bounds.ts';
import { type Choice, pairs } from './choices.ts';
import { type Bottom, bottomOf, type HingeSum, type Hinges } from './hinges.ts';
import { alwaysCharged, leastTied, type Node, nodesOf } from './nodes.ts';
import type { Prepared, PreparedFemur, PreparedTray } from './prepare.ts';
import { type Settled, settle } from './settle.ts';
import { type Ties, tiesOf } from './ties.ts';

export interface Question {
  readonly prepared: Prepared;
  readonly state: BoneState;
  readonly prices: Prices;
  readonly bounds: Bounds;
}

/** Posterior augments with the coupler that shifts the femur, tied to the rest through q. */
export interface PosteriorChoice extends Choice {
  readonly coupler: OffsetCoupler | null;
}

/** Blocks with one tray and one insert height: the blocks' hinges shifted from U to K. */
export interface TibialChoice {
  readonly blocks: Choice;
  readonly hinges: Hinges;
  readonly bottom: Bottom;
}

/** Fixation of a bone without and with augments or coupler on it; null = not possible. */
export interface Fixations {
  readonly plain: Fixation | null;
  readonly loaded: Fixation | null;
}

const shifted = (h: Hinges, by: number): Hinges => ({
  at: h.at.map((x) => x + by),
  left: h.left,
  right: h.right,
  base: h.base,
  low: h.low + by,
  high: h.high + by,
});

const with2 = (h: Hinges, at: readonly [number, number], weight: number): Hinges =>
  weight === 0
    ? h
    : { ...h, at: [...h.at, at[0], at[1]], left: [...h.left, weight, 0], right: [...h.right, 0, weight] };

const thicknesses = (parts: readonly ({ readonly thicknessMm: number } | null)[]): number[] =>
  parts.map((p) => p?.thicknessMm ?? 0);

/**
 * The small tables into which the minimum splits for one bone state: each is built when first asked for and kept,
 * because many sizes share their thicknesses.
 */
export class Tables {
  readonly question: Question;
  private readonly distalTable = new Map<string, Choice[]>();
  private readonly tibialTable = new Map<string, readonly TibialChoice[]>();
  private readonly blockTable = new Map<string, readonly Choice[]>();
  private readonly fixationTable = new Map<string, Fixations>();
  private readonly stemTable = new Map<string, ChosenStem | null>();
  private readonly tieTable = new Map<string, Ties | null>();
  private readonly posteriorTable = new Map<string, readonly PosteriorChoice[]>();
  private readonly nodeTable = new Map<string, readonly Node[]>();
  private readonly leastTable = new Map<string, number>();
  private readonly settledTable = new Map<Choice, Map<PosteriorChoice, Map<TibialChoice, Map<Ties, Settled | null>>>>();

  constructor(question: Question) {
    this.question = question;
  }

  /** Pairs of distal augments, hanging on J with the femoral joint line. */
  distal({ femur, distal }: PreparedFemur): readonly Choice[] {
    const list = thicknesses(distal);
    const key = `${femur.distalMm}|${list.join(' ')}`;
    return remember(this.distalTable, key, () => {
      const { state, prices } = this.question;
      const support = state.femurDistalMm;
      const jointLine = (h: HingeSum) => {
        for (const weight of [prices['joint-line-femur'], prices['joint-line-femur-far']])
          h.add(weight.free[0], weight.weight, 0).add(weight.free[1], 0, weight.weight);
      };
      const flush = { medial: support.medial - femur.distalMm, lateral: support.lateral - femur.distalMm };
      return pairs(list, { flush, augmentWay: -1, fillWay: -1, also: jointLine }, this.question);
    });
  }

  /** Pairs of posterior augments with each coupler, hanging on q with the gap at the flange. */
  posterior(part: PreparedFemur): readonly PosteriorChoice[] {
    return remember(this.posteriorTable, String(part.index), () => this.makePosterior(part));
  }

  private makePosterior({ femur, posterior }: PreparedFemur): readonly PosteriorChoice[] {
    const { state, prices, bounds, prepared } = this.question;
    const support = state.femurPosteriorMm;
    const flush = { medial: support.medial - femur.posteriorMm, lateral: support.lateral - femur.posteriorMm };
    return prepared.couplers
      .flatMap((coupler) => {
        const onCortex = state.anteriorToPosteriorMm - femur.apMm - (coupler?.offsetMm ?? 0);
        const weight = prices['flange-gap'];
        const flange = (h: HingeSum) => {
          h.within(onCortex - bounds.flangeGapMm, onCortex);
          h.add(onCortex - weight.free[1], weight.weight, 0);
          h.base += coupler ? charge(1, prices['offset-coupler']) : 0;
        };
        return pairs(thicknesses(posterior), { flush, augmentWay: -1, fillWay: -1, also: flange }, this.question).map(
          (choice) => ({ ...choice, coupler }),
        );
      })
      .sort((a, b) => a.bottom.value - b.bottom.value);
  }

  /** Pairs of blocks under a tray with one insert, hanging on K with the tibial joint line and the insert's thickness. */
  tibial({ tray, blocks, blockKey }: PreparedTray, insert: Insert): readonly TibialChoice[] {
    const shift = tray.thicknessMm + insert.heightMm;
    return remember(this.tibialTable, `${blockKey}|${shift}|${insert.labelMm}`, () => {
      const { state, prices } = this.question;
      const flush = { medial: -state.tibiaMm.medial, lateral: -state.tibiaMm.lateral };
      const under = remember(this.blockTable, blockKey, () =>
        pairs(thicknesses(blocks), { flush, augmentWay: 1, fillWay: 1, also: () => undefined }, this.question),
      );
      const line = prices['joint-line-tibia'];
      const thick =
        charge(insert.labelMm, prices['insert-thick']) + charge(insert.labelMm, prices['insert-very-thick']);
      return under
        .flatMap((choice) => {
          const moved = with2(shifted(choice.hinges, shift), line.free, line.weight);
          const hinges = { ...moved, base: moved.base + thick };
          const bottom = bottomOf(hinges);
          return bottom ? [{ blocks: choice, hinges, bottom }] : [];
        })
        .sort((a, b) => a.bottom.value - b.bottom.value);
    });
  }

  /** Stem and cone of the femur or the tibia at one level, without and with augments on the bone. */
  fixations(part: PreparedFemur | PreparedTray, level: ConstraintLevel): Fixations {
    const bone = 'femur' in part ? 'femur' : 'tibia';
    return remember(this.fixationTable, `${bone}|${part.cone?.ref ?? ''}|${level}`, () => {
      const { state, prices, bounds } = this.question;
      const stem = this.stem(bone, level);
      const of = (augments: number) =>
        cheapestFixation(
          { bone, level, augments, offsetCoupler: false, stem, cone: part.cone, ...bounds },
          state,
          prices,
        );
      return { plain: of(0), loaded: of(1) };
    });
  }

  private stem(bone: 'femur' | 'tibia', level: ConstraintLevel): ChosenStem | null {
    const { state, prepared } = this.question;
    return remember(this.stemTable, `${bone}|${level}`, () =>
      chooseStem({ bone, level, ...boneFacts(state, bone) }, prepared.catalogue),
    );
  }

  ties(level: ConstraintLevel, slopeDeg: number): Ties | null {
    return remember(this.tieTable, `${level}|${slopeDeg}`, () =>
      tiesOf(this.question.state, { level, slopeDeg }, this.question),
    );
  }

  /** Where three choices settle: kept, because the searches for the next best come by the same ones. */
  settled(distal: Choice, posterior: PosteriorChoice, rest: { tibial: TibialChoice; ties: Ties }): Settled | null {
    const { tibial, ties } = rest;
    const ofDistal = remember(this.settledTable, distal, () => new Map());
    const ofFemur = remember(ofDistal, posterior, () => new Map());
    const kept = remember(ofFemur, tibial, () => new Map<Ties, Settled | null>());
    const known = kept.get(ties);
    if (known !== undefined) return known;
    const { jLessK, qLessK, qLessJ } = ties;
    const made = settle(
      { j: distal.hinges, q: posterior.hinges, k: tibial.hinges, jLessK, qLessK, qLessJ },
      { j: distal.bottom.from, q: posterior.bottom.from, k: tibial.bottom.from },
    );
    kept.set(ties, made);
    return made;
  }

  /** Lower bound of every construct at a level. */
  leastAt(level: ConstraintLevel): number {
    return remember(this.leastTable, level, () => alwaysCharged(this, level) + leastTied(this, level));
  }

  /** Every femur at a level with all that may join it. */
  nodesAt(level: ConstraintLevel): readonly Node[] {
    return remember(this.nodeTable, level, () => nodesOf(this, level));
  }

  /** Cost of a component's width on its bone; infinite beyond the limit of overhang. */
  width(componentMm: number, bone: 'femur' | 'tray'): number {
    const { state, prices, bounds } = this.question;
    const over = overhangMm(componentMm, bone === 'femur' ? state.femurWidthMm : state.tibiaWidthMm);
    if (over > bounds.overhangMm + 1e-9) return Number.POSITIVE_INFINITY;
    return (
      charge(Math.max(0, over), prices[`${bone}-overhang`]) + charge(Math.max(0, -over), prices[`${bone}-underhang`])
    );
  }
}

function remember<K, T>(table: Map<K, T>, key: K, make: () => T): T {
  const known = table.get(key);
  if (known !== undefined) return known;
  const made = make();
  table.set(key, made);
  return made;
}
