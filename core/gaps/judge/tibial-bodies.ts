import type { ConstraintLevel, Tray } from '../../catalogue/catalogue.ts';
import { nailed, takesTibia } from './by-hand.ts';
import type { Own } from './corners.ts';
import { augments, bendsOf, inside, pairs, REACH, spaces } from './faces.ts';
import { NEVER, out, TOLERANCE, type Trial, weigh } from './trial.ts';

/** One tibial choice; `u` hangs on the height of its lower face. */
export interface TibialBody {
  readonly ref: string;
  readonly size: number;
  readonly widthMm: number;
  readonly levels: readonly ConstraintLevel[];
  readonly fixed: number;
  readonly thicknessMm: number;
  readonly u: Own;
  readonly augmented: boolean;
  readonly segment: boolean;
}

const LEVELS: readonly ConstraintLevel[] = ['ps', 'vvc', 'hinge'];

function usualTibia(t: Trial, tray: Tray): TibialBody[] {
  const { tibialAugments } = t.catalogue;
  const blocks = tibialAugments.filter((a) => a.traySizes.includes(tray.size)).map((a) => a.thicknessMm);
  const space = spaces(t);
  const all = pairs([0, ...blocks]).filter((pair) => takesTibia(t, { size: tray.size, blocks: pair }));
  return all.map(([medial, lateral]) => {
    const at = [medial - t.state.tibiaMm.medial, lateral - t.state.tibiaMm.lateral];
    return {
      ref: tray.ref,
      size: tray.size,
      widthMm: tray.widthMm,
      levels: LEVELS,
      fixed: augments(t, [medial, lateral]),
      thicknessMm: tray.thicknessMm,
      u: { bends: bendsOf(t, at, 1), cost: (u) => space(u - (at[0] as number)) + space(u - (at[1] as number)) },
      augmented: medial + lateral > 0,
      segment: false,
    };
  });
}

export const tibialBodies = (t: Trial): readonly TibialBody[] =>
  anywhere(t).map((body) => ({ ...body, u: nailed(body.u, t.pinned?.trayMm) }));

function anywhere(t: Trial): readonly TibialBody[] {
  const { state, catalogue } = t;
  const found = catalogue.trays.flatMap((tray) => usualTibia(t, tray));
  if (state.tibiaClass !== '3') return found;
  const { medial, lateral } = state.tibiaMm;
  const lowest = -Math.max(medial, lateral);
  for (const s of (catalogue.segments ?? []).filter((x) => x.bone === 'tibia'))
    if ((s.side === 'both' || s.side === state.side) && takesTibia(t, { size: s.size, blocks: [0, 0] }))
      for (const step of [0, ...s.stepsMm])
        found.push({
          ref: s.ref,
          size: s.size,
          widthMm: s.widthMm,
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
