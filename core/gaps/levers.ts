import type { Catalogue, OffsetCoupler } from '../catalogue/catalogue.ts';
import type { Construct } from './construct.ts';
import { type PartsOfConstruct, partsOf } from './parts-of.ts';

/** What may be changed while the rest of the plan stays. */
export type LeverPart = 'insert' | 'distal' | 'posterior' | 'size' | 'blocks' | 'constraint';

export interface Lever {
  readonly id: string;
  readonly label: string;
  readonly frees: readonly LeverPart[];
}

/** The levers of the nine-cell table, the plainest first: an order that decides among equal costs (GAP-30). */
export const LEVERS: readonly Lever[] = [
  { id: 'insert', label: 'Insert', frees: ['insert'] },
  { id: 'distal', label: 'Distal augments', frees: ['distal'] },
  { id: 'posterior', label: 'Posterior augments and offset', frees: ['posterior'] },
  { id: 'size', label: 'Femoral size', frees: ['size'] },
  { id: 'distal-insert', label: 'Distal augments and insert', frees: ['distal', 'insert'] },
  { id: 'posterior-insert', label: 'Posterior augments, offset and insert', frees: ['posterior', 'insert'] },
  { id: 'size-posterior-insert', label: 'Femoral size, posterior and insert', frees: ['size', 'posterior', 'insert'] },
  { id: 'tibia', label: 'Tibial blocks and insert', frees: ['blocks', 'insert'] },
  { id: 'constraint', label: 'Constraint', frees: ['constraint', 'insert'] },
];

/** Thicknesses that the plan has on one face; other sizes may take the same. */
const thicknesses = (pair: PartsOfConstruct['distal' | 'blocks']): readonly number[] =>
  [pair.medial, pair.lateral].flatMap((a) => (a ? [a.thicknessMm] : []));

/**
 * The catalogue in which only some parts of a plan may change: of all other kinds it holds what the plan uses. Stems,
 * cones, sleeves and couplers under the tray stay whole, because they follow from the rest. Where the size changes, augments of the plan's
 * thickness and inserts of its label come along in the new size.
 */
export function catalogueWith(frees: readonly LeverPart[], plan: Construct, catalogue: Catalogue): Catalogue {
  const parts = partsOf(plan, catalogue);
  const may = (part: LeverPart) => frees.includes(part);
  const face = { distal: thicknesses(parts.distal), posterior: thicknesses(parts.posterior) };
  const blocks = thicknesses(parts.blocks);
  return {
    ...catalogue,
    femurs: catalogue.femurs.filter((f) => may('size') || f.ref === plan.femur),
    trays: catalogue.trays.filter((t) => t.ref === plan.tray),
    segments: (catalogue.segments ?? []).filter((s) => s.ref === plan.femur || s.ref === plan.tray),
    femoralAugments: catalogue.femoralAugments.filter((a) => may(a.face) || face[a.face].includes(a.thicknessMm)),
    tibialAugments: catalogue.tibialAugments.filter((a) => may('blocks') || blocks.includes(a.thicknessMm)),
    offsetCouplers: catalogue.offsetCouplers.flatMap((o): OffsetCoupler[] => {
      if (may('posterior') || o.ref === plan.femoralOffset) return [o];
      return o.bone === 'femur' ? [] : [{ ...o, bone: 'tibia' }];
    }),
    inserts: catalogue.inserts.filter(
      (i) =>
        (may('constraint') || i.level === plan.level) &&
        (may('insert') || i.labelMm === parts.insert.labelMm) &&
        (may('size') || i.size === parts.insert.size),
    ),
  };
}
