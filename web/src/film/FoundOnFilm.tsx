import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { CanalLevel } from '@gapline/core/stems/canal-trace.ts';
import { nextRow, traceOf } from '../case/canal-edits.ts';
import { defectWords } from '../case/defect-edits.ts';
import { useDeskState, useSession } from '../case/desk.tsx';
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
  const here = tool?.film === film.id ? tool : null;
  const all = present || here ? (drawn ?? []).filter((d) => d.film === film.id) : [];
  return (
    <>
      <defs>
        <pattern id="defect-hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V7" />
        </pattern>
      </defs>
      {all.map((defect) => (
        <path key={defect.id} className="defect" data-defect={defect.id} d={`${lineOf(view, defect.outline)}Z`}>
          <title>{defectWords(defect)}</title>
        </path>
      ))}
      {here?.is === 'draw' && <path className="defect is-open" d={lineOf(view, here.drawing.points)} />}
      {here?.is === 'trace' && (
        <TracedLevels film={film} view={view} bone={here.tracing.bone} presses={here.tracing.presses} />
      )}
    </>
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
  // The second wall lies at the height of the first.
  const row = presses[0]?.y ?? nextRow(trace, mmPerRow);
  const guide = row === null ? null : toScreen(view, { x: 0, y: row }).y;
  return (
    <>
      {trace?.levels.map((level) => (
        <path
          key={`${level.innerA.x} ${level.innerA.y} ${level.innerB.x}`}
          className="canal-level"
          d={barOf(view, level)}
        />
      ))}
      {guide !== null && <path className="canal-guide" d={`M0 ${guide.toFixed(1)}H${view.width}`} />}
    </>
  );
}

const barOf = (view: Viewport, { innerA, innerB, outerA, outerB }: CanalLevel): string =>
  [lineOf(view, [innerA, innerB]), outerA && lineOf(view, [outerA, innerA]), outerB && lineOf(view, [innerB, outerB])]
    .filter(Boolean)
    .join('');
