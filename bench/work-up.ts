import { nextTests } from '@gapline/core/infection/next-test.ts';
import { readWorkUp } from '@gapline/core/work-up/read-work-up.ts';
import { fullWorkUp } from '../cases/full-work-up.ts';
import type { Bench } from './bench-types.ts';

const AROUND = { today: '2026-11-01', measured: [] };
const RUNS = 40;

function median(run: () => void): number {
  for (let i = 0; i < 5; i += 1) run();
  const times = Array.from({ length: RUNS }, () => {
    const started = performance.now();
    run();
    return performance.now() - started;
  });
  return times.toSorted((a, b) => a - b)[RUNS / 2] ?? Number.NaN;
}

export const benches: readonly Bench[] = [
  {
    name: 'Work-up read anew after a keystroke, with what the next test would change',
    target: 'under 16 ms',
    run() {
      const record = fullWorkUp();
      const ours = median(() => {
        const reading = readWorkUp(record, AROUND);
        nextTests(reading.infection.observed.known, { horizon: 'before', definitions: ['parvizi-2018', 'ebjis-2021'] });
      });
      const theirs = median(() => {
        const reading = readWorkUp(record, AROUND);
        nextTests(reading.infection.observed.known, { horizon: 'all' });
      });
      return Promise.resolve({
        ours,
        theirs,
        unit: 'ms',
        ratio: ours / theirs,
        note: 'alternative: every definition and every test, deferred by the page',
      });
    },
  },
];
