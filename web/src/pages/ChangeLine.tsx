import { usePlanning } from '../case/desk.tsx';

/** More than ever stand in sight; the steps beside hold them all. */
const MOST = 8;

/** What the last change did to the plan, at once: how much, then the weightiest first, as far as there is room. */
export function ChangeLine() {
  const changes = usePlanning((s) => s.changes);
  const count = changes?.lines.length ?? 0;
  return (
    <p className="change-line" aria-live="polite">
      {changes ? (
        <>
          <strong>{changes.label}</strong>
          {count > 1 && <span>{count} changes in the plan:</span>}
          {count > 0 ? (
            changes.lines.slice(0, MOST).map((line) => <span key={line}>{line}</span>)
          ) : (
            <span>{changes.why ?? 'nothing in the plan changed'}</span>
          )}
        </>
      ) : (
        <span>Move a mark or change a field: what it changes in the plan is told here.</span>
      )}
    </p>
  );
}
