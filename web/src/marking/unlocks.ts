import { FEMORAL_DISTANCES, TIBIAL_DISTANCES } from '@gapline/core/joint-line/landmark-distances.ts';
import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';

/** What waits for a landmark, each in the trade's words; most of all that is empty. */
export interface Unlocks {
  /** Measurements that lack it, by their labels. */
  readonly measurements: readonly string[];
  /** Opinions of the joint line that it would give or lacks. */
  readonly jointLine: readonly string[];
  /** What it would change in the bone state and what follows from it. */
  readonly bone: readonly string[];
}

/** What placing a landmark would give, as the plan stands. Opinions and bone are those of the knee to be revised. */
export function unlocksOf(plan: Plan, id: LandmarkId, side: Side): Unlocks {
  const measurements = plan.measurements.filter((m) => m.side === side && m.missing?.includes(id)).map((m) => m.label);
  if (side !== plan.side) return { measurements: [...new Set(measurements)], jointLine: [], bone: [] };
  const field = `marks[${id}]`;
  const bone = plan.missing.filter((m) => m.field === field).map((m) => m.wouldChange);
  return { measurements: [...new Set(measurements)], jointLine: opinionsOf(plan, id), bone: [...new Set(bone)] };
}

function opinionsOf({ jointLine }: Plan, id: LandmarkId): readonly string[] {
  const surfaces = [
    {
      words: 'Joint line from the femur',
      estimate: jointLine.femoral,
      own: FEMORAL_DISTANCES.some((d) => d.landmark === id),
    },
    {
      words: 'Joint line from the tibia',
      estimate: jointLine.tibial,
      own: TIBIAL_DISTANCES.some((d) => d.landmark === id),
    },
  ];
  return surfaces.flatMap(({ words, estimate, own }) => {
    const waits = !estimate.ok && estimate.reason.field === `marks[${id}]`;
    const has = estimate.ok && estimate.value.opinions.some((o) => o.id === id);
    return waits || (own && !has) ? [waits ? `${words} at all` : `${words}: one more opinion`] : [];
  });
}

/** In one line, the most telling first; null = nothing waits for it. */
export function unlocksLine({ measurements, jointLine, bone }: Unlocks, most = 4): string | null {
  const all = [...jointLine, ...measurements, ...bone.map((b) => `bone state (${b.replace(/\.$/, '').toLowerCase()})`)];
  if (all.length === 0) return null;
  return all.length > most ? `${all.slice(0, most).join(', ')} and ${all.length - most} more` : all.join(', ');
}
