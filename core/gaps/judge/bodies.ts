import type { ConstraintLevel, Femur, Outlines, Tray } from '../../catalogue/catalogue.ts';
import type { Own } from './corners.ts';
import { NEVER, out, TOLERANCE, type Trial, weigh } from './trial.ts';

/** Farthest that the joint surface of a segment may stand from its target, mm. */
const REACH = 20;

/** One femoral choice: component, augments and coupler, or a distal femoral component of one length. */
export interface FemoralBody {
  readonly ref: string;
  readonly size: number;
  readonly levels: readonly ConstraintLevel[];
  readonly fixed: number;
  readonly j: Own;
  /** By how far a flexed component reaches back. */
  readonly q: (back: number) => Own;
  readonly outlines: Outlines | undefined;
  readonly augmented: boolean;
  readonly coupler: boolean;
  readonly boxMm: number;
  readonly segment: boolean;
}

/** One tibial choice; `u` hangs on the height of its lower face. */
export interface TibialBody {
  readonly ref: string;
  readonly size: number;
  readonly levels: readonly ConstraintLevel[];
  readonly fixed: number;
  readonly thicknessMm: number;
  readonly u: Own;
  readonly augmented: boolean;
  readonly segment: boolean;
}

const LEVELS: readonly ConstraintLevel[] = ['ps', 'vvc', 'hinge'];

/** Cost of the space under one side. */
function spaces(t: Trial): (s: number) => number {
  const { cementMm, cutMm } = t.catalogue.limits;
  const [cement, deep, cut] = [weigh(t, 'cement'), weigh(t, 'cement-deep'), weigh(t, 'bone-cut')] as const;
  return (s) => {
    if (s > cementMm + TOLERANCE || s < -cutMm - TOLERANCE) return NEVER;
    const filled = Math.max(0, s);
    return out(filled, cement) + out(filled, deep) + out(Math.max(0, -s), cut);
  };
}

function bendsOf(t: Trial, flush: readonly number[], way: 1 | -1): number[] {
  const { cementMm, cutMm } = t.catalogue.limits;
  const deep = [weigh(t, 'cement-deep').hi, weigh(t, 'cement').hi, cementMm, 0];
  return flush.flatMap((f) => [...deep.map((d) => f + way * d), f - way * cutMm, f - way * weigh(t, 'bone-cut').hi]);
}

function width(t: Trial, [part, bone]: readonly [number, number], name: 'femur' | 'tray'): number {
  const over = (part - bone) / 2;
  if (over > t.catalogue.limits.overhangMm + TOLERANCE) return NEVER;
  return over > 0 ? out(over, weigh(t, `${name}-overhang`)) : out(-over, weigh(t, `${name}-underhang`));
}

function augments(t: Trial, list: readonly number[]): number {
  const used = list.filter((x) => x > 0);
  return (
    weigh(t, 'augment-count').w * used.length +
    weigh(t, 'augment-thickness').w * used.reduce((a, b) => a + b, 0) +
    used.reduce((sum, x) => sum + out(x, weigh(t, 'augment-thick')), 0)
  );
}

const pairs = (list: readonly number[]): (readonly [number, number])[] =>
  list.flatMap((m) => list.map((l) => [m, l] as const));

function* usual(t: Trial, femur: Femur): Generator<FemoralBody> {
  const { state, catalogue } = t;
  const { flangeGapMm } = catalogue.limits;
  const wide = width(t, [femur.widthMm, state.femurWidthMm], 'femur');
  if (wide === NEVER) return;
  const face = (name: 'distal' | 'posterior') => [
    0,
    ...catalogue.femoralAugments
      .filter((a) => a.face === name && a.femurSizes.includes(femur.size))
      .map((a) => a.thicknessMm),
  ];
  const line = weigh(t, 'joint-line-femur');
  const far = weigh(t, 'joint-line-femur-far');
  const flange = weigh(t, 'flange-gap');
  const space = spaces(t);
  const couplers = catalogue.offsetCouplers.filter((o) => o.bone !== 'tibia').map((o) => o.offsetMm);
  for (const distal of pairs(face('distal')))
    for (const posterior of pairs(face('posterior')))
      for (const offset of [0, ...couplers]) {
        const { femurDistalMm: d, femurPosteriorMm: p } = state;
        const atJ = [d.medial - femur.distalMm - distal[0], d.lateral - femur.distalMm - distal[1]];
        const atQ = [p.medial - femur.posteriorMm - posterior[0], p.lateral - femur.posteriorMm - posterior[1]];
        yield {
          ref: femur.ref,
          size: femur.size,
          levels: femur.levels,
          fixed: wide + augments(t, [...distal, ...posterior]) + (offset > 0 ? weigh(t, 'offset-coupler').w : 0),
          j: {
            bends: [...bendsOf(t, atJ, -1), line.lo, line.hi, far.lo, far.hi],
            cost: (j) => space((atJ[0] as number) - j) + space((atJ[1] as number) - j) + out(j, line) + out(j, far),
          },
          q: (back) => {
            const onCortex = state.anteriorToPosteriorMm - femur.apMm - back - offset;
            return {
              bends: [...bendsOf(t, atQ, -1), onCortex, onCortex - flangeGapMm, onCortex - flange.hi],
              cost: (q) => {
                const gap = onCortex - q;
                if (gap < -TOLERANCE || gap > flangeGapMm + TOLERANCE) return NEVER;
                return space((atQ[0] as number) - q) + space((atQ[1] as number) - q) + out(gap, flange);
              },
            };
          },
          outlines: femur.outlines,
          augmented: distal[0] + distal[1] + posterior[0] + posterior[1] > 0,
          coupler: offset > 0,
          boxMm: femur.boxWidthMm,
          segment: false,
        };
      }
}

