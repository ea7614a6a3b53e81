/** One line of a case's history, as far as undo and redo need it. */
export interface HistoryStep {
  readonly revision: number;
  readonly kind: 'edit' | 'undo' | 'redo';
  readonly target: number | null;
}

/** Revisions of the edits that undo would take back and redo would bring back next; null for none. */
export interface HistoryHeads {
  readonly undo: number | null;
  readonly redo: number | null;
}

/**
 * Replays a history, oldest first. An edit can be undone; an undone edit can be redone until the next
 * edit, which drops all that could have been redone.
 */
export function historyHeads(steps: readonly HistoryStep[]): HistoryHeads {
  const done: number[] = [];
  let undone: number[] = [];
  for (const step of steps) {
    if (step.kind === 'edit') {
      done.push(step.revision);
      undone = [];
    } else if (step.kind === 'undo') {
      const taken = done.pop();
      if (taken !== undefined) undone.push(taken);
    } else {
      const brought = undone.pop();
      if (brought !== undefined) done.push(brought);
    }
  }
  return { undo: done.at(-1) ?? null, redo: undone.at(-1) ?? null };
}
