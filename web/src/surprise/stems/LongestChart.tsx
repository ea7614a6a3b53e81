import type { LongestOfDiameter } from '@gapline/core/stems/rank-stems.ts';

const [LEFT, ROW, TOP, WIDTH] = [150, 24, 22, 520];

/** Longest stem that passes, by diameter: a bar for each view, and a disc for every length of the catalogue that passes both. */
export function LongestChart({ rows, bone }: { readonly rows: readonly LongestOfDiameter[]; readonly bone: string }) {
  if (rows.length === 0) return null;
  const most = Math.max(100, ...rows.flatMap((r) => [r.apMm ?? 0, r.lateralMm ?? 0, ...r.passes, ...r.notKnown]));
  const end = Math.ceil(most / 50) * 50;
  const x = (mm: number): number => LEFT + ((WIDTH - LEFT - 14) * mm) / end;
  const bottom = TOP + ROW * rows.length;
  const ticks = Array.from({ length: end / 50 + 1 }, (_, i) => i * 50);
  return (
    <svg className="longest-chart" viewBox={`0 0 ${WIDTH} ${bottom + 6}`} role="img" aria-label={inWords(rows, bone)}>
      {ticks.map((mm) => (
        <g key={mm}>
          <path className="arc-grid" d={`M${x(mm)} ${TOP - 4}V${bottom}`} />
          <text className="arc-tick" x={x(mm)} y={TOP - 9} textAnchor="middle">
            {mm}
          </text>
        </g>
      ))}
      {rows.map((row, i) => {
        const y = TOP + ROW * i;
        return (
          <g key={`${row.fixation} ${row.shape} ${row.diameterMm}`}>
            <text className="longest-label" x={LEFT - 8} y={y + 16} textAnchor="end">
              {row.diameterMm} mm {row.fixation}
              {row.shape === 'bowed' ? ', bowed' : ''}
            </text>
            <Bar mm={row.apMm} open={row.apEndsWithTrace} y={y + 4} x={x} of="ap" />
            <Bar mm={row.lateralMm} open={row.lateralEndsWithTrace} y={y + 13} x={x} of="lateral" />
            {row.passes.map((mm) => (
              <circle key={mm} className="longest-dot" cx={x(mm)} cy={y + 12} r="4.5" />
            ))}
            {row.notKnown.map((mm) => (
              <circle key={mm} className="longest-dot is-open" cx={x(mm)} cy={y + 12} r="4.5" />
            ))}
          </g>
        );
      })}
    </svg>
  );
}

function Bar(props: {
  readonly mm: number | null;
  readonly open: boolean;
  readonly y: number;
  readonly x: (mm: number) => number;
  readonly of: 'ap' | 'lateral';
}) {
  const { mm, open, y, x, of } = props;
  if (mm === null) return null;
  return (
    <>
      <rect className={`longest-bar is-${of}`} x={x(0)} y={y} width={Math.max(1, x(mm) - x(0))} height="7" />
      {open && <path className="longest-open" d={`M${x(mm) + 1} ${y}l5 3.5-5 3.5`} />}
    </>
  );
}

const inWords = (rows: readonly LongestOfDiameter[], bone: string): string =>
  `Longest stem of the ${bone} that passes, by diameter. ${rows
    .map((r) => `${r.diameterMm} mm ${r.fixation}: AP ${told(r.apMm)}, lateral ${told(r.lateralMm)}`)
    .join('; ')}.`;
const told = (mm: number | null): string => (mm === null ? 'not known' : `${Math.floor(mm)} mm`);
