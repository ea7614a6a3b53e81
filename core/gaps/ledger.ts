import { ZONES_WANTED } from '../bone/zones.ts';
import { leastConstraint, levelRank } from '../constraint/least-constraint.ts';
import { furthestOutside } from './arc.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct, ConstructEffect, LedgerLine, UnknownTerm } from './construct.ts';
import { flexionLessExtensionMm } from './effect.ts';
import { zonesShort, zonesWith } from './fixation.ts';
import { notKnown } from './not-known.ts';
import type { PartsOfConstruct } from './parts-of.ts';
import { beyond, type Prices, TERMS, type TermId } from './price.ts';
import { boneReplacedMm } from './segment.ts';
import { boneFacts, forcedTiltsDeg, stemLimit, stemLooseIn } from './stem-limits.ts';

export interface Judged {
  readonly construct: Construct;
  readonly effect: ConstructEffect;
  readonly parts: PartsOfConstruct;
  readonly state: BoneState;
}

/** The values that each term is charged for; several where each stands for itself (six faces, each augment). */
type Values = Readonly<Record<TermId, readonly number[]>>;

const valuesOf = (judged: Judged, prices: Prices): Values => ({
  ...ofLaxity(judged, prices),
  ...ofSeating(judged),
  ...ofParts(judged),
});

function ofLaxity({ construct, effect }: Judged, prices: Prices) {
  const { extensionLaxityMm: e, flexionLaxityMm: f } = effect;
  return {
    'joint-line-femur': [construct.femurProximalMm],
    'joint-line-femur-far': [construct.femurProximalMm],
    'joint-line-tibia': [effect.bearingMm],
    'laxity-extension-medial': [e.medial],
    'laxity-extension-lateral': [e.lateral],
    'laxity-flexion-medial': [f.medial],
    'laxity-flexion-lateral': [f.lateral],
    'difference-extension': [e.lateral - e.medial],
    'difference-flexion': [f.lateral - f.medial],
    'flexion-extension': [flexionLessExtensionMm(effect)],
    arc: midFlexion(effect, prices),
  };
}

function ofSeating({ effect, parts }: Judged) {
  // A tray off the middle overhangs on one side and leaves the other bare by as much (GAP-31).
  const asideMm = Math.abs(effect.trayPlace?.lateralMm ?? 0);
  const faces = [
    ...(parts.femoralSegment ? [] : [effect.femurDistalSpaceMm, effect.femurPosteriorSpaceMm]),
    ...(parts.tibialSegment ? [] : [effect.tibiaSpaceMm]),
  ].flatMap((p) => [p.medial, p.lateral]);
  const filled = faces.map((s) => Math.max(0, s));
  return {
    'femur-overhang': [Math.max(0, effect.femurOverhangMm)],
    'femur-underhang': [Math.max(0, -effect.femurOverhangMm)],
    'tray-overhang': [Math.max(0, effect.trayOverhangMm + asideMm)],
    'tray-underhang': [Math.max(0, asideMm - effect.trayOverhangMm)],
    'tray-front-back': typeof effect.trayPlace?.anteriorMm === 'number' ? [effect.trayPlace.anteriorMm] : [],
    'bone-cut': faces.map((s) => Math.max(0, -s)),
    'bone-replaced': [
      parts.femoralSegment ? boneReplacedMm(effect.femurDistalSpaceMm) : 0,
      parts.tibialSegment ? boneReplacedMm(effect.tibiaSpaceMm) : 0,
    ],
    cement: filled,
    'cement-deep': filled,
    'flange-gap': [effect.flangeGapMm],
  };
}

function ofParts(judged: Judged) {
  const { construct, parts, state } = judged;
  const augments = [parts.distal, parts.posterior, parts.blocks]
    .flatMap((p) => [p.medial, p.lateral])
    .flatMap((a) => (a ? [a.thicknessMm] : []));
  const bones = (['femur', 'tibia'] as const).map((bone) => fixationValues(judged, bone));
  return {
    'augment-count': [augments.length],
    'augment-thickness': [augments.reduce((a, b) => a + b, 0)],
    'augment-thick': augments,
    'insert-thick': [parts.insert.labelMm],
    'insert-very-thick': [parts.insert.labelMm],
    constraint: [levelRank(construct.level) - levelRank(leastConstraint(state).level)],
    zones: bones.flatMap((b) => b.short),
    cone: bones.map((b) => b.cone),
    sleeve: bones.map((b) => b.sleeve),
    stem: bones.map((b) => b.stem),
    'stem-fit': bones.flatMap((b) => b.loose),
    'stem-conflict': bones.flatMap((b) => b.tilts),
    'offset-coupler': [parts.femoralOffset ? 1 : 0, parts.tibialOffset ? 1 : 0],
  };
}

/** Each side where it lies furthest outside the window of mid-flexion. */
function midFlexion({ midFlexionMm = [] }: ConstructEffect, prices: Prices): number[] {
  return (['medial', 'lateral'] as const).flatMap((x) => {
    const points = midFlexionMm.map(({ laxityMm }) => ({ laxityMm: laxityMm[x] }));
    return furthestOutside(points, prices.arc)?.laxityMm ?? [];
  });
}

function fixationValues({ parts, state }: Judged, bone: 'femur' | 'tibia') {
  const of =
    bone === 'femur'
      ? { stem: parts.femoralStem, cone: parts.femoralCone, sleeve: parts.femoralSleeve, segment: parts.femoralSegment }
      : { stem: parts.tibialStem, cone: parts.tibialCone, sleeve: parts.tibialSleeve, segment: parts.tibialSegment };
  const facts = boneFacts(state, bone);
  const metaphyseal = of.cone !== null || of.sleeve !== null;
  const zones = zonesWith(facts, { stem: of.stem !== null, metaphyseal, segment: of.segment !== null });
  const short = zonesShort(zones);
  const loose = of.stem ? stemLooseIn(state, bone, of.stem) : 0;
  return {
    // What hangs on a value that is not known gives no value, so that it cannot pass for a zero.
    short: zones.unknown.length > 0 && short === 0 && zones.solid.length < ZONES_WANTED ? [] : [short],
    cone: of.cone ? 1 : 0,
    sleeve: of.sleeve ? 1 : 0,
    stem: of.stem ? 1 : 0,
    loose: loose === null ? [] : [loose],
    tilts: of.stem ? forcedTiltsDeg(stemLimit(state, bone, of.stem.ref)) : [],
  };
}

/**
 * The ledger of one construct: every term of spec section 5 with the amount charged, its weight, its cost and its
 * reason, in the order of the table; and apart from it the terms that cannot be known. The cost of the construct is
 * the sum of its lines.
 */
export function ledgerOf(
  judged: Judged,
  prices: Prices,
): { lines: readonly LedgerLine[]; unknown: readonly UnknownTerm[] } {
  const values = valuesOf(judged, prices);
  const lines = TERMS.filter((id) => values[id].length > 0).map((id): LedgerLine => {
    const weight = prices[id];
    const amount = values[id].reduce((sum, value) => sum + beyond(value, weight), 0);
    const { label, unit, reason } = weight;
    return { id, label, amount, unit, weight: weight.weight, cost: weight.weight * amount, reason };
  });
  return { lines, unknown: notKnown(judged) };
}
