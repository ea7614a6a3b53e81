import type { JointLineEstimate } from '@gapline/core/joint-line/estimate-types.ts';
import { Z95 } from '@gapline/core/measure/quantity.ts';
import { number, signed } from '../parts/words.ts';

const WIDTH = 380;
const LEFT = 150;
const ROW = 20;
const TOP = 22;

/**
 * One tick a landmark where it wants the line, thick by its weight; the consensus as a band over all of
 * them; zero is the present line. To the right = proximal.
 */
export function OpinionChart({ estimate }: { readonly estimate: JointLineEstimate }) {
  const { opinions, heightMm, sdMm } = estimate;
  const heights = [0, heightMm - Z95 * sdMm, heightMm + Z95 * sdMm, ...opinions.map((o) => o.heightMm)];
  const low = Math.floor(Math.min(...heights) - 1);
  const high = Math.ceil(Math.max(...heights) + 1);
  const x = (mm: number): number => LEFT + ((mm - low) / (high - low)) * (WIDTH - LEFT - 10);
  const bottom = TOP + ROW * opinions.length;
  const every = high - low > 24 ? 10 : high - low > 9 ? 5 : 2;
  const ticks = Array.from({ length: high - low + 1 }, (_, i) => low + i).filter((mm) => mm % every === 0);
  return (
    <svg
      className="opinion-chart"
      viewBox={`0 0 ${WIDTH} ${bottom + 18}`}
      role="img"
      aria-label={`Joint line belongs ${signed(heightMm)} mm against the present one, 95 % interval ${number(heightMm - Z95 * sdMm)} to ${number(heightMm + Z95 * sdMm)}; ${opinions.length} landmarks`}
    >
      <rect
        className="chart-band"
        x={x(heightMm - Z95 * sdMm)}
        y={TOP - 6}
        width={x(heightMm + Z95 * sdMm) - x(heightMm - Z95 * sdMm)}
        height={bottom - TOP + 8}
      />
      <path className="chart-consensus" d={`M${x(heightMm)} ${TOP - 8}V${bottom + 4}`} />
      <path className="chart-present" d={`M${x(0)} ${TOP - 8}V${bottom + 4}`} />
      <text className="chart-word" x={x(0)} y={TOP - 12} textAnchor="middle">
        present
      </text>
      {opinions.map((o, i) => {
        const y = TOP + ROW * i + ROW / 2 - 3;
        return (
          <g key={`${o.id} ${o.film}`}>
            <text className="chart-label" x={LEFT - 10} y={y + 4} textAnchor="end">
              {shortened(o.label)}
            </text>
            <path className="chart-lead" d={`M${LEFT} ${y}H${WIDTH - 10}`} />
            <path
              className="chart-tick"
              d={`M${x(o.heightMm)} ${y - 6}v12`}
              strokeWidth={2 + 8 * Math.max(o.weight, 0)}
            />
          </g>
        );
      })}
      {ticks.map((mm) => (
        <text key={mm} className="chart-word" x={x(mm)} y={bottom + 16} textAnchor="middle">
          {signed(mm, 'px')}
        </text>
      ))}
    </svg>
  );
}

const shortened = (label: string): string => (label.length > 24 ? `${label.slice(0, 23)}…` : label);
