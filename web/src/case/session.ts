import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { CaseState, EditRequest } from '../../../server/src/contract.ts';
import { OutOfReach, Refused } from '../wire/api.ts';
import type { PendingKeeper } from './keep-pending.ts';
import { applyAll, type Pending, pendingOf, type Rebased, rebase, withPending } from './pending.ts';
import { signed } from './sign-edits.ts';

/** How far what is shown has been confirmed by the server. */
export type Saving = 'saved' | 'saving' | 'out-of-reach';

export interface SessionState {
  readonly confirmed: CaseState;
  readonly pending: readonly Pending[];
  /** A change in the making, such as a drag; shown, not sent. */
  readonly draft: { readonly edits: readonly Edit[]; readonly label: string } | null;
  /** The case with everything pending and the draft in it. */
  readonly shown: CaseFile;
  readonly saving: Saving;
  /** Something the person must know: a refusal, a change made elsewhere. */
  readonly notice: string | null;
}

/** What the session needs of the outside; the page gives the real ones, tests give their own. */
export interface Outside {
  readonly send: (request: EditRequest) => Promise<CaseState>;
  readonly undo: (baseRevision: number) => Promise<CaseState>;
  readonly redo: (baseRevision: number) => Promise<CaseState>;
  readonly reload: () => Promise<CaseState>;
  readonly keeper: PendingKeeper;
  readonly newId: () => string;
  /** Who works here, as that person says; absent or undefined = not said. */
  readonly person?: () => string | undefined;
  readonly later: (what: () => void, ms: number) => void;
}

export interface Session {
  readonly store: StoreApi<SessionState>;
  /** Shows a change while it is being made. */
  draft(edits: readonly Edit[], label: string): void;
  dropDraft(): void;
  /** Makes the draft a change. */
  commitDraft(): void;
  commit(edits: readonly Edit[], label: string): void;
  step(way: 'undo' | 'redo'): Promise<void>;
  retry(): void;
  dismiss(): void;
  /** Resolves when everything is confirmed; false when the server is out of reach. */
  settled(): Promise<boolean>;
}

const LONGEST_WAIT = 8000;

/**
 * One open case: every change is shown at once, kept on this machine, sent to the server in order, and
 * counted as saved only after the server's answer.
 */
