import { useEffect, useState } from 'react';
import type { CaseSummary } from '../../../server/src/contract.ts';
import { faultText } from '../parts/fault-text.ts';
import { instant, sideWord } from '../parts/words.ts';
import { getCases } from '../wire/api.ts';
import { caseAddress, NEW_CASE } from './route.ts';

/** Every case on this machine, the last changed first. */
export function CaseList() {
  const [cases, setCases] = useState<readonly CaseSummary[] | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    getCases()
      .then((all) => setCases(all.toSorted((a, b) => b.changedAt.localeCompare(a.changedAt) || (a.id < b.id ? -1 : 1))))
      .catch((reason: unknown) => setFault(faultText(reason)));
  }, []);
  return (
    <main className="list-page">
      <div className="list-head">
        <h1>Cases</h1>
        <a className="button is-main" href={NEW_CASE}>
          New case
        </a>
      </div>
      {fault && (
        <p className="fault" role="alert">
          {fault}
        </p>
      )}
      {!cases && !fault && <p role="status">Cases are being read …</p>}
      {cases?.length === 0 && <p>No case yet. Drop films of a knee on “New case” to begin.</p>}
      <ul className="cases">
        {cases?.map((one) => (
          <li key={one.id}>
            <a href={caseAddress(one.id)}>
              <span className={`case-side is-${one.side}`}>{sideWord(one.side)}</span>
              <span className="case-title">
                {one.title}
                {one.invented && <span className="tag">invented case</span>}
              </span>
              <span className="case-facts">
                {one.films} {one.films === 1 ? 'film' : 'films'}, changed {instant(one.changedAt)}
                {one.lastPlanAt ? `, sheet of ${instant(one.lastPlanAt)}` : ', no sheet yet'}
              </span>
            </a>
          </li>
        ))}
      </ul>
    </main>
  );
}
