import { NOTHING_KNOWN } from '@gapline/core/infection/cells.ts';
import { nextTests } from '@gapline/core/infection/next-test.ts';
import { observe } from '@gapline/core/infection/observe.ts';
import { readWorkUp } from '@gapline/core/work-up/read-work-up.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import { describe, expect, test } from 'vitest';
import { gateLine } from './gate-line.ts';
import { endsOf, movesOf, sentenceOf } from './what-next.ts';

const SHOWN = ['parvizi-2018', 'ebjis-2021'] as const;
const read = (record: WorkUp) => readWorkUp(record, { today: '2026-03-01', measured: [] });

describe('What the page tells', () => {
  test('the sentence names the test that would change most, and each move names result, definition and class', () => {
    const next = nextTests(NOTHING_KNOWN, { horizon: 'before', definitions: SHOWN });
    const sentence = sentenceOf(next);
    expect(sentence.startsWith(`${next.tests[0]!.label}. If `)).toBe(true);
    for (const move of movesOf(next.tests[0]!)) {
      expect(move.results.length).toBeGreaterThan(0);
      expect(sentence.toLowerCase()).toContain(move.to.toLowerCase());
    }
  });

  test('with a sinus tract nothing can change either class any more, and the sentence says so', () => {
    const { known } = observe({ sinus: 'yes' }, '2026-03-01');
    expect(sentenceOf(nextTests(known, { horizon: 'all', definitions: SHOWN }))).toBe(
      'No test still to be had now or at operation can change either class.',
    );
  });

  test('results in a row are told by their ends', () => {
    expect(endsOf(['a'])).toBe('a');
    expect(endsOf(['a', 'b'])).toBe('a or b');
    expect(endsOf(['a', 'b', 'c'])).toBe('a up to c');
  });

  test('the gate tells what is missing first, then that it is ready', () => {
    expect(gateLine(read({}).gate)).toBe('Not ready: infection has not been assessed, and 1 more');
    const settled: WorkUp = {
      infectionDecision: { standing: 'excluded', by: 'AB', on: '2026-03-01', reason: 'full work-up' },
      causes: [{ cause: 'loosening', reason: 'subsided 3 mm' }],
    };
    expect(gateLine(read(settled).gate)).toBe('Ready: infection settled, cause named');
  });

  test('an override with a reason opens the gate and says that no cause was found', () => {
    expect(gateLine({ ready: true, open: [], referralProposed: true, overridden: true })).toBe(
      'Open by a written reason, with no cause found',
    );
    expect(gateLine({ ready: false, open: [], referralProposed: true, overridden: false })).toBe(
      'Not ready: pain unexplained, referral proposed',
    );
  });
});