const inside = (x: number, [low, high]: readonly [number, number]) => x >= low - TOLERANCE && x <= high + TOLERANCE;

export function femoralBodies(t: Trial): readonly FemoralBody[] {
  const { state, catalogue } = t;
  const mine = (part: { side: string }) => part.side === 'both' || part.side === state.side;
  const found = catalogue.femurs.filter(mine).flatMap((f) => [...usual(t, f)]);
  if (state.femurClass !== '3') return found;
  const line = weigh(t, 'joint-line-femur');
  const far = weigh(t, 'joint-line-femur-far');
  const { medial, lateral } = state.femurDistalMm;
  for (const s of (catalogue.segments ?? []).filter((x) => x.bone === 'femur' && mine(x)))
    for (const step of [0, ...s.stepsMm]) {
      const length = s.replacesMm + step;
      const span = [Math.max(-REACH, Math.max(medial, lateral) - length), REACH] as const;
      const off = [-s.apFreeMm, s.apFreeMm] as const;
      found.push({
        ref: s.ref,
        size: s.size,
        levels: s.levels,
        fixed: 0,
        j: {
          bends: [...span, line.lo, line.hi, far.lo, far.hi],
          cost: (j) => {
            if (!inside(j, span)) return NEVER;
            const taken = j + length - (medial + lateral) / 2;
            return weigh(t, 'bone-replaced').w * taken + out(j, line) + out(j, far);
          },
        },
        q: () => ({ bends: [...off], cost: (q) => (inside(q, off) ? 0 : NEVER) }),
        outlines: s.outlines,
        augmented: false,
        coupler: false,
        boxMm: 0,
        segment: true,
      });
    }
  return found;
}

function usualTibia(t: Trial, tray: Tray): TibialBody[] {
  const wide = width(t, [tray.widthMm, t.state.tibiaWidthMm], 'tray');
  if (wide === NEVER) return [];
  const { tibialAugments } = t.catalogue;
  const blocks = tibialAugments.filter((a) => a.traySizes.includes(tray.size)).map((a) => a.thicknessMm);
  const space = spaces(t);
  return pairs([0, ...blocks]).map(([medial, lateral]) => {
    const at = [medial - t.state.tibiaMm.medial, lateral - t.state.tibiaMm.lateral];
    return {
      ref: tray.ref,
      size: tray.size,
      levels: LEVELS,
      fixed: wide + augments(t, [medial, lateral]),
      thicknessMm: tray.thicknessMm,
      u: { bends: bendsOf(t, at, 1), cost: (u) => space(u - (at[0] as number)) + space(u - (at[1] as number)) },
      augmented: medial + lateral > 0,
      segment: false,
    };
  });
}

export function tibialBodies(t: Trial): readonly TibialBody[] {
  const { state, catalogue } = t;
  const found = catalogue.trays.flatMap((tray) => usualTibia(t, tray));
  if (state.tibiaClass !== '3') return found;
  const { medial, lateral } = state.tibiaMm;
  const lowest = -Math.max(medial, lateral);
  for (const s of (catalogue.segments ?? []).filter((x) => x.bone === 'tibia'))
    if (s.side === 'both' || s.side === state.side)
      for (const step of [0, ...s.stepsMm])
        found.push({
          ref: s.ref,
          size: s.size,
          levels: s.levels,
          fixed: 0,
          thicknessMm: s.replacesMm + step,
          u: {
            bends: [lowest],
            cost: (u) => (u > lowest + TOLERANCE ? NEVER : weigh(t, 'bone-replaced').w * (-u - (medial + lateral) / 2)),
          },
          augmented: false,
          segment: true,
        });
  return found;
}

/** K of a tibial choice with an insert: its own cost and the place of the bearing. */
export function bearing(t: Trial, body: TibialBody, heightMm: number): Own {
  const rise = body.thicknessMm + heightMm;
  const tibia = weigh(t, 'joint-line-tibia');
  const reach = [-REACH, REACH] as const;
  return {
    bends: [...body.u.bends.map((u) => u + rise), tibia.lo, tibia.hi, ...(body.segment ? reach : [])],
    cost: (k) => (body.segment && !inside(k, reach) ? NEVER : body.u.cost(k - rise) + out(k, tibia)),
  };
}
