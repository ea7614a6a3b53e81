import type { Catalogue } from '../../catalogue/catalogue.ts';
import { leastConstraint } from '../../constraint/least-constraint.ts';
import type { BoneState } from '../bone-state.ts';
import type { Construct, SolvedConstruct } from '../construct.ts';
import { effectOfParts } from '../effect.ts';
import { ledgerOf } from '../ledger.ts';
import { partsOf } from '../parts-of.ts';
import type { Prices } from '../price.ts';
import type { Found } from './order.ts';
import type { Tables } from './tables.ts';

/** Removes the sign of zero, so that equal plans are equal bytes. */
const plain = (x: number): number => (x === 0 ? 0 : x);

/** The construct that was found, in catalogue references and lengths. */
export function constructOf(found: Found, tables: Tables): Construct {
  const { femur, tray, distal, posterior, tibial, insert, settled, level } = found;
  const femoralLoaded = distal.augments + posterior.augments > 0 || posterior.coupler !== null;
  const femoral = tables.fixations(femur, level)[femoralLoaded ? 'loaded' : 'plain'];
  const tibialFix = tables.fixations(tray, level)[tibial.blocks.augments > 0 ? 'loaded' : 'plain'];
  const ref = (part: { readonly ref: string } | null | undefined): string | null => part?.ref ?? null;
  return {
    level,
    femur: femur.femur.ref,
    distalAugments: { medial: ref(femur.distal[distal.medial]), lateral: ref(femur.distal[distal.lateral]) },
    posteriorAugments: {
      medial: ref(femur.posterior[posterior.medial]),
      lateral: ref(femur.posterior[posterior.lateral]),
    },
    tray: tray.tray.ref,
    tibialAugments: {
      medial: ref(tray.blocks[tibial.blocks.medial]),
      lateral: ref(tray.blocks[tibial.blocks.lateral]),
    },
    insert: insert.ref,
    femoralStem: ref(femoral?.stem?.stem),
    femoralOffset: ref(posterior.coupler),
    tibialStem: ref(tibialFix?.stem?.stem),
    femoralCone: ref(femoral?.cone),
    tibialCone: ref(tibialFix?.cone),
    femurProximalMm: plain(settled.j),
    femurAnteriorMm: plain(settled.q),
    posteriorShiftMm: plain(tables.question.state.anteriorToPosteriorMm - femur.femur.apMm - settled.q),
    trayMm: plain(settled.k - tray.tray.thicknessMm - insert.heightMm),
    slopeDeg: found.slopeDeg,
  };
}

/** A construct with its effect, its ledger, and what to keep in mind. */
export function judge(
  construct: Construct,
  knee: { readonly state: BoneState; readonly catalogue: Catalogue },
  { prices, differs }: { readonly prices: Prices; readonly differs: string },
): SolvedConstruct {
  const parts = partsOf(construct, knee.catalogue);
  const effect = effectOfParts(construct, knee.state, parts);
  const { lines, unknown } = ledgerOf({ construct, effect, parts, state: knee.state }, prices);
  return {
    construct,
    effect,
    cost: lines.reduce((sum, line) => sum + line.cost, 0),
    ledger: lines,
    notKnown: unknown,
    notes: leastConstraint(knee.state).notes,
    differs,
  };
}
