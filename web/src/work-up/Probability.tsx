import { estimate, type Probability as Share } from '@gapline/core/infection/probability.ts';
import { TESTS } from '@gapline/core/infection/tests.ts';
import { NumberLine } from './inputs.tsx';
import { useReading, useRecord } from './reading.tsx';
import { useSlot } from './slot.ts';

/** Probability from published likelihood ratios; asked for a pre-test value, which is the reader's own. */
export function Probability() {
  const { observed } = useReading().infection;
  const record = useRecord();
  const share = useSlot<number>('/workUp/preTest');
  const method = observed.lab.find((a) => a.test === 'alpha-defensin')?.inUse.used.at(-1)?.entered.method;
  const pretest = record.preTest;
  const read =
    pretest === undefined
      ? null
      : estimate(observed.known, { pretest, ...(method === undefined ? {} : { defensinMethod: method }) });
  return (
    <details className="fold block">
      <summary>
        <h3>Probability of infection</h3>
        <span className="fold-said">
          {read?.ok && read.value.combined ? percent(read.value.combined) : 'an estimate'}
        </span>
      </summary>
      <div className="pairs">
        <NumberLine
          label="Before any test, your own estimate"
          unit="%"
          slot={{
            value: share.value === undefined ? undefined : Math.round(1000 * share.value) / 10,
            set: (next, how) => share.set(next === undefined ? undefined : next / 100, how),
          }}
        />
      </div>
      {read === null && <p className="said-line">Give a value between 0 and 100 %: none is assumed.</p>}
      {read && !read.ok && <p className="field-fault">{read.reason.message}</p>}
      {read?.ok && (
        <>
          <p className="said-line">
            {read.value.combined
              ? `After the tests used together: ${percent(read.value.combined)}.`
              : 'No test with a published ratio is known yet.'}
          </p>
          <ul className="test-list">
            {read.value.single.map((s) => (
              <li key={s.test}>
                {TESTS[s.test].label}, {s.result}: alone {percent(s.after)}
                {read.value.usedInCombined.includes(s.test) ? ', used' : ''} <small>{s.accuracy.source}</small>
              </li>
            ))}
            {read.value.leftOut.map((l) => (
              <li key={l.test}>
                {TESTS[l.test].label}: left out, {l.why}
              </li>
            ))}
          </ul>
          <p className="said-line">{read.value.label}</p>
        </>
      )}
    </details>
  );
}

const whole = (share: number): string => `${(100 * share).toFixed(share > 0.995 || share < 0.005 ? 1 : 0)} %`;
const percent = (p: Share): string =>
  `${whole(p.value)}${p.interval ? ` (${whole(p.interval[0])} to ${whole(p.interval[1])})` : ', no interval published'}`;