export function openSession(first: CaseState, left: readonly Pending[], outside: Outside): Session {
  const start = rebase(first.case, left);
  const store = createStore<SessionState>(() => ({
    confirmed: first,
    pending: start.kept,
    draft: null,
    shown: withPending(first.case, start.kept),
    saving: start.kept.length > 0 ? 'saving' : 'saved',
    notice: rebasedNotice(start),
  }));
  outside.keeper.keep(start.kept);
  let sending: Promise<void> | null = null;
  let wait = 500;

  const update = (change: Partial<SessionState>): void => {
    const next = { ...store.getState(), ...change };
    const base = withPending(next.confirmed.case, next.pending);
    const shown = next.draft ? (applyAll(base, next.draft.edits) ?? base) : base;
    if (change.pending) outside.keeper.keep(change.pending);
    store.setState({ ...next, shown });
  };

  const flush = (): Promise<void> => {
    sending ??= sendAll().finally(() => {
      sending = null;
    });
    return sending;
  };

  async function sendAll(): Promise<void> {
    for (;;) {
      const { pending, confirmed } = store.getState();
      const [next] = pending;
      if (!next) {
        update({ saving: 'saved' });
        return;
      }
      update({ saving: 'saving' });
      try {
        const answer = await outside.send({
          baseRevision: confirmed.revision,
          edits: next.edits,
          label: next.label,
          ...(next.by === undefined ? {} : { by: next.by }),
        });
        wait = 500;
        update({ confirmed: answer, pending: store.getState().pending.filter((p) => p.id !== next.id) });
      } catch (fault) {
        if (!(await recover(fault, next))) return;
      }
    }
  }

  /** True when sending can go on at once. */
  async function recover(fault: unknown, refused: Pending): Promise<boolean> {
    if (fault instanceof Refused && fault.status === 409) return reloaded();
    if (fault instanceof Refused && fault.status < 500 && fault.status !== 401) {
      update({
        pending: store.getState().pending.filter((p) => p.id !== refused.id),
        notice: `Not saved: ${refused.label}. ${fault.error.message} ${fault.error.mend ?? ''}`.trim(),
      });
      return true;
    }
    const notice = fault instanceof Refused ? `${fault.error.message} ${fault.error.mend ?? ''}`.trim() : null;
    update({ saving: 'out-of-reach', ...(notice ? { notice } : {}) });
    outside.later(() => void flush(), wait);
    wait = Math.min(wait * 2, LONGEST_WAIT);
    return false;
  }

  async function reloaded(): Promise<boolean> {
    try {
      const answer = await outside.reload();
      const before = store.getState();
      const rebased = rebase(answer.case, before.pending);
      const { kept, dropped } = rebased;
      const elsewhere = dropped.length > 0 || kept.length === before.pending.length;
      update({
        confirmed: answer,
        pending: kept,
        ...(elsewhere ? { notice: rebasedNotice(rebased) ?? CHANGED_ELSEWHERE } : {}),
      });
      return true;
    } catch {
      update({ saving: 'out-of-reach' });
      outside.later(() => void flush(), wait);
      wait = Math.min(wait * 2, LONGEST_WAIT);
      return false;
    }
  }

  const commit = (unsigned: readonly Edit[], label: string): void => {
    const { pending, confirmed } = store.getState();
    const base = withPending(confirmed.case, pending);
    const by = outside.person?.();
    const edits = signed(unsigned, by);
    if (!applyAll(base, edits)) {
      update({ draft: null, notice: `${label}: not possible here.` });
      return;
    }
    update({ draft: null, pending: [...pending, pendingOf(outside.newId(), base, { edits, label, by })] });
    void flush();
  };

  const settled = async (): Promise<boolean> => {
    await flush();
    return store.getState().saving === 'saved';
  };

  if (start.kept.length > 0) void flush();
  return {
    store,
    draft: (edits, label) => update({ draft: { edits, label } }),
    dropDraft: () => update({ draft: null }),
    commitDraft() {
      const { draft } = store.getState();
      if (draft) commit(draft.edits, draft.label);
    },
    commit,
    async step(way) {
      const { draft } = store.getState();
      if (draft) commit(draft.edits, draft.label);
      if (!(await settled())) return;
      const { confirmed } = store.getState();
      if (way === 'undo' ? !confirmed.canUndo : !confirmed.canRedo) return;
      update({ saving: 'saving' });
      try {
        const answer = await outside[way](confirmed.revision);
        update({ confirmed: answer, saving: 'saved' });
      } catch (fault) {
        if (fault instanceof Refused && fault.status === 409) await reloaded();
        else if (fault instanceof OutOfReach) update({ saving: 'out-of-reach', notice: 'Nothing was taken back.' });
        else update({ notice: fault instanceof Refused ? fault.error.message : 'Nothing was taken back.' });
        await flush();
      }
    },
    retry: () => void flush(),
    dismiss: () => update({ notice: null }),
    settled,
  };
}

const CHANGED_ELSEWHERE = 'This case was changed in another window. It is shown as it stands now, with your changes.';

/** What a change made elsewhere did to those of this page; null = nothing that must be told. */
function rebasedNotice({ dropped, beside }: Rebased): string | null {
  const labels = (all: readonly Pending[]): string => all.map((d) => d.label).join('; ');
  const lines = [
    ...(beside.length > 0
      ? [`Both places are kept: ${labels(beside)}. The one saved first is measured from; choose in Marks.`]
      : []),
    ...(dropped.length > 0 ? [`Not applied, because the same was changed there: ${labels(dropped)}.`] : []),
  ];
  return lines.length > 0
    ? `This case was changed in another window. Shown as it stands now. ${lines.join(' ')}`
    : null;
}
