import type { ConstraintLevel, Femur, Outlines } from '../../catalogue/catalogue.ts';
import { nailed, takesFemur } from './by-hand.ts';
import type { Own } from './corners.ts';
import { augments, bendsOf, femurWidth, inside, pairs, REACH, spaces } from './faces.ts';
import { NEVER, out, TOLERANCE, type Trial, weigh } from './trial.ts';

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

function* usual(t: Trial, femur: Femur): Generator<FemoralBody> {
  const { state, catalogue } = t;
  const { flangeGapMm } = catalogue.limits;
  const wide = femurWidth(t, [femur.widthMm, state.femurWidthMm]);
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
  const couplers = catalogue.offsetCouplers
    .filter((o) => o.bone !== 'tibia' && (o.sizes ?? [femur.size]).includes(femur.size))
    .map((o) => o.offsetMm);
  for (const distal of pairs(face('distal')))
    for (const posterior of pairs(face('posterior')))
      for (const offset of [0, ...couplers]) {
        if (!takesFemur(t, { size: femur.size, distal, posterior, offset })) continue;
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

export function femoralBodies(t: Trial): readonly FemoralBody[] {
  const { femurProximalMm: j, femurAnteriorMm: q } = t.pinned ?? {};
  return anywhere(t).map((body) => ({ ...body, j: nailed(body.j, j), q: (back) => nailed(body.q(back), q) }));
}

function anywhere(t: Trial): readonly FemoralBody[] {
  const { state, catalogue } = t;
  const mine = (part: { side: string }) => part.side === 'both' || part.side === state.side;
  const found = catalogue.femurs.filter(mine).flatMap((f) => [...usual(t, f)]);
  if (state.femurClass !== '3') return found;
  const line = weigh(t, 'joint-line-femur');
  const far = weigh(t, 'joint-line-femur-far');
  const { medial, lateral } = state.femurDistalMm;
  for (const s of (catalogue.segments ?? []).filter((x) => x.bone === 'femur' && mine(x))) {
    if (!takesFemur(t, { size: s.size, distal: [0, 0], posterior: [0, 0], offset: 0 })) continue;
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
  }
  return found;
}
