import type { DrawnDefect } from '@gapline/core/bone/bone-map.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { CanalLevel } from '@gapline/core/stems/canal-trace.ts';
import { useId } from 'react';
import { nextRow, traceOf } from '../case/canal-edits.ts';
import { defectWords } from '../case/defect-edits.ts';
import { useDeskState, usePlanning, useSession } from '../case/desk.tsx';
import { number } from '../parts/words.ts';
import { useMmPerRow } from './use-film-tool.ts';
import { type Place, toScreen, type Viewport } from './viewport.ts';

interface Props {
  readonly film: CaseFilm;
  readonly view: Viewport;
}

/** Defects drawn on this film, and whatever is being drawn or traced on it, over the film and under its handles. */
export function FoundOnFilm({ film, view }: Props) {
  const drawn = useSession((s) => s.shown.bone?.drawn);
  const present = useDeskState((s) => s.layers.present);
  const tool = useDeskState((s) => s.tool);
  const hatch = useId();
  const here = tool?.film === film.id ? tool : null;
  const all = present || here ? (drawn ?? []).filter((d) => d.film === film.id) : [];
  return (
    <>
      <defs>
        <pattern
          id={hatch}
          className="defect-hatch"
          width="7"
          height="7"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path d="M0 0V7" />
        </pattern>
      </defs>
      {all.map((defect) => (
        <path
          key={defect.id}
          className="defect"
          fill={`url(#${hatch})`}
          data-defect={defect.id}
          d={`${lineOf(view, defect.outline)}Z`}
        >
          <title>{defectWords(defect)}</title>
        </path>
      ))}
      {all.map((defect) => (
        <Depth key={defect.id} defect={defect} view={view} />
      ))}
      {here?.is === 'draw' && <path className="defect is-open" fill="none" d={lineOf(view, here.drawing.points)} />}
      {here?.is === 'trace' && (
        <TracedLevels film={film} view={view} bone={here.tracing.bone} presses={here.tracing.presses} />
      )}
    </>
  );
}

/** How deep a drawn defect is, beside its outline. */
function Depth({ defect, view }: { readonly defect: DrawnDefect; readonly view: Viewport }) {
  const depths = usePlanning(({ plan: { boneStock } }) =>
    [...boneStock.femur.drawn, ...boneStock.tibia.drawn]
      .flatMap(({ drawn, size }) =>
        drawn.id === defect.id && size.ok && size.value.depthMm ? [size.value.depthMm.value] : [],
      )
      .join(' '),
  );
  if (depths === '') return null;
  const places = defect.outline.map((p) => toScreen(view, p));
  const right = places.reduce((far, p) => (p.x > far.x ? p : far), places[0] ?? { x: 0, y: 0 });
  const deepest = Math.max(...depths.split(' ').map(Number));
  return (
    <text className="found-label" x={right.x + 8} y={right.y + 4}>
      {number(deepest)} mm deep
    </text>
  );
}

const lineOf = (view: Viewport, points: readonly Place[]): string =>
  points
    .map((p, i) => {
      const at = toScreen(view, p);
      return `${i === 0 ? 'M' : 'L'}${at.x.toFixed(1)} ${at.y.toFixed(1)}`;
    })
    .join('');

/** Levels as bars across the canal, and a dashed line where the next one is wanted. */
function TracedLevels({
  film,
  view,
  bone,
  presses,
}: Props & { readonly bone: 'femur' | 'tibia'; readonly presses: readonly Place[] }) {
  const trace = useSession((s) => traceOf(s.shown, { bone, film: film.id }));
  const mmPerRow = useMmPerRow(film.id);
  const widths = usePlanning(
    ({ plan: { stems } }) =>
      [stems?.[bone].ap, stems?.[bone].lateral].find((reading) => reading?.film === film.id)?.widths,
  );
  // The second wall lies at the height of the first.
  const row = presses[0]?.y ?? nextRow(trace, mmPerRow);
  const guide = row === null ? null : acrossFilm(film, row);
  return (
    <>
      {trace?.levels.map((level, i) => (
        <g key={`${level.innerA.x} ${level.innerA.y} ${level.innerB.x}`}>
          <path className="canal-level" d={barOf(view, level)} />
          <Width at={level} mm={widths?.[i]?.widthMm} view={view} />
        </g>
      ))}
      {guide !== null && <path className="canal-guide" d={lineOf(view, guide)} />}
    </>
  );
}

/** A row of the film from edge to edge. */
const acrossFilm = (film: CaseFilm, row: number): readonly Place[] => [
  { x: -0.5, y: row },
  { x: film.scaleFacts.columns - 0.5, y: row },
];

/** Inner width of one level, beside it. */
function Width({
  at,
  mm,
  view,
}: {
  readonly at: CanalLevel;
  readonly mm: number | undefined;
  readonly view: Viewport;
}) {
  if (mm === undefined) return null;
  const [a, b] = [toScreen(view, at.innerA), toScreen(view, at.innerB)];
  const right = a.x > b.x ? a : b;
  return (
    <text className="found-label is-width" x={right.x + 14} y={right.y + 4}>
      {number(mm)}
    </text>
  );
}

const barOf = (view: Viewport, { innerA, innerB, outerA, outerB }: CanalLevel): string =>
  [lineOf(view, [innerA, innerB]), outerA && lineOf(view, [outerA, innerA]), outerB && lineOf(view, [innerB, outerB])]
    .filter(Boolean)
    .join('');
