import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import { Z95 } from '@gapline/core/measure/quantity.ts';
import { errorAt } from '@gapline/core/plane/register.ts';
import type { FilmRegistration } from '@gapline/core/plane/register-films.ts';
import { useDesk, usePlanning, useSession } from '../case/desk.tsx';
import { withUnit } from '../parts/words.ts';
import { sideOn } from './anchor.ts';
import { chosenPoints, type Dates, type WipePoint } from './before-after.ts';
import type { Wipe, WipeBone } from './viewing.ts';
import type { Viewport } from './viewport.ts';

interface Props {
  readonly dates: Dates;
  readonly wipe: Wipe;
  readonly points: readonly WipePoint[];
  readonly fit: Outcome<FilmRegistration>;
  /** What is in sight of the later film; null while nothing is. */
  readonly view: Viewport | null;
}

/** How well two dates lie on one another, or why they do not; by which points, and which of them are lacking. */
export function WipeResidual({ dates, wipe, points, fit, view }: Props) {
  const { state } = useDesk();
  const used = chosenPoints(points, wipe.chosen);
  const change = (next: Partial<Wipe>): void =>
    state.setState((s) => ({ viewing: { ...s.viewing, wipe: { ...wipe, ...next } } }));
  return (
    <div className="wipe-residual">
      {fit.ok ? (
        <p role="status">
          Residual <strong>{withUnit(fit.value.residualMm)}</strong> over {used.length} points of the {wipe.bone} (most{' '}
          {withUnit(fit.value.worst.mm)}: {used[fit.value.worst.pair]?.landmark.label})
          {view && <Here fit={fit.value} points={used} view={view} film={dates.later.id} />}
          {fit.warnings.map((w) => (
            <span key={w.code} className="wipe-warning">
              {w.message} {w.mend}
            </span>
          ))}
        </p>
      ) : (
        <p role="alert">
          <strong>Not laid over one another.</strong> {fit.reason.message} {fit.reason.mend}
        </p>
      )}
      <details>
        <summary>Points</summary>
        <Bones bone={wipe.bone} onBone={(bone) => change({ bone, chosen: null })} />
        <ul>
          {points.map((p) => (
            <PointLine
              key={p.landmark.id}
              point={p}
              counts={used.includes(p)}
              dates={dates}
              onCounts={(counts) => {
                const others = used.map((u) => u.landmark.id).filter((id) => id !== p.landmark.id);
                change({ chosen: counts ? [...others, p.landmark.id] : others });
              }}
            />
          ))}
        </ul>
      </details>
    </div>
  );
}

/** What marking leaves uncertain in the middle of the picture: the residual does not tell it. */
function Here(props: {
  readonly fit: FilmRegistration;
  readonly points: readonly WipePoint[];
  readonly view: Viewport;
  readonly film: string;
}) {
  const { fit, points, view, film } = props;
  const calibration = usePlanning((s) => s.plan.films.find((f) => f.id === film)?.calibration);
  if (!calibration || calibration.source === 'none') return null;
  const at = { x: view.centre.x * calibration.mmPerPx.x, y: view.centre.y * calibration.mmPerPx.y };
  // Each pair carries the marks of both films.
  const sd = Math.SQRT2 * Math.max(...points.map((p) => p.landmark.markingSdMm));
  return <span>, in the middle of the picture ± {withUnit(Z95 * errorAt(fit.registration, at, sd))}</span>;
}

function Bones({ bone, onBone }: { readonly bone: WipeBone; readonly onBone: (bone: WipeBone) => void }) {
  return (
    <fieldset className="wipe-bones">
      <legend>The knee bends between two films: points of one bone only</legend>
      {(['femur', 'tibia'] as const).map((b) => (
        <button key={b} type="button" aria-pressed={b === bone} onClick={() => onBone(b)}>
          {b === 'femur' ? 'Femur' : 'Tibia'}
        </button>
      ))}
    </fieldset>
  );
}

function PointLine(props: {
  readonly point: WipePoint;
  readonly counts: boolean;
  readonly dates: Dates;
  readonly onCounts: (counts: boolean) => void;
}) {
  const { point, counts, dates, onCounts } = props;
  const { state } = useDesk();
  const caseSide = useSession((s) => s.shown.side);
  const { earlier, later } = dates;
  const lacking = point.earlier === null ? earlier : point.later === null ? later : null;
  const mark = (landmark: LandmarkId, film: Dates['later']): void =>
    state.setState((s) => ({
      films: [later.id, earlier.id],
      tool: null,
      placing: { landmark, side: sideOn(film, caseSide), film: film.id },
      viewing: { ...s.viewing, wipe: null },
    }));
  if (!lacking)
    return (
      <li>
        <label>
          <input type="checkbox" checked={counts} onChange={(event) => onCounts(event.target.checked)} />
          {point.landmark.label}
        </label>
      </li>
    );
  return (
    <li className="is-lacking">
      <span>
        {point.landmark.label}: not marked on{' '}
        {point.earlier === null && point.later === null ? 'either film' : lacking.takenOn}
      </span>
      <button type="button" onClick={() => mark(point.landmark.id, lacking)}>
        Mark
        <span className="unseen">
          {' '}
          {point.landmark.label} on the film of {lacking.takenOn}
        </span>
      </button>
    </li>
  );
}
