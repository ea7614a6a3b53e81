import { number, signed } from '../../parts/words.ts';
import type { ArcReading } from './arc-reading.ts';

const [WIDTH, HEIGHT, LEFT, RIGHT, TOP, BOTTOM] = [560, 250, 46, 12, 18, 34];
const END_DEG = 120;

interface Props {
  readonly now: ArcReading;
  /** The plan's own, drawn faint behind what is tried; null = what is shown is the plan. */
  readonly plan: ArcReading | null;
}

/** Laxity from 0 to 120 degrees: medial a full line with discs, lateral dashed with squares, the window as a band. */
export function ArcChart({ now, plan }: Props) {
  const all = [now, ...(plan ? [plan] : [])].flatMap((r) =>
    r.points.flatMap((p) => [p.laxityMm.medial, p.laxityMm.lateral]),
  );
  const low = Math.floor(Math.min(-2, now.band[0] - 1, ...all));
  const high = Math.ceil(Math.max(7, now.band[1] + 1, ...all));
  const x = (deg: number): number => LEFT + ((WIDTH - LEFT - RIGHT) * deg) / END_DEG;
  const y = (mm: number): number => TOP + ((HEIGHT - TOP - BOTTOM) * (high - mm)) / (high - low);
  const line = (reading: ArcReading, side: 'medial' | 'lateral'): string =>
    reading.points
      .map((p, i) => `${i === 0 ? 'M' : 'L'}${x(p.flexionDeg).toFixed(1)} ${y(p.laxityMm[side]).toFixed(1)}`)
      .join('');
  const { excess, band } = now;
  const every = high - low > 14 ? 5 : 2;
  const ticks = Array.from({ length: high - low + 1 }, (_, i) => low + i).filter((mm) => mm % every === 0);
  return (
    <svg className="arc-chart" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={inWords(now)}>
      <rect className="arc-band" x={x(0)} y={y(band[1])} width={x(END_DEG) - x(0)} height={y(band[0]) - y(band[1])} />
      {ticks.map((mm) => (
        <g key={mm}>
          <path className={mm === 0 ? 'arc-zero' : 'arc-grid'} d={`M${x(0)} ${y(mm)}H${x(END_DEG)}`} />
          <text className="arc-tick" x={LEFT - 6} y={y(mm) + 4} textAnchor="end">
            {mm < 0 ? `−${-mm}` : mm}
          </text>
        </g>
      ))}
      {[0, 30, 60, 90, 120].map((deg) => (
        <text key={deg} className="arc-tick" x={x(deg)} y={HEIGHT - 14} textAnchor={deg === END_DEG ? 'end' : 'middle'}>
          {deg}°
        </text>
      ))}
      <text className="arc-word" x={x(0) + 6} y={y(band[1]) + 14}>
        window
      </text>
      <text className="arc-word" x={LEFT - 40} y={TOP - 5}>
        mm, + loose
      </text>
      {plan && (
        <>
          <path className="arc-line is-plan" d={line(plan, 'medial')} />
          <path className="arc-line is-plan" d={line(plan, 'lateral')} />
        </>
      )}
      <path className="arc-line is-medial" d={line(now, 'medial')} />
      <path className="arc-line is-lateral" d={line(now, 'lateral')} />
      {now.points
        .filter((p) => p.flexionDeg % 30 === 0)
        .map((p) => (
          <g key={p.flexionDeg}>
            <circle className="arc-dot is-medial" cx={x(p.flexionDeg)} cy={y(p.laxityMm.medial)} r="4.5" />
            <rect
              className="arc-dot is-lateral"
              x={x(p.flexionDeg) - 4}
              y={y(p.laxityMm.lateral) - 4}
              width="8"
              height="8"
            />
          </g>
        ))}
      {excess.excessMm >= 0.05 && (
        <path
          className="arc-excess"
          d={`M${x(excess.flexionDeg)} ${y(excess.laxityMm)}V${y(excess.laxityMm - excess.excessMm)}`}
        />
      )}
    </svg>
  );
}

function inWords({ points, excess }: ArcReading): string {
  const at = [0, 30, 60, 90, 120].flatMap((deg) => points.find((p) => p.flexionDeg === deg) ?? []);
  const told = at.map(
    (p) => `${p.flexionDeg} degrees: medial ${signed(p.laxityMm.medial)}, lateral ${signed(p.laxityMm.lateral)} mm`,
  );
  return `Laxity through the arc. ${told.join('; ')}. Mid-flexion excess ${number(excess.excessMm)} mm.`;
}
