import { useMemo } from 'react';
import { useDeskState, useSession } from '../case/desk.tsx';
import { StackView } from '../stack/StackView.tsx';
import { isStack } from '../stack/stack-film.ts';
import { soundWipe } from './before-after.ts';
import { FilmPane, type StartsAt } from './FilmView.tsx';
import { panesOf } from './panes.ts';
import { WipeView } from './WipeView.tsx';

const COUNTS = ['', 'is-one', 'is-two', 'is-three', 'is-four'] as const;

/** The films shown: one, several side by side, or two dates of one view laid over one another. */
export function FilmRow({ startsAt = 'whole' }: { readonly startsAt?: StartsAt }) {
  const films = useSession((s) => s.shown.films);
  const side = useSession((s) => s.shown.side);
  const shown = useDeskState((s) => s.films);
  const viewing = useDeskState((s) => s.viewing);
  const panes = useMemo(
    () => panesOf(films, shown, { side, otherKnee: viewing.otherKnee }),
    [films, shown, side, viewing.otherKnee],
  );
  const wipe = soundWipe(films, viewing.wipe);
  if (wipe) {
    return (
      <div className="film-row is-one">
        <WipeView key={`${wipe.earlier.id} ${wipe.later.id}`} {...wipe} />
      </div>
    );
  }
  return (
    <div className={`film-row ${COUNTS[panes.length]}`}>
      {panes.map((pane) =>
        isStack(pane.film) ? (
          <StackView key={pane.key} film={pane.film} />
        ) : (
          <FilmPane key={pane.key} pane={pane} startsAt={startsAt} />
        ),
      )}
      {panes.length === 0 && <p className="film-waiting">This case has no film.</p>}
    </div>
  );
}
