import { type ReactNode, useEffect, useState } from 'react';
import { type Desk, DeskProvider, filmsAtStart, openDesk } from '../case/desk.tsx';
import { pendingKeeper } from '../case/keep-pending.ts';
import { openPlanning } from '../case/planning.ts';
import { openSession } from '../case/session.ts';
import { personNow } from '../marking/person.ts';
import { faultText } from '../parts/fault-text.ts';
import { SurpriseDesk } from '../surprise/SurpriseDesk.tsx';
import { getCase, getCatalogue, sendEdits, sendRedo, sendUndo } from '../wire/api.ts';
import { WorkUpDesk } from '../work-up/WorkUpDesk.tsx';
import { Caution } from './App.tsx';
import { CaseDesk } from './CaseDesk.tsx';
import { type CaseHalf, LIST } from './route.ts';

interface Props {
  readonly id: string;
  readonly half: CaseHalf;
  readonly version: string | null;
}

/** Opens one case: its state from the server, changes left unconfirmed by an earlier page, its catalogue. */
export function CasePage({ id, half, version }: Props) {
  const [desk, setDesk] = useState<Desk | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    let open: Desk | null = null;
    let wanted = true;
    openCase(id)
      .then((next) => {
        if (!wanted) return next.planning.close();
        open = next;
        setDesk(next);
        document.title = `${next.session.store.getState().shown.title} – Gapline`;
      })
      .catch((reason: unknown) => wanted && setFault(faultText(reason)));
    return () => {
      wanted = false;
      open?.planning.close();
    };
  }, [id]);
  if (desk) {
    return (
      <DeskProvider value={desk}>
        <Half half={half} caution={<Caution version={version} />} />
      </DeskProvider>
    );
  }
  return (
    <div className="sheet-page">
      <header className="top">
        <a className="name" href={LIST}>
          Gapline
        </a>
      </header>
      <main className="list-page">
        <h1>Case</h1>
        {fault ? (
          <p className="fault" role="alert">
            {fault}
          </p>
        ) : (
          <p role="status">The case is being opened …</p>
        )}
      </main>
      <Caution version={version} />
    </div>
  );
}

function Half({ half, caution }: { readonly half: CaseHalf; readonly caution: ReactNode }) {
  if (half === 'work-up') return <WorkUpDesk caution={caution} />;
  if (half === 'bone-and-kit') return <SurpriseDesk caution={caution} />;
  return <CaseDesk caution={caution} />;
}

async function openCase(id: string): Promise<Desk> {
  const keeper = pendingKeeper(id);
  const [state, left] = await Promise.all([getCase(id), keeper.takeOver()]);
  const catalogue = state.case.catalogue ? await getCatalogue(state.case.catalogue) : null;
  const session = openSession(state, left, {
    send: (request) => sendEdits(id, request),
    undo: (base) => sendUndo(id, base, personNow()),
    redo: (base) => sendRedo(id, base, personNow()),
    reload: () => getCase(id),
    keeper,
    newId: () => crypto.randomUUID(),
    person: personNow,
    later: (what, ms) => void window.setTimeout(what, ms),
  });
  window.addEventListener('online', () => session.retry());
  const films = filmsAtStart(session.store.getState().shown.films, window.innerWidth);
  return { session, planning: openPlanning(session, catalogue, getCatalogue), state: openDesk(films) };
}
