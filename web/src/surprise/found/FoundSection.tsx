import type { CaseFile } from '@gapline/core/plan/case.ts';
import { useSession } from '../../case/desk.tsx';
import { SurpriseSection } from '../SurpriseSection.tsx';
import type { SurpriseStanding } from '../standing.ts';
import { ComparisonOfCase } from './ComparisonOfCase.tsx';
import { FoundForm } from './FoundForm.tsx';
import { KeepForecast } from './KeepForecast.tsx';
import { Practice } from './Practice.tsx';

/** After surgery: what was found and used, how the forecast held, and what the practice's own cases would change. */
export function FoundSection() {
  const kept = useSession((s) => s.shown.keptForecast);
  const found = useSession((s) => s.shown.found);
  return (
    <SurpriseSection id="found" title="After surgery" standing={foundStanding(kept, found)}>
      <KeepForecast />
      <FoundForm />
      {kept && found && <ComparisonOfCase kept={kept} found={found} />}
      <Practice />
    </SurpriseSection>
  );
}

function foundStanding(kept: CaseFile['keptForecast'], found: CaseFile['found']): SurpriseStanding {
  if (found) return { is: 'settled', line: `Noted, operation of ${found.on}${kept ? '' : '; no forecast was kept'}` };
  return kept
    ? { is: 'settled', line: `Forecast kept on ${kept.on}; nothing found yet` }
    : { is: 'open', line: 'The forecast is not kept yet' };
}
