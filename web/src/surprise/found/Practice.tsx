import { type Calibration, calibrationOf } from '@gapline/core/learning/calibration.ts';
import { compareFound } from '@gapline/core/learning/compare-found.ts';
import { LEAST_CASES, offeredUpdates } from '@gapline/core/learning/offer-updates.ts';
import { pct } from '@gapline/core/plan/told/shares.ts';
import { useEffect, useState } from 'react';
import type { LearntCase } from '../../../../server/src/contract.ts';
import { useSession } from '../../case/desk.tsx';
import { faultText } from '../../parts/fault-text.ts';
import { get } from '../../wire/api.ts';
import { CalibrationChart } from './CalibrationChart.tsx';
import { Offers } from './Offers.tsx';

/** Every noted case of this practice, fetched anew when what was found or kept in this one is on the disk. */
function useLearntCases(): { readonly cases: readonly LearntCase[] | null; readonly fault: string | null } {
  const saved = useSession((s) => JSON.stringify([s.confirmed.case.found, s.confirmed.case.keptForecast]));
  const [state, setState] = useState<ReturnType<typeof useLearntCases>>({ cases: null, fault: null });
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is on the disk is what makes the answer old
  useEffect(() => {
    let wanted = true;
    get<readonly LearntCase[]>('/api/learning')
      .then((cases) => wanted && setState({ cases, fault: null }))
      .catch((fault: unknown) => wanted && setState((s) => ({ ...s, fault: faultText(fault) })));
    return () => {
      wanted = false;
    };
  }, [saved]);
  return state;
}

/** How the forecasts of this practice held so far, and what its own cases would change. */
export function Practice() {
  const { cases, fault } = useLearntCases();
  if (fault) return <p className="field-fault">{fault}</p>;
  if (!cases) return <p role="status">The cases of this practice are being read …</p>;
  const series = cases.flatMap(({ kept, found }) => (kept ? [{ kept, found }] : []));
  if (series.length === 0)
    return (
      <p className="said-line">
        No case of this practice has both a kept forecast and findings yet. From {LEAST_CASES} on, updated distributions
        are offered.
      </p>
    );
  const calibration = calibrationOf(series.map(({ kept, found }) => compareFound(kept, found)));
  return (
    <div className="practice">
      <h3>
        This practice: {series.length} {series.length === 1 ? 'case' : 'cases'}, {calibration.events} forecasts
      </h3>
      <div className="practice-columns">
        <CalibrationChart of={calibration} />
        <div>
          <BrierWords of={calibration} />
          <LengthWords of={calibration} />
          <p className="table-note">
            Bars: 95 % (Wilson). Forecasts of one knee hang together, so they are somewhat too narrow.
          </p>
        </div>
      </div>
      <Offers offers={offeredUpdates(series)} cases={series.length} />
    </div>
  );
}

function BrierWords({ of: { brier } }: { readonly of: Calibration }) {
  if (!brier) return null;
  return (
    <p>
      Brier score <span className="big-number">{brier.score.toFixed(3)}</span>{' '}
      <small>
        0 = always right; {brier.constant.toFixed(3)} = always saying the mean
        {brier.skill === null ? '' : `; skill ${brier.skill.toFixed(2)}`}
      </small>
    </p>
  );
}

function LengthWords({ of: { lengths } }: { readonly of: Calibration }) {
  if (lengths.n === 0 || !lengths.inside) return <p className="said-line">No measured bone is noted yet.</p>;
  const most = Math.max(...lengths.cells, ...lengths.expected, 1);
  return (
    <>
      <p>
        Bone within its 5 to 95 % band: <span className="big-number">{pct(lengths.inside.share)}</span>{' '}
        <small>
          of {lengths.n}; 90 % is right{lengths.p === null ? '' : `; p ${lengths.p.toFixed(2)}`}
        </small>
      </p>
      <svg
        className="cell-chart"
        viewBox="0 0 240 70"
        role="img"
        aria-label={`Where found bone fell in its forecast, from below to above: ${lengths.cells.join(', ')}`}
      >
        {lengths.cells.map((n, i) => {
          const x = 4 + 40 * i;
          const height = (54 * n) / most;
          const wanted = 60 - (54 * (lengths.expected[i] ?? 0)) / most;
          return (
            // The cells stand in their order, each at its own place.
            <g key={x}>
              <rect className="longest-bar is-ap" x={x} y={60 - height} width="30" height={height} />
              <path className="calibration-right" d={`M${x - 3} ${wanted}h36`} />
            </g>
          );
        })}
      </svg>
    </>
  );
}
