import { ALIGNMENT_CHOICES } from '../limb/alignment-targets.ts';
import type { Measurement } from '../limb/measurement.ts';
import type { CaseSettings } from './case.ts';
import type { AlignmentTarget } from './plan.ts';

/**
 * Coronal alignment that the plan aims at (PLAN-9, values of LIMB-20): `femurDeg`, `tibiaDeg` are the tilt of each component's
 * surface from square to its mechanical axis, **+ = valgus, 0 = square, - = varus**. `anatomicalValgusDeg`: shaft
 * to shaft from this limb's own valgus cut angle, + = valgus; null where that was not measured.
 * Source: common practice, no source. With nothing chosen the plan aims at neutral, and says so.
 */
export function alignmentTargets(
  settings: CaseSettings | undefined,
  measurements: readonly Measurement[],
): readonly AlignmentTarget[] {
  const chosen = settings?.targetAlignment ?? 'neutral';
  const cut = measurements.find((m) => m.id === 'valgus-cut-angle')?.value ?? null;
  return ALIGNMENT_CHOICES.map(({ id, label, femurDeg, tibiaDeg, note, source }) => ({
    id,
    label,
    chosen: id === chosen,
    femurDeg,
    tibiaDeg,
    anatomicalValgusDeg: cut === null ? null : cut + femurDeg + tibiaDeg,
    note,
    source,
  }));
}

/** The target in force. */
export function chosenTarget(targets: readonly AlignmentTarget[]): AlignmentTarget {
  const found = targets.find((t) => t.chosen);
  if (!found) throw new Error('no alignment target is chosen');
  return found;
}
