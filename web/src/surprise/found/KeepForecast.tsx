import type { KeptForecast } from '@gapline/core/learning/found.ts';
import { keepForecast } from '@gapline/core/learning/keep-forecast.ts';
import { useMemo } from 'react';
import { useDesk, usePlanning, useSession } from '../../case/desk.tsx';
import { today } from '../../work-up/reading.tsx';
import { useForecasting } from '../forecast/forecasting-context.tsx';
import { sameForecast } from './as-planned.ts';

/** The forecast of the plan as it stands, ready to be kept; null while there is none. */
export function useForecastToKeep(): KeptForecast | null {
  const answer = useForecasting((s) => s.answer);
  const settled = useForecasting((s) => s.is === 'settled');
  const coreVersion = usePlanning((s) => s.plan.versions.core);
  return useMemo(() => {
    if (!settled || !answer?.forecast.ok) return null;
    return keepForecast(answer.forecast.value.forecast, {
      on: today(),
      coreVersion,
      ...(answer.kit.ok ? { kitShare: answer.kit.value.decided.share } : {}),
    });
  }, [answer, settled, coreVersion]);
}

/** Keeps the forecast before surgery, so that it can be held against what is found; warns when the plan has moved on. */
export function KeepForecast() {
  const { session } = useDesk();
  const kept = useSession((s) => s.shown.keptForecast);
  const found = useSession((s) => s.shown.found);
  const now = useForecastToKeep();
  const outdated = kept !== undefined && now !== null && !sameForecast(kept, now);
  const keep = (): void => {
    if (now) session.commit([{ kind: 'set', field: '/keptForecast', value: now }], 'Forecast kept');
  };
  return (
    <div className={`keep-forecast${outdated ? ' is-outdated' : ''}`}>
      <p>
        {kept ? (
          <>
            <strong>Kept on {kept.on}</strong>: {kept.draws} draws, {kept.shares.length} shares.{' '}
            {outdated && (found ? OUTDATED_AFTER : OUTDATED_BEFORE)}
          </>
        ) : found ? (
          'No forecast was kept before surgery: nothing can be compared.'
        ) : (
          'Before surgery: keep the forecast, so that it can be held against what is found.'
        )}
      </p>
      {(!kept || outdated) && !found && (
        <button type="button" className={kept ? undefined : 'is-main'} disabled={!now} onClick={keep}>
          {kept ? 'Keep it anew' : 'Keep this forecast'}
        </button>
      )}
      {!now && !found && <small>It can be kept once the forecast is made.</small>}
    </div>
  );
}

const OUTDATED_BEFORE = 'The plan has changed since: the kept forecast is older than the plan.';
const OUTDATED_AFTER = 'The plan was changed after it was kept; what was kept stays what is compared.';
