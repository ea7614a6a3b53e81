import { ZONES_WANTED, zonesOfFixation } from '../bone/zones.ts';
import { leastConstraint, levelRank } from '../constraint/least-constraint.ts';
import { CEMENT_MANTLE_MM, PRESS_FIT_PLAY_MM, stemLooseMm } from '../stems/choose-stem.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct, ConstructEffect, LedgerLine, UnknownTerm } from './construct.ts';
import { flexionLessExtensionMm } from './effect.ts';
import { boneFacts, zonesShort } from './fixation.ts';
import type { PartsOfConstruct } from './parts-of.ts';
import { beyond, type Prices, TERMS, type TermId } from './price.ts';

export interface Judged {
  readonly construct: Construct;
  readonly effect: ConstructEffect;
  readonly parts: PartsOfConstruct;
  readonly state: BoneState;
}

/** The values that each term is charged for; several where each stands for itself (six faces, each augment). */
type Values = Readonly<Record<TermId, readonly number[]>>;

function valuesOf({ construct, effect, parts, state }: Judged): Values {
  const { extensionLaxityMm: e, flexionLaxityMm: f } = effect;
  const faces = [effect.femurDistalSpaceMm, effect.femurPosteriorSpaceMm, effect.tibiaSpaceMm].flatMap((p) => [
    p.medial,
    p.lateral,
  ]);
  const augments = [parts.distal, parts.posterior, parts.blocks]
    .flatMap((p) => [p.medial, p.lateral])
    .flatMap((a) => (a ? [a.thicknessMm] : []));
  const filled = faces.map((s) => Math.max(0, s));
  const bones = (['femur', 'tibia'] as const).map((bone) => fixationValues({ construct, effect, parts, state }, bone));
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
    'femur-overhang': [Math.max(0, effect.femurOverhangMm)],
    'femur-underhang': [Math.max(0, -effect.femurOverhangMm)],
    'tray-overhang': [Math.max(0, effect.trayOverhangMm)],
    'tray-underhang': [Math.max(0, -effect.trayOverhangMm)],
    'bone-cut': faces.map((s) => Math.max(0, -s)),
    cement: filled,
    'cement-deep': filled,
    'flange-gap': [effect.flangeGapMm],
    'augment-count': [augments.length],
    'augment-thickness': [augments.reduce((a, b) => a + b, 0)],
    'augment-thick': augments,
    'insert-thick': [parts.insert.labelMm],
    'insert-very-thick': [parts.insert.labelMm],
    constraint: [levelRank(construct.level) - levelRank(leastConstraint(state).level)],
    zones: bones.flatMap((b) => b.short),
    cone: bones.map((b) => b.cone),
    stem: bones.map((b) => b.stem),
    'stem-fit': bones.flatMap((b) => b.loose),
    'offset-coupler': [parts.femoralOffset ? 1 : 0],
  };
}

function fixationValues({ parts, state }: Judged, bone: 'femur' | 'tibia') {
  const stem = bone === 'femur' ? parts.femoralStem : parts.tibialStem;
  const cone = bone === 'femur' ? parts.femoralCone : parts.tibialCone;
  const facts = boneFacts(state, bone);
  const zones = zonesOfFixation({ ...facts, stem: stem !== null, cone: cone !== null });
  const short = zonesShort(zones);
  const loose = stem ? stemLooseMm(stem, facts.canalMm) : 0;
  return {
    // What hangs on a value that is not known gives no value, so that it cannot pass for a zero.
    short: zones.unknown.length > 0 && short === 0 && zones.solid.length < ZONES_WANTED ? [] : [short],
    cone: cone ? 1 : 0,
    stem: stem ? 1 : 0,
    loose: loose === null ? [] : [loose],
  };
}

/** Terms that cannot be charged because a value was not measured (GAP-19). */
function notKnown({ parts, state }: Judged): UnknownTerm[] {
  const found: UnknownTerm[] = [
    {
      id: 'laxity-between',
      label: 'Laxity between 0 and 90 degrees',
      because: 'The sagittal outline that the knee should have, and the height of its turning axis, are not known.',
      mend: 'Mark the epicondylar axis and the condylar outline on the lateral film of the other knee.',
    },
  ];
  for (const bone of ['femur', 'tibia'] as const) {
    const facts = boneFacts(state, bone);
    const stem = bone === 'femur' ? parts.femoralStem : parts.tibialStem;
    if (stem && facts.canalMm === null)
      found.push({
        id: 'stem-fit',
        label: `Fit of the ${bone === 'femur' ? 'femoral' : 'tibial'} stem`,
        because: 'The inner width of the canal was not measured: the stem named is the thinnest, as a place holder.',
        mend: `Measure the canal: press-fit stems take it less ${PRESS_FIT_PLAY_MM} mm, cemented ones less ${2 * CEMENT_MANTLE_MM} mm.`,
      });
    if (facts.quality === 'unknown' && (facts.boneClass === '1' || facts.boneClass === '2A'))
      found.push({
        id: 'zones',
        label: `Fixation of the ${bone} at its joint surface`,
        because: 'The quality of the bone is not known, so zone 1 counts neither as solid nor as lost.',
        mend: 'Enter good, sclerotic or osteoporotic.',
      });
  }
  return found;
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
  const values = valuesOf(judged);
  const lines = TERMS.filter((id) => values[id].length > 0).map((id): LedgerLine => {
    const weight = prices[id];
    const amount = values[id].reduce((sum, value) => sum + beyond(value, weight), 0);
    const { label, unit, reason } = weight;
    return { id, label, amount, unit, weight: weight.weight, cost: weight.weight * amount, reason };
  });
  return { lines, unknown: notKnown(judged) };
}
