import { finish } from '@gapline/core/measure/steps.ts';
import { planningForSurprise } from '@gapline/core/plan/plan-for-surprise.ts';
import type { SurpriseAnswer, SurpriseInput } from '@gapline/core/plan/surprise.ts';
import { progress } from './answer.ts';

/** Runs the plan for the bone that may be found; tells each part once as it begins, on standard error. */
export function runSurprise(input: SurpriseInput): SurpriseAnswer {
  let told = '';
  return finish(planningForSurprise(input), ({ part, words }) => {
    const line = { forecast: 'drawing knees', sets: 'weighing sets for each knee', choice: words }[part];
    if (line !== told) progress(`${line} ...`);
    told = line;
  });
}
