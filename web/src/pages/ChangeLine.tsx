import { usePlanning } from '../case/desk.tsx';

/** What the last change did to the plan, at once. */
export function ChangeLine() {
  const changes = usePlanning((s) => s.changes);
  return (
    <p className="change-line" aria-live="polite">
      {changes ? (
        <>
          <strong>{changes.label}</strong>
          {changes.lines.length > 0 ? (
            changes.lines.map((line) => <span key={line}>{line}</span>)
          ) : (
            <span>nothing in the plan changed</span>
          )}
        </>
      ) : (
        <span>Move a mark or change a field: what it changes in the plan is told here.</span>
      )}
    </p>
  );
}
