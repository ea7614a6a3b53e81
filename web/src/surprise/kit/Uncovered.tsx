import type { Uncovered } from '@gapline/core/kit/kit-answer.ts';
import { pct } from '@gapline/core/plan/told/shares.ts';

interface Props {
  readonly uncovered: readonly Uncovered[];
  readonly nameOf: (ref: string) => string;
  readonly onBring: (refs: readonly string[]) => void;
}

/** What may be found and has no answer in this room, in plain words, with the sets that would give one. */
export function UncoveredStates({ uncovered, nameOf, onBring }: Props) {
  if (uncovered.length === 0) return <p>Every drawn opening has an answer in this room.</p>;
  return (
    <ul className="uncovered">
      {uncovered.map((u) => (
        <li key={u.words}>
          <span className="uncovered-share">{pct(u.share)}</span>
          <div>
            <p>{u.words}</p>
            {u.wouldTake.length > 0 && (
              <p className="said-line">
                Would be answered with {u.wouldTake.map(nameOf).join(' and ')}.{' '}
                <button type="button" className="as-link" onClick={() => onBring(u.wouldTake)}>
                  Bring {u.wouldTake.length === 1 ? 'it' : 'them'}
                </button>
              </p>
            )}
            {u.wouldTake.length === 0 && u.addition && (
              <p className="said-line">No set of this list helps. Smallest addition: {u.addition}</p>
            )}
          </div>
        </li>
      ))}
    </ul>
  );
}
