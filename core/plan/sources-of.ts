import { FILM_CLASS_CAUTION } from '../bone/film-agreement.ts';
import { CLASS_PROPOSAL_SOURCE } from '../bone/propose-class.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { SPREAD_SOURCE } from '../landmarks/repeat-marks.ts';
import type { Plan } from './plan.ts';
import { keysIn } from './sources.ts';

/** Keys of the publications whose figures entered this plan: measured lines, weighted opinions, weights, bone state. */
export function sourcesOf(plan: Omit<Plan, 'drawings' | 'sources'>, weights: WeightTable): readonly string[] {
  const texts: string[] = [];
  if (plan.marking?.classes.some((c) => c.measured)) texts.push(SPREAD_SOURCE);
  for (const m of plan.measurements) if (m.value !== null) texts.push(m.source);
  for (const line of [plan.jointLine.femoral, plan.jointLine.tibial])
    if (line.ok) for (const opinion of line.value.opinions) texts.push(opinion.source);
  for (const { proposal } of [plan.boneStock.femur, plan.boneStock.tibia])
    if (proposal.proposed !== null) texts.push(CLASS_PROPOSAL_SOURCE, FILM_CLASS_CAUTION);
  if (plan.bone.ok) for (const origin of plan.bone.value.origins) texts.push(origin.from);
  if (plan.construct.kind === 'solved') for (const w of weights.weights) texts.push(w.source);
  return keysIn(texts);
}
