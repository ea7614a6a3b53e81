import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useEffect } from 'react';
import { useDesk, useDeskState, useSession } from '../case/desk.tsx';
import { FilmTabs } from '../film/FilmTabs.tsx';
import { FilmView } from '../film/FilmView.tsx';

/** The film of the knee from the front as it is now; without one, the first film. */
export const leadFilm = (films: readonly CaseFilm[]): CaseFilm | undefined =>
  films.find((f) => f.view === 'ap' && f.role === 'present') ?? films[0];

/** The picture that the page leads with: the film with the construct on it. */
export function LeadFilm() {
  const { session, state } = useDesk();
  const all = useSession((s) => s.shown.films);
  const shown = useDeskState((s) => s.films);
  const films = shown.flatMap((id) => all.find((f) => f.id === id) ?? []);
  useEffect(() => {
    const lead = leadFilm(session.store.getState().shown.films);
    const before = state.getState();
    state.setState({
      films: lead ? [lead.id] : [],
      construct: 0,
      placing: null,
      layers: { ...before.layers, marks: false },
    });
    return () => state.setState({ films: before.films, layers: before.layers, onTrial: null });
  }, [session, state]);
  return (
    <section className="films" aria-label="Films">
      <FilmTabs />
      <OnTrial />
      <div className={`film-row${films.length > 1 ? ' is-two' : ''}`}>
        {films.map((film) => (
          <FilmView key={film.id} film={film} startsAt="construct" />
        ))}
        {films.length === 0 && <p className="film-waiting">This case has no film.</p>}
      </div>
    </section>
  );
}

/** Says which construct is drawn where it is not the plan's first choice, and leads back. */
function OnTrial() {
  const { state } = useDesk();
  const onTrial = useDeskState((s) => s.onTrial);
  if (!onTrial) return null;
  return (
    <p className="on-trial" role="status">
      <span>
        <strong>Not the first choice.</strong> {onTrial.words}
      </span>
      <button type="button" onClick={() => state.setState({ onTrial: null })}>
        Back to the plan
      </button>
    </p>
  );
}
