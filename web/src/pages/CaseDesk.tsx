import type { ReactNode } from 'react';
import { useShallow } from 'zustand/react/shallow';
import { useDeskState, useSession } from '../case/desk.tsx';
import { useUndoKeys } from '../case/undo-keys.ts';
import { FilmTabs } from '../film/FilmTabs.tsx';
import { FilmView } from '../film/FilmView.tsx';
import { sideWord } from '../parts/words.ts';
import { Steps } from '../steps/Steps.tsx';
import { WorkUpLine } from '../work-up/WorkUpLine.tsx';
import { CaseSwitch } from './CaseSwitch.tsx';
import { ChangeLine } from './ChangeLine.tsx';
import { LIST } from './route.ts';
import { Notices, SavingLine } from './SavingLine.tsx';

/** One case as one page: the film with the plan on it, the steps beside it from top to bottom. */
export function CaseDesk({ caution }: { readonly caution: ReactNode }) {
  const [id, title, side, invented] = useSession(
    useShallow(({ shown: file }) => [file.id, file.title, file.side, file.invented ?? false] as const),
  );
  useUndoKeys();
  return (
    <div className="desk">
      <header className="desk-top">
        <a className="name" href={LIST} title="All cases">
          Gapline
        </a>
        <h1>
          {title}
          {invented && <span className="tag">invented</span>}
        </h1>
        <span className="desk-side">{sideWord(side)} knee</span>
        <CaseSwitch id={id} on="films" />
        <SavingLine />
      </header>
      <Notices />
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
