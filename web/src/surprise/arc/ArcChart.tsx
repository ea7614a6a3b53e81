import type { ArcCurve, JudgedPoint } from '@gapline/core/gaps/arc-curve.ts';
import { ARC_END_DEG } from '@gapline/core/gaps/arc-laxity.ts';
import { number, signed } from '../../parts/words.ts';

const [WIDTH, HEIGHT, LEFT, RIGHT, TOP, BOTTOM] = [360, 230, 40, 12, 30, 28];

interface Props {
  readonly side: 'medial' | 'lateral';
  readonly now: ArcCurve;
  /** The plan's own, drawn thin behind what is tried; null = what is shown is the plan. */
  readonly plan: ArcCurve | null;
  /** Least and most of the laxity axis, mm; the same on both sides. */
  readonly range: readonly [number, number];
}

/** Whole millimetres that hold every curve and band of both sides. */
export function arcRange(curves: readonly (ArcCurve | null)[]): readonly [number, number] {
  const all = curves.flatMap((c) =>
    (c?.points ?? []).flatMap((p) =>
      (['medial', 'lateral'] as const).flatMap((x) => [p.laxityMm[x], ...p.band[x], p.onTargetMm[x]]),
    ),
  );
  return [Math.floor(Math.min(-1, ...all) - 0.5), Math.ceil(Math.max(5, ...all) + 0.5)];
}

/** Laxity of one side from 0 to 120 degrees: with the construct, with the surfaces on target, and the free band. */
export function ArcChart({ side, now, plan, range: [low, high] }: Props) {
  const x = (deg: number): number => LEFT + ((WIDTH - LEFT - RIGHT) * deg) / ARC_END_DEG;
  const y = (mm: number): number => TOP + ((HEIGHT - TOP - BOTTOM) * (high - mm)) / (high - low);
  const line = (points: readonly JudgedPoint[], of: (p: JudgedPoint) => number): string =>
    points.map((p, i) => `${i === 0 ? 'M' : 'L'}${x(p.flexionDeg).toFixed(1)} ${y(of(p)).toFixed(1)}`).join('');
  const back = now.points.toReversed();
  const band = `${line(now.points, (p) => p.band[side][1])}${line(back, (p) => p.band[side][0]).replace('M', 'L')}Z`;
  const every = high - low > 14 ? 5 : 2;
  const ticks = Array.from({ length: high - low + 1 }, (_, i) => low + i).filter((mm) => mm % every === 0);
  const at = now.points.find((p) => p.flexionDeg >= now.excess.flexionDeg);
  const top = at?.laxityMm[side];
  return (
    <svg className="arc-chart" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={inWords(side, now)}>
      <path className="arc-band" d={band} />
      {ticks.map((mm) => (
        <g key={mm}>
          <path className={mm === 0 ? 'arc-zero' : 'arc-grid'} d={`M${x(0)} ${y(mm)}H${x(ARC_END_DEG)}`} />
          <text className="arc-tick" x={LEFT - 6} y={y(mm) + 4} textAnchor="end">
            {mm < 0 ? `−${-mm}` : mm}
          </text>
        </g>
      ))}
      {[0, 30, 60, 90, 120].map((deg) => (
        <text
          key={deg}
          className="arc-tick"
          x={x(deg)}
          y={HEIGHT - 8}
          textAnchor={deg === ARC_END_DEG ? 'end' : 'middle'}
        >
          {deg}°
        </text>
      ))}
      <text className="arc-side" x={LEFT} y={18}>
        {side === 'medial' ? 'Medial' : 'Lateral'}
      </text>
      <text className="arc-tick" x={WIDTH - RIGHT} y={18} textAnchor="end">
        mm, + loose
      </text>
      <path className="arc-line is-target" d={line(now.points, (p) => p.onTargetMm[side])} />
      {plan && <path className="arc-line is-plan" d={line(plan.points, (p) => p.laxityMm[side])} />}
      <path className={`arc-line is-${side}`} d={line(now.points, (p) => p.laxityMm[side])} />
      {now.points
        .filter((p) => p.flexionDeg % 30 === 0)
        .map((p) => (
          <Dot key={p.flexionDeg} side={side} x={x(p.flexionDeg)} y={y(p.laxityMm[side])} />
        ))}
      {at && top !== undefined && Math.abs(now.excess.excessMm) >= 0.05 && (
        <path className="arc-excess" d={`M${x(at.flexionDeg)} ${y(top)}V${y(top - now.excess.excessMm)}`} />
      )}
    </svg>
  );
}

/** A disc on the medial side, a square on the lateral one: apart without colour. */
const Dot = ({ side, x, y }: { readonly side: 'medial' | 'lateral'; readonly x: number; readonly y: number }) =>
  side === 'medial' ? (
    <circle className="arc-dot is-medial" cx={x} cy={y} r="4.5" />
  ) : (
    <rect className="arc-dot is-lateral" x={x - 4} y={y - 4} width="8" height="8" />
  );

function inWords(side: 'medial' | 'lateral', { points, excess }: ArcCurve): string {
  const told = [0, 30, 60, 90, 120]
    .flatMap((deg) => points.find((p) => p.flexionDeg === deg) ?? [])
    .map((p) => `${p.flexionDeg} degrees ${signed(p.laxityMm[side])}`);
  return `Laxity of the ${side} side through the arc, mm: ${told.join('; ')}. Mid-flexion excess ${number(excess.excessMm)} mm.`;
}
