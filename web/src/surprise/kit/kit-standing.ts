import type { Outcome } from '@gapline/core/measure/outcome.ts';
import type { SurpriseKit } from '@gapline/core/plan/surprise.ts';
import { counted, pct } from '@gapline/core/plan/told/shares.ts';
import type { SurpriseStanding } from '../standing.ts';

/** Where the kit stands, in one line. */
export function kitStanding(kit: Outcome<SurpriseKit> | null): SurpriseStanding {
  if (kit === null) return { is: 'open', line: 'being reckoned' };
  if (!kit.ok) return { is: 'open', line: kit.reason.message };
  const { decided, proposed } = kit.value;
  const late = decided.sets.filter((s) => s.brought && s.late).length;
  if (late > 0) return { is: 'conflict', line: `${counted(late, 'set')} can no longer arrive in time` };
  const line = `${counted(decided.bring.length, 'set')}, an answer in ${pct(decided.share)}`;
  if (decided.share < proposed.asked) return { is: 'conflict', line: `${line}, ${pct(proposed.asked)} asked` };
  return { is: 'settled', line };
}
