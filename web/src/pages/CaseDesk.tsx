import type { ReactNode } from 'react';
import { useUndoKeys } from '../case/undo-keys.ts';
import { FilmRow } from '../film/FilmRow.tsx';
import { FilmTabs } from '../film/FilmTabs.tsx';
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
