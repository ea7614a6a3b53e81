import { useEffect, useState } from 'react';
import type { SavedPlan } from '../../../server/src/contract.ts';
import { useDesk, usePlanning, useSession } from '../case/desk.tsx';
import { faultText } from '../parts/fault-text.ts';
import { instant } from '../parts/words.ts';
import { getPlans, savePlan, sheetAddress } from '../wire/api.ts';

/** One page to take into theatre; every sheet ever made stays. */
export function SheetStep() {
  const { session } = useDesk();
  const caseId = useSession((s) => s.confirmed.case.id);
  const sources = usePlanning((s) => s.plan.sources);
  const [plans, setPlans] = useState<readonly SavedPlan[]>([]);
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    getPlans(caseId)
      .then(setPlans)
      .catch((reason: unknown) => setFault(faultText(reason)));
  }, [caseId]);

  const print = async (): Promise<void> => {
    setBusy(true);
    setFault(null);
    // Opened within the press: a window opened later would be held back by the browser.
    const window_ = window.open('', '_blank');
    try {
      session.commitDraft();
      if (!(await session.settled())) throw new Error('unsaved');
      const plan = await savePlan(caseId);
      setPlans((before) => [plan, ...before.filter((p) => p.id !== plan.id)]);
      if (window_) window_.location.href = sheetAddress(plan.id);
    } catch (reason) {
      window_?.close();
      setFault(
        session.store.getState().saving === 'saved'
          ? faultText(reason)
          : 'The last changes are not saved yet, so no sheet was made. It can be printed when the workbench answers again.',
      );
    } finally {
      setBusy(false);
    }
  };

  return (
    <>
      <button type="button" className="is-main is-large" disabled={busy} onClick={() => void print()}>
        {busy ? 'Sheet is being made …' : 'Print sheet'}
      </button>
      {fault && (
        <p className="fault" role="alert">
          {fault}
        </p>
      )}
      {plans.length > 0 && (
        <>
          <h3>Sheets of this case</h3>
          <ul className="plans">
            {plans
              .toSorted((a, b) => b.madeAt.localeCompare(a.madeAt))
              .map((p) => (
                <li key={p.id}>
                  <a href={sheetAddress(p.id)} target="_blank" rel="noreferrer">
                    {instant(p.madeAt)}
                  </a>
                  <small>
                    state {p.revision} of the case, core {p.coreVersion}, {p.sha256.slice(0, 12)}
                  </small>
                </li>
              ))}
          </ul>
        </>
      )}
      {sources.length > 0 && (
        <details className="sources">
          <summary>{sources.length} sources used</summary>
          <ul>
            {sources.map((s) => (
              <li key={s}>{s}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
