import type { StoredCase } from '@gapline/store/src/port.ts';
import type { CaseState } from './contract.ts';

/** A stored case as the pages see it. */
export const caseState = (stored: StoredCase): CaseState => ({
  case: stored.case,
  revision: stored.revision,
  canUndo: stored.undoLabel !== null,
  canRedo: stored.redoLabel !== null,
  undoLabel: stored.undoLabel,
  redoLabel: stored.redoLabel,
});
