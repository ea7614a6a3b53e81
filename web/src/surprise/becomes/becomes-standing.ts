import type { SurpriseAnswer } from '@gapline/core/plan/surprise.ts';
import { counted, pct } from '@gapline/core/plan/told/shares.ts';
import { leavesOf } from '../bail-outs/tree-layout.ts';
import type { SurpriseStanding } from '../standing.ts';

/** Where the forecast stands, in one line. */
export function becomesStanding(answer: SurpriseAnswer | null): SurpriseStanding {
  if (!answer) return { is: 'open', line: 'being reckoned' };
  if (!answer.forecast.ok) return { is: 'open', line: answer.forecast.reason.message };
  const { firstHolds, notStated } = answer.forecast.value.forecast;
  const line = `the first choice holds in ${pct(firstHolds)}`;
  if (notStated.length > 0) return { is: 'open', line: `${line}; ${notStated.length} not stated` };
  return { is: 'settled', line };
}

/** Where the bail-outs stand: how many ways there are, and how often none leads to a construct. */
export function bailOutsStanding(answer: SurpriseAnswer | null): SurpriseStanding {
  if (!answer) return { is: 'open', line: 'being reckoned' };
  if (!answer.forecast.ok) return { is: 'open', line: 'waits for the forecast' };
  const { bailOuts, noConstruct } = answer.forecast.value.forecast;
  const ways = counted(leavesOf(bailOuts).length, 'way');
  if (noConstruct > 0) return { is: 'settled', line: `${ways}; no construct in ${pct(noConstruct)}` };
  return { is: 'settled', line: `${ways}, each with a construct` };
}
