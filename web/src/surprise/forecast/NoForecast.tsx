import { useForecasting } from './forecasting-context.tsx';

/** Why there is no forecast yet, and what would mend it. */
export function NoForecast() {
  const { answer, is, fault } = useForecasting((s) => s);
  if (!answer) {
    return (
      <p role="status">
        {is === 'failed' ? fault : is === 'stopped' ? 'Stopped before an answer.' : 'Being reckoned …'}
      </p>
    );
  }
  if (answer.forecast.ok) return null;
  const { message, mend } = answer.forecast.reason;
  return (
    <>
      <p className="warning">
        {message} {mend}
      </p>
      {answer.missing.length > 0 && (
        <dl className="not-attempted">
          {answer.missing.map((m) => (
            <div key={`${m.field} ${m.what}`}>
              <dt>{m.what}</dt>
              <dd>{m.wouldChange}</dd>
            </div>
          ))}
        </dl>
      )}
    </>
  );
}
