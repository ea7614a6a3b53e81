import type { Assessment } from '@gapline/core/infection/assess.ts';
import { SHOWN_FIRST } from '@gapline/core/infection/definitions/definitions.ts';
import { nextTests, type TestEffect } from '@gapline/core/infection/next-test.ts';
import type { Horizon } from '@gapline/core/infection/reachable.ts';
import { type Sets, smallestSets } from '@gapline/core/infection/smallest-sets.ts';
import { TESTS } from '@gapline/core/infection/tests.ts';
import { useDeferredValue, useMemo, useState } from 'react';
import { useReading } from './reading.tsx';
import { definitionName, endsOf, movesOf, sentenceOf } from './what-next.ts';

/** What the next test would change, first in one plain sentence, then test by test. */
export function WouldChange() {
  const { observed, assessments } = useReading().infection;
  // Trying every result costs more than a keystroke may: it follows when the keys rest.
  const known = useDeferredValue(observed.known);
  const [horizon, setHorizon] = useState<Horizon>('before');
  const next = useMemo(() => nextTests(known, { horizon, definitions: SHOWN_FIRST }), [known, horizon]);
  const stale = known !== observed.known;
  return (
    <section className={`block${stale ? ' is-stale' : ''}`} aria-labelledby="change-title">
      <h2 id="change-title">What would change this</h2>
      <p className="sentence">{sentenceOf(next)}</p>
      <fieldset className="buttons plain">
        <legend className="unseen">Tests to count on</legend>
        <button type="button" aria-pressed={horizon === 'before'} onClick={() => setHorizon('before')}>
          Before operation
        </button>
        <button type="button" aria-pressed={horizon === 'all'} onClick={() => setHorizon('all')}>
          With cultures and histology at operation
        </button>
      </fieldset>
      <details className="fold">
        <summary>
          <h3>Test by test</h3>
          <span className="fold-said">{next.tests.length} can still matter</span>
        </summary>
        <ul className="test-list">
          {next.tests.map((effect) => (
            <TestMoves key={effect.test} effect={effect} />
          ))}
        </ul>
        {next.cannotChange.length > 0 && (
          <p className="said-line">
            Cannot change either class any more:{' '}
            {next.cannotChange.map((id) => TESTS[id].label.toLowerCase()).join(', ')}.
          </p>
        )}
      </details>
      <details className="fold">
        <summary>
          <h3>Smallest sets that could confirm or exclude</h3>
        </summary>
        {assessments.map((a) => (
          <SetsOf key={a.definition} assessment={a} known={known} horizon={horizon} />
        ))}
      </details>
    </section>
  );
}

function TestMoves({ effect }: { readonly effect: TestEffect }) {
  const moves = movesOf(effect);
  return (
    <li>
      <strong>{effect.label}</strong>
      {moves.length === 0 ? (
        <span>
          {' '}
          changes nothing by itself, can together with others ({effect.canChange.map(definitionName).join(', ')})
        </span>
      ) : (
        <ul>
          {moves.map((m) => (
            <li key={`${m.definition} ${m.to}`}>
              {endsOf(m.results)} → {definitionName(m.definition)}: <strong>{m.to}</strong>
            </li>
          ))}
        </ul>
      )}
    </li>
  );
}

interface SetsProps {
  readonly assessment: Assessment;
  readonly known: readonly number[];
  readonly horizon: Horizon;
}

/** Computed only once opened: trying all sets of a long definition takes a moment. */
function SetsOf({ assessment, known, horizon }: SetsProps) {
  const [open, setOpen] = useState(false);
  return (
    <details className="sets" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{assessment.name}</summary>
      {open && <Computed id={assessment.definition} known={known} horizon={horizon} />}
    </details>
  );
}

function Computed({ id, known, horizon }: Omit<SetsProps, 'assessment'> & { readonly id: Assessment['definition'] }) {
  const sets = useMemo(() => smallestSets(id, known, horizon), [id, known, horizon]);
  return (
    <>
      <SetList title="Would confirm" sets={sets.confirm} never="nothing that can still be had" />
      <SetList title="Would exclude by what is then known" sets={sets.exclude} never="nothing that can still be had" />
      <SetList
        title="Would exclude whatever else is found"
        sets={sets.excludeForCertain}
        never="nothing that can still be had"
      />
    </>
  );
}

/** Longer lists are cut here: the first ones are the smallest. */
const MOST_SHOWN = 8;

function SetList({ title, sets, never }: { readonly title: string; readonly sets: Sets; readonly never: string }) {
  const shown = sets.sets.slice(0, MOST_SHOWN);
  return (
    <div className="set-list">
      <h4>{title}</h4>
      {sets.state === 'already' && <p className="said-line">It already stands so.</p>}
      {sets.state === 'never' && <p className="said-line">{never}</p>}
      {sets.state === 'possible' && (
        <ul>
          {shown.map((set) => {
            const text = set.tests.map((t) => `${t.label}: ${endsOf(t.results)}`).join(' + ');
            return <li key={text}>{text}</li>;
          })}
          {sets.sets.length > shown.length && <li>and {sets.sets.length - shown.length} other sets</li>}
        </ul>
      )}
    </div>
  );
}
