import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import { LEAST_FREEDOM, type MarkingSpread, SPREAD_SOURCE } from '@gapline/core/landmarks/repeat-marks.ts';
import { number } from '../parts/words.ts';

const mm = (value: number | null): string => (value === null ? '–' : value.toFixed(2));

/** The spread between placings: by kind of landmark, and mark by mark. */
export function SpreadTable({ marking }: { readonly marking: MarkingSpread }) {
  const classes = marking.classes.filter((c) => c.marks > 0);
  if (classes.length === 0)
    return <p className="table-note">Nothing to compare yet: a second placing on a film with a scale is wanted.</p>;
  return (
    <>
      <table className="spread-table">
        <caption>Spread of marking one coordinate, mm (standard deviation)</caption>
        <thead>
          <tr>
            <th scope="col">Landmarks</th>
            <th scope="col">Assumed</th>
            <th scope="col">One person</th>
            <th scope="col">All</th>
            <th scope="col">Used</th>
          </tr>
        </thead>
        <tbody>
          {classes.map((c) => (
            <tr key={c.defaultMm}>
              <th scope="row">
                {c.label}
                <small>
                  {c.marks} placed again, {c.freedom} of {LEAST_FREEDOM} degrees of freedom
                </small>
              </th>
              <td>{mm(c.defaultMm)}</td>
              <td>{mm(c.onePersonMm)}</td>
              <td>{mm(c.pooledMm)}</td>
              <td>
                <strong>{mm(c.usedMm)}</strong>
                <small>{c.measured ? 'measured' : 'assumed'}</small>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <details className="spread-each">
        <summary>Mark by mark</summary>
        <ul>
          {marking.each.map((m) => (
            <li key={`${m.landmark} ${m.side} ${m.film}`}>
              {landmark(m.landmark).label}, {m.side}: {m.placings} placings, {number(m.apartMm)} mm apart at most
              {m.people.length > 0 ? ` (${m.people.join(', ')})` : ''}
            </li>
          ))}
        </ul>
      </details>
      <p className="table-note">
        Within-mark standard deviation, pooled over landmarks of one kind. Rule LM-9; source: {SPREAD_SOURCE},
        measurement error. Used from {LEAST_FREEDOM} degrees of freedom on.
      </p>
    </>
  );
}
