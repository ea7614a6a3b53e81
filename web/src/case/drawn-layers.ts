import type { DrawnLayer, Plan } from '@gapline/core/plan/plan.ts';
import type { Desk, DeskState } from './desk.tsx';

/** What is drawn on one film: the layers of the plan that are switched on, with the chosen construct's parts. */
export function drawnLayers(plan: Plan, _desk: Desk, film: string, state: DeskState): readonly DrawnLayer[] {
  const layers = plan.drawings.find((d) => d.film === film)?.layers ?? [];
  return layers.filter((layer) => state.layers[layer.belongs]);
}
