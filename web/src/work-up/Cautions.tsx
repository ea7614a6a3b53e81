import { type EarlyTest, readEarlyLimits } from '@gapline/core/infection/early-limits.ts';
import { TESTS } from '@gapline/core/infection/tests.ts';
import { daysBetween } from '@gapline/core/laboratory/day.ts';
import { today, useReading, useRecord } from './reading.tsx';

/** Cautions beside the score: they never change it. */
export function Cautions() {
  const { cautions } = useReading().infection;
  if (cautions.length === 0) return null;
  return (
    <section className="block" aria-labelledby="cautions-title">
      <h2 id="cautions-title">Read with caution</h2>
      <ul className="cautions">
        {cautions.map((c) => (
          <li key={c.id}>
            {c.text}
            <small> {c.source}</small>
          </li>
        ))}
      </ul>
      <EarlyLimits />
    </section>
  );
}

const EARLY_TESTS: readonly EarlyTest[] = ['crp', 'esr', 'synovial-wbc', 'synovial-pmn'];
const READ = { over: 'over', 'not-over': 'not over', 'not-known': 'not known' } as const;

/** Published limits of the first weeks, each with its source; they disagree and belong to no definition. */
function EarlyLimits() {
  const findings = useRecord().infection ?? {};
  const { lab } = useReading().infection.observed;
  const since =
    findings.lastOperationOn === undefined
      ? null
      : daysBetween(findings.lastOperationOn, findings.decisionOn ?? today());
  if (since === null) return null;
  const values = Object.fromEntries(
    EARLY_TESTS.flatMap((test) => {
      const used = lab.find((a) => a.test === test)?.inUse.used.at(-1);
      return used?.of.kind === 'number' ? [[test, used.of.value]] : [];
    }),
  );
  const rows = readEarlyLimits(since, values);
  if (rows.length === 0) return null;
  return (
    <details className="fold">
      <summary>
        <h3>Published limits for the first weeks</h3>
        <span className="fold-said">day {since}</span>
      </summary>
      <ul className="test-list">
        {rows.map((r) => (
          <li key={`${r.test} ${r.over} ${r.withinDays}`}>
            {TESTS[r.test].label} over {r.over.toLocaleString('en-US')} {TESTS[r.test].unit} within {r.withinDays} days:{' '}
            <strong>{READ[r.reading]}</strong> <small>{`${r.accuracy}. ${r.source}`}</small>
          </li>
        ))}
      </ul>
    </details>
  );
}
