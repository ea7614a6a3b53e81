import { type TrendPoint, trendOf } from '@gapline/core/work-up/trend.ts';
import { today, useReading, useRecord } from './reading.tsx';
import { type Tick, timeTicks, upperEnd } from './trend-scale.ts';

const [WIDTH, HEIGHT, LEFT, RIGHT, TOP, BOTTOM] = [560, 190, 42, 42, 26, 26];

interface Point {
  readonly day: number;
  readonly value: number;
  readonly text: string;
}

/** CRP and ESR over time, with operations and antibiotics marked. Drawn only from dated values without fault. */
export function TrendChart() {
  const { series } = useReading().infection.observed;
  const record = useRecord();
  const trend = trendOf(record, series, today());
  const crp = pointsOf(trend.crp, 'mg/L');
  const esr = pointsOf(trend.esr, 'mm/h');
  if (crp.length + esr.length < 2) return null;
  const days = [...crp, ...esr].map((p) => p.day);
  const [first, last] = [Math.min(...days), Math.max(...days)];
  const margin = Math.max(7, (last - first) * 0.06);
  const [begin, end] = [first - margin, last + margin];
  const x = (day: number): number => LEFT + ((WIDTH - LEFT - RIGHT) * (day - begin)) / (end - begin);
  const top = { crp: upperEnd(crp.map((p) => p.value)), esr: upperEnd(esr.map((p) => p.value)) };
  const y = (value: number, of: number): number => HEIGHT - BOTTOM - ((HEIGHT - TOP - BOTTOM) * value) / of;
  const within = (day: number): boolean => day >= begin && day <= end;
  const clipped = (day: number): number => x(Math.min(end, Math.max(begin, day)));
  return (
    <figure className="trend">
      <figcaption>
        <span className="is-crp">CRP, mg/L</span> <span className="is-esr">ESR, mm/h</span>
        <span className="is-antibiotic">antibiotics</span> <span className="is-operation">operation</span>
      </figcaption>
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={chartInWords(crp, esr)}>
        {trend.antibiotics
          .filter((s) => s.from <= end && (s.to ?? end) >= begin)
          .map((s) => (
            <g key={s.id} className="trend-span">
              <rect
                x={clipped(s.from)}
                width={Math.max(2, clipped(s.to ?? end) - clipped(s.from))}
                y={TOP - 14}
                height={10}
              />
              <title>{s.text}</title>
            </g>
          ))}
        {trend.operations
          .filter((o) => within(o.day))
          .map((o) => (
            <g key={o.id} className="trend-operation">
              <path d={`M${x(o.day)} ${TOP - 16}V${HEIGHT - BOTTOM}`} />
              <text x={x(o.day) + 3} y={TOP - 5}>
                {o.text}
              </text>
            </g>
          ))}
        <path className="trend-axis" d={`M${LEFT} ${TOP}V${HEIGHT - BOTTOM}H${WIDTH - RIGHT}V${TOP}`} />
        {timeTicks(begin, end).map((tick: Tick) => (
          <text key={tick.day} className="trend-tick" x={x(tick.day)} y={HEIGHT - 8} textAnchor="middle">
            {tick.text}
          </text>
        ))}
        {crp.length > 0 && (
          <>
            <text className="trend-tick" x={LEFT - 6} y={TOP + 4} textAnchor="end">
              {top.crp}
            </text>
            <path className="trend-line is-crp" d={lineOf(crp, x, (v) => y(v, top.crp))} />
            {crp.map((p) => (
              <circle key={`${p.day} ${p.value}`} className="trend-crp" cx={x(p.day)} cy={y(p.value, top.crp)} r="4">
                <title>CRP {p.text}</title>
              </circle>
            ))}
          </>
        )}
        {esr.length > 0 && (
          <>
            <text className="trend-tick" x={WIDTH - RIGHT + 6} y={TOP + 4}>
              {top.esr}
            </text>
            <path className="trend-line is-esr" d={lineOf(esr, x, (v) => y(v, top.esr))} />
            {esr.map((p) => (
              <rect
                key={`${p.day} ${p.value}`}
                className="trend-esr"
                x={x(p.day) - 3.5}
                y={y(p.value, top.esr) - 3.5}
                width="7"
                height="7"
              >
                <title>ESR {p.text}</title>
              </rect>
            ))}
          </>
        )}
      </svg>
      {trend.undated > 0 && <p className="said-line">{trend.undated} without a day: not on the chart.</p>}
    </figure>
  );
}

const pointsOf = (points: readonly TrendPoint[], unit: string): readonly Point[] =>
  points.map(({ day, value, comparator, on }) => ({ day, value, text: `${comparator ?? ''}${value} ${unit}, ${on}` }));

const lineOf = (points: readonly Point[], x: (day: number) => number, y: (value: number) => number): string =>
  points.map((p, i) => `${i === 0 ? 'M' : 'L'}${x(p.day).toFixed(1)} ${y(p.value).toFixed(1)}`).join('');

const chartInWords = (crp: readonly Point[], esr: readonly Point[]): string =>
  `Course of CRP: ${crp.map((p) => p.text).join('; ') || 'none'}. Course of ESR: ${esr.map((p) => p.text).join('; ') || 'none'}.`;
