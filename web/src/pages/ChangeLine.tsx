import { usePlanning } from '../case/desk.tsx';

/** As many changes as stand in sight without scrolling, also on a tablet; the steps beside hold them all. */
const IN_SIGHT = 6;

/** What the last change did to the plan, at once. */
export function ChangeLine() {
  const changes = usePlanning((s) => s.changes);
  const more = changes ? changes.lines.length - IN_SIGHT : 0;
  return (
    <p className="change-line" aria-live="polite">
      {changes ? (
        <>
          <strong>{changes.label}</strong>
          {changes.lines.length > 0 ? (
            changes.lines.slice(0, IN_SIGHT).map((line) => <span key={line}>{line}</span>)
          ) : (
            <span>{changes.why ?? 'nothing in the plan changed'}</span>
          )}
          {more > 0 && <span>and {more} more in the steps</span>}
        </>
      ) : (
        <span>Move a mark or change a field: what it changes in the plan is told here.</span>
      )}
    </p>
  );
}
