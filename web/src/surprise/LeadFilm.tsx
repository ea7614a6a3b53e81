import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { useEffect } from 'react';
import { useDesk, useDeskState } from '../case/desk.tsx';
import { FilmRow } from '../film/FilmRow.tsx';
import { FilmTabs } from '../film/FilmTabs.tsx';

/** The film of the knee from the front as it is now; without one, the first film. */
export const leadFilm = (films: readonly CaseFilm[]): CaseFilm | undefined =>
  films.find((f) => f.view === 'ap' && f.role === 'present') ?? films[0];

/** The picture that the page leads with: the film with the construct on it. */
export function LeadFilm() {
  const { session, state } = useDesk();
  useEffect(() => {
    const lead = leadFilm(session.store.getState().shown.films);
    const before = state.getState();
    state.setState({
      films: lead ? [lead.id] : [],
      construct: 0,
      placing: null,
      layers: { ...before.layers, marks: false },
      viewing: { ...before.viewing, otherKnee: false, wipe: null },
    });
    const { films, layers, viewing } = before;
    return () => state.setState({ films, layers, viewing, onTrial: null });
  }, [session, state]);
  return (
    <section className="films" aria-label="Films">
      <FilmTabs />
      <OnTrial />
      <FilmRow startsAt="construct" />
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
