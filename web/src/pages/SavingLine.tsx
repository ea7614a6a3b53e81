import { useDesk, useSession } from '../case/desk.tsx';

/** Undo, redo, and how far what is shown is on the disk. "Saved" appears only after the server's answer. */
export function SavingLine() {
  const { session } = useDesk();
  const { canUndo, canRedo, undoLabel, redoLabel } = useSession((s) => s.confirmed);
  const pending = useSession((s) => s.pending.length);
  const saving = useSession((s) => s.saving);
  const words = {
    saved: 'Saved',
    saving: 'Saving …',
    'out-of-reach': pending === 1 ? '1 change not saved yet' : `${pending} changes not saved yet`,
  }[saving];
  return (
    <div className="saving">
      <button
        type="button"
        disabled={!canUndo && pending === 0}
        title={undoLabel ? `Undo: ${undoLabel} (Ctrl+Z)` : 'Undo (Ctrl+Z)'}
        onClick={() => void session.step('undo')}
      >
        Undo
      </button>
      <button
        type="button"
        disabled={!canRedo}
        title={redoLabel ? `Redo: ${redoLabel} (Ctrl+Shift+Z)` : 'Redo (Ctrl+Shift+Z)'}
        onClick={() => void session.step('redo')}
      >
        Redo
      </button>
      <span className={`saving-word is-${saving}`} role="status">
        {words}
      </span>
    </div>
  );
}

/** What must be known at once: a server that does not answer, a refusal, a change made elsewhere. */
export function Notices() {
  const { session } = useDesk();
  const saving = useSession((s) => s.saving);
  const notice = useSession((s) => s.notice);
  return (
    <div className="notices">
      {saving === 'out-of-reach' && (
        <p className="notice offline" role="alert">
          The workbench does not answer. What you do is kept in this browser and sent when it answers.{' '}
          <button type="button" onClick={() => session.retry()}>
            Try now
          </button>
        </p>
      )}
      {notice && (
        <p className="notice" role="alert">
          {notice}{' '}
          <button type="button" onClick={() => session.dismiss()}>
            Understood
          </button>
        </p>
      )}
    </div>
  );
}
