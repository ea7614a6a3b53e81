import type { ReactNode } from 'react';
import { useDeskState, useSession } from '../case/desk.tsx';
import { useUndoKeys } from '../case/undo-keys.ts';
import { FilmTabs } from '../film/FilmTabs.tsx';
import { FilmView } from '../film/FilmView.tsx';
import { Steps } from '../steps/Steps.tsx';
import { WorkUpLine } from '../work-up/WorkUpLine.tsx';
import { ChangeLine } from './ChangeLine.tsx';
import { DeskHeader } from './DeskHeader.tsx';

/** One case as one page: the film with the plan on it, the steps beside it from top to bottom. */
export function CaseDesk({ caution }: { readonly caution: ReactNode }) {
  useUndoKeys();
  return (
    <div className="desk">
      <DeskHeader on="films" />
      <main className="desk-body">
        <section className="films" aria-label="Films">
          <FilmTabs />
          <FilmRow />
          <ChangeLine />
        </section>
        <div className="steps-column">
          <WorkUpLine />
          <Steps />
          {caution}
        </div>
      </main>
    </div>
  );
}

/** The film shown, or two side by side. */
function FilmRow() {
  const all = useSession((s) => s.shown.films);
  const shown = useDeskState((s) => s.films);
  const films = shown.flatMap((id) => all.find((f) => f.id === id) ?? []);
  return (
    <div className={`film-row${films.length > 1 ? ' is-two' : ''}`}>
      {films.map((film) => (
        <FilmView key={film.id} film={film} />
      ))}
      {films.length === 0 && <p className="film-waiting">This case has no film.</p>}
    </div>
  );
}
