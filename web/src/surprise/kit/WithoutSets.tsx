import type { KitWithout } from '@gapline/core/kit/kit-answer.ts';
import { money, pct } from '@gapline/core/plan/told/shares.ts';

interface Props {
  readonly without: readonly KitWithout[];
  readonly currency: string;
  readonly nameOf: (ref: string) => string;
}

/** What if this set does not arrive: what is left of the coverage, and the best way round it. */
export function WithoutSets({ without, currency, nameOf }: Props) {
  if (without.length === 0) return null;
  const byWorst = without.toSorted((a, b) => a.share - b.share || (a.ref < b.ref ? -1 : 1));
  return (
    <table className="without">
      <thead>
        <tr>
          <th scope="col">If this does not arrive</th>
          <th scope="col" className="share-number">
            Chance
          </th>
          <th scope="col" className="share-number">
            Answered
          </th>
          <th scope="col">Best way round it</th>
        </tr>
      </thead>
      <tbody>
        {byWorst.map((w) => (
          <tr key={w.ref}>
            <th scope="row">{w.name}</th>
            <td className="share-number">{w.failShare === null ? 'not known' : pct(w.failShare)}</td>
            <td className="share-number">{pct(w.share)}</td>
            <td>
              {w.replacement === null
                ? 'nothing on the list'
                : w.replacement.bring.length === 0
                  ? 'nothing is needed'
                  : `${w.replacement.bring.map(nameOf).join(', ')}: ${pct(w.replacement.share)}, ${money(w.replacement.extraCost, currency)} more`}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
