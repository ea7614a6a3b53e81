import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import { type RepeatedMark, sameLandmark } from '@gapline/core/landmarks/repeated-mark.ts';
import { openConflicts, takeInstead } from '@gapline/core/plan/keep-both.ts';
import { useDesk, useSession } from '../case/desk.tsx';
import { showMark } from './show-mark.ts';

/** Marks that two people placed at the same time: both places stand until somebody chooses (LM-10). */
export function Conflicts() {
  const file = useSession((s) => s.shown);
  const open = openConflicts(file);
  if (open.length === 0) return null;
  return (
    <ul className="mark-conflicts" aria-label="Marks placed at two places">
      {open.map((c) => (
        <Conflict key={`${c.landmark} ${c.side} ${c.film} ${c.round}`} second={c} />
      ))}
    </ul>
  );
}

function Conflict({ second }: { readonly second: RepeatedMark }) {
  const desk = useDesk();
  const { session } = desk;
  const first = useSession((s) => s.shown.marks.find((m) => sameLandmark(m, second)));
  const { label } = landmark(second.landmark);
  const { side, film, round } = second;
  const apart =
    first?.points[0] && second.points[0]
      ? Math.hypot(first.points[0].x - second.points[0].x, first.points[0].y - second.points[0].y)
      : null;
  return (
    <li>
      <p>
        <strong>
          {label}, {side}
        </strong>
        : placed at two places at the same time{apart === null ? '' : `, ${apart.toFixed(1)} px apart`}. The first
        {byWords(first?.by)} is measured from; the second{byWords(second.by)} is the square on the film.
      </p>
      <div className="row">
        <button type="button" onClick={() => showMark(desk, second)}>
          Show
        </button>
        <button
          type="button"
          onClick={() =>
            session.commit(
              [{ kind: 'remove-repeat', landmark: second.landmark, side, film, round }],
              `${label}: first place kept`,
            )
          }
        >
          Keep the first
        </button>
        <button type="button" onClick={() => session.commit([takeInstead(second)], `${label}: second place taken`)}>
          Take the second
        </button>
      </div>
    </li>
  );
}

const byWords = (by: string | undefined): string => (by ? ` (${by})` : '');
