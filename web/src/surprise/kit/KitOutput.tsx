import { useState } from 'react';
import { useDesk, useSession } from '../../case/desk.tsx';
import { faultText } from '../../parts/fault-text.ts';
import { writeKitList } from '../wire.ts';

/** The kit list to order by and to pack by, on paper and as a table, made from the saved case. */
export function KitOutput({ bring }: { readonly bring: readonly string[] }) {
  const { session } = useDesk();
  const caseId = useSession((s) => s.shown.id);
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  const make = async (kind: 'pdf' | 'csv'): Promise<void> => {
    // Opened within the press: a window opened later would be held back by the browser.
    const tab = kind === 'pdf' ? window.open('', '_blank') : null;
    setBusy(true);
    setFault(null);
    try {
      session.commitDraft();
      if (!(await session.settled())) throw new Error('unsaved');
      const address = URL.createObjectURL(await writeKitList(caseId, kind, { bring }));
      if (tab) tab.location.href = address;
      else save(address, `kit-${caseId}.csv`);
    } catch (reason) {
      tab?.close();
      setFault(
        session.store.getState().saving === 'saved'
          ? faultText(reason)
          : 'The last changes are not saved yet, so no list was made. It can be made when the workbench answers again.',
      );
    } finally {
      setBusy(false);
    }
  };
  return (
    <>
      <div className="buttons">
        <button type="button" className="is-main" disabled={busy} onClick={() => void make('pdf')}>
          {busy ? 'Kit list is being made …' : 'Print kit list'}
        </button>
        <button type="button" disabled={busy} onClick={() => void make('csv')}>
          Kit list as CSV
        </button>
      </div>
      {fault && (
        <p className="fault" role="alert">
          {fault}
        </p>
      )}
    </>
  );
}

/** Hands a made file to the browser to keep. */
function save(address: string, name: string): void {
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  window.setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
