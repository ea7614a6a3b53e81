import type { SurpriseAnswer } from '@gapline/core/plan/surprise.ts';
import { counted, pct } from '@gapline/core/plan/told/shares.ts';
import { useForecasting } from '../forecast/forecasting-context.tsx';
import { NoForecast } from '../forecast/NoForecast.tsx';
import { SurpriseSection } from '../SurpriseSection.tsx';
import { becomesStanding } from './becomes-standing.ts';
import { ChoiceShares } from './ChoiceShares.tsx';
import { ForecastInputs } from './ForecastInputs.tsx';
import { LengthBands } from './LengthBands.tsx';
import { LossAtRemoval } from './LossAtRemoval.tsx';
import { StatedSpreads } from './StatedSpreads.tsx';

/** What the plan may become once the bone is seen: the spread of each choice, and what the draws are made from. */
export function BecomesSection() {
  const answer = useForecasting((s) => s.answer);
  return (
    <SurpriseSection id="becomes" title="What it may become" standing={becomesStanding(answer)}>
      <Becomes answer={answer} />
    </SurpriseSection>
  );
}

function Becomes({ answer }: { readonly answer: SurpriseAnswer | null }) {
  const forecast = answer?.forecast.ok ? answer.forecast.value.forecast : null;
  return (
    <>
      {forecast ? (
        <>
          <p className="forecast-lead">
            <strong className="big">{pct(forecast.firstHolds)}</strong> of {counted(forecast.draws, 'drawn knee')} keep
            the first choice. The numbers are shares of openings, reckoned from the spreads below; they are no promise.
          </p>
          <ChoiceShares choices={forecast.choices} />
          <h3>Lengths to be found</h3>
          <LengthBands lengths={forecast.lengths} />
        </>
      ) : (
        <NoForecast />
      )}
      <StatedSpreads />
      <LossAtRemoval />
      <ForecastInputs notStated={forecast?.notStated ?? []} />
    </>
  );
}
