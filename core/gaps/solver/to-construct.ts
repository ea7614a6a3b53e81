import type { Catalogue } from '../../catalogue/catalogue.ts';
import type { BoneState } from '../bone-state.ts';
import type { Construct, SolvedConstruct } from '../construct.ts';
import { effectOfParts } from '../effect.ts';
import { ledgerOf } from '../ledger.ts';
import { notesOn } from '../notes-on.ts';
import { partsOf } from '../parts-of.ts';
import type { Prices } from '../price.ts';
import { femoralLoad } from './candidates.ts';
import type { Pair } from './choices.ts';
import type { Found } from './order.ts';
import type { Tables } from './tables.ts';

/** Removes the sign of zero, so that equal plans are equal bytes. */
const plain = (x: number): number => (x === 0 ? 0 : x);

const ref = (part: { readonly ref: string } | null | undefined): string | null => part?.ref ?? null;

const refs = (parts: readonly ({ readonly ref: string } | null)[], { medial, lateral }: Pair) => ({
  medial: ref(parts[medial]),
  lateral: ref(parts[lateral]),
});

/** The construct that was found, in catalogue references and lengths. */
export function constructOf(found: Found, tables: Tables): Construct {
  const { femur, tray, distal, posterior, tibial, insert, settled, level, stance, hold } = found;
  const femoral = stance.held[femoralLoad(distal, posterior)];
  const under = hold.fixation;
  const { state } = tables.question;
  const shift = state.anteriorToPosteriorMm - femur.femur.apMm - stance.reachMm - settled.q;
  const flexes = stance.flexionDeg !== 0 && femoral?.stem;
  return {
    level,
    femur: femur.femur.ref,
    distalAugments: refs(femur.distal, distal.pair),
    posteriorAugments: refs(femur.posterior, posterior.pair),
    tray: tray.tray.ref,
    tibialAugments: refs(tray.blocks, tibial.pair),
    insert: insert.ref,
    femoralStem: ref(femoral?.stem?.stem),
    femoralOffset: ref(posterior.flange.coupler),
    tibialStem: ref(under.stem?.stem),
    femoralCone: ref(femoral?.cone),
    tibialCone: ref(under.cone),
    ...(femoral?.sleeve ? { femoralSleeve: femoral.sleeve.ref } : {}),
    ...(hold.coupler ? { tibialOffset: hold.coupler.ref } : {}),
    ...(under.sleeve ? { tibialSleeve: under.sleeve.ref } : {}),
    ...(femur.segment ? { femoralSegmentMm: femur.femur.distalMm } : {}),
    ...(tray.segment ? { tibialSegmentMm: tray.tray.thicknessMm } : {}),
    ...(flexes ? { femoralFlexionDeg: stance.flexionDeg } : {}),
    femurProximalMm: plain(settled.j),
    femurAnteriorMm: plain(settled.q),
    posteriorShiftMm: femur.segment ? 0 : plain(shift),
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
    notes: notesOn(construct, effect, knee.state),
    differs,
  };
}
