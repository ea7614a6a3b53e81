import type { Calibration } from '@gapline/core/learning/calibration.ts';
import { pct } from '@gapline/core/plan/told/shares.ts';

const [SIZE, LEFT, TOP, PLOT] = [300, 44, 14, 236];

/** Forecast share against observed share: a forecast that holds lies on the diagonal. */
export function CalibrationChart({ of }: { readonly of: Calibration }) {
  const x = (share: number): number => LEFT + PLOT * share;
  const y = (share: number): number => TOP + PLOT * (1 - share);
  const told = of.bins.map((b) => `forecast ${pct(b.forecast)}, came ${b.came} of ${b.n}`).join('; ');
  return (
    <svg className="calibration-chart" viewBox={`0 0 ${SIZE} ${SIZE}`} role="img" aria-label={`Calibration: ${told}.`}>
      <path className="arc-zero" d={`M${x(0)} ${TOP}V${y(0)}H${x(1)}`} fill="none" />
      <path className="calibration-right" d={`M${x(0)} ${y(0)}L${x(1)} ${y(1)}`} />
      {[0, 0.5, 1].map((share) => (
        <g key={share}>
          <text className="arc-tick" x={LEFT - 6} y={y(share) + 4} textAnchor="end">
            {100 * share} %
          </text>
          <text className="arc-tick" x={x(share)} y={y(0) + 16} textAnchor={share === 1 ? 'end' : 'middle'}>
            {100 * share} %
          </text>
        </g>
      ))}
      <text className="arc-tick" x={x(0.5)} y={SIZE - 4} textAnchor="middle">
        said beforehand
      </text>
      <text className="arc-tick" x={LEFT + 4} y={TOP + 4}>
        came
      </text>
      {of.bins.map((b) => (
        <g key={b.from}>
          <path className="calibration-bar" d={`M${x(b.forecast)} ${y(b.observed.low)}V${y(b.observed.high)}`} />
          <circle
            className="calibration-dot"
            cx={x(b.forecast)}
            cy={y(b.observed.share)}
            r={Math.min(9, 3 + Math.sqrt(b.n) / 2)}
          />
        </g>
      ))}
    </svg>
  );
}
