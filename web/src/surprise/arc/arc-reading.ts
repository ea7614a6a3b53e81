import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { type ArcCurve, arcCurve } from '@gapline/core/gaps/arc-curve.ts';
import type { BoneState } from '@gapline/core/gaps/bone-state.ts';
import type { Construct, LedgerLine } from '@gapline/core/gaps/construct.ts';
import { DEFAULT_WEIGHTS } from '@gapline/core/gaps/default-weights.ts';
import { effectOfParts } from '@gapline/core/gaps/effect.ts';
import { ledgerOf } from '@gapline/core/gaps/ledger.ts';
import { partsOf } from '@gapline/core/gaps/parts-of.ts';
import { pricesOf } from '@gapline/core/gaps/price.ts';
import type { WeightTable } from '@gapline/core/gaps/weights.ts';

/** What one construct does through the arc, and what it costs. */
export interface ArcReading {
  readonly curve: ArcCurve;
  readonly cost: number;
  readonly ledger: readonly LedgerLine[];
}

interface Asked {
  readonly state: BoneState;
  readonly catalogue: Catalogue;
  readonly weights: WeightTable | undefined;
}

/** Reads one construct through the core. */
export function readArc(construct: Construct, { state, catalogue, weights }: Asked): ArcReading {
  const parts = partsOf(construct, catalogue);
  const prices = pricesOf(weights ?? DEFAULT_WEIGHTS);
  const effect = effectOfParts(construct, state, parts);
  const { lines } = ledgerOf({ construct, effect, parts, state }, prices);
  return {
    curve: arcCurve({ construct, state, catalogue }, prices),
    cost: lines.reduce((sum, l) => sum + l.cost, 0),
    ledger: lines,
  };
}

/** Terms whose cost differs between two readings, the largest change first. */
export function costChanges(
  from: ArcReading,
  to: ArcReading,
): readonly { readonly label: string; readonly by: number }[] {
  return to.ledger
    .map((l) => ({ label: l.label, by: l.cost - (from.ledger.find((f) => f.id === l.id)?.cost ?? 0) }))
    .filter((c) => Math.abs(c.by) >= 0.05)
    .toSorted((a, b) => Math.abs(b.by) - Math.abs(a.by) || (a.label < b.label ? -1 : 1));
}
