import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { createStore, type StoreApi } from 'zustand/vanilla';
import { changesBetween } from './plan-changes.ts';
import type { Session } from './session.ts';

export interface PlanningState {
  readonly plan: Plan;
  /** The case that the plan was made from. */
  readonly of: CaseFile;
  /** What the last finished change did to the plan, in words. */
  readonly changes: { readonly label: string; readonly lines: readonly string[] } | null;
  /** Computing time of the last plan, ms. */
  readonly tookMs: number;
}

export interface Planning {
  readonly store: StoreApi<PlanningState>;
  close(): void;
}

/**
 * Keeps the plan abreast of the case: at most once a frame, with the same `makePlan` that the server runs.
 * During a drag the changes are told against the plan before the drag.
 */
export function openPlanning(session: Session, catalogue: Catalogue | null): Planning {
  const first = session.store.getState().shown;
  const store = createStore<PlanningState>(() => ({ ...planned(first, catalogue), changes: null }));
  let settledPlan = store.getState().plan;
  let settledRevision = changeMark(session);
  let frame = 0;
  const compute = (): void => {
    frame = 0;
    const { shown, draft, pending, confirmed } = session.store.getState();
    if (shown === store.getState().of) return;
    const mark = changeMark(session);
    const next = planned(shown, catalogue);
    const label = draft?.label ?? pending.at(-1)?.label ?? lastLabel(confirmed.undoLabel);
    const lines = changesBetween(settledPlan, next.plan);
    const unchanged = mark === settledRevision && draft === null;
    store.setState({ ...next, changes: unchanged ? store.getState().changes : { label, lines } });
    if (draft === null) {
      settledPlan = next.plan;
      settledRevision = mark;
    }
  };
  const unsubscribe = session.store.subscribe(() => {
    frame ||= requestAnimationFrame(compute);
  });
  return {
    store,
    close() {
      unsubscribe();
      cancelAnimationFrame(frame);
    },
  };
}

const lastLabel = (undoLabel: string | null): string => undoLabel ?? 'Last change';

/** Tells a change of the case from a mere answer of the server to it. */
const changeMark = (session: Session): string => JSON.stringify(session.store.getState().pending.map((p) => p.id));

function planned(of: CaseFile, catalogue: Catalogue | null): Omit<PlanningState, 'changes'> {
  const start = performance.now();
  const plan = makePlan(of, catalogue);
  return { plan, of, tookMs: performance.now() - start };
}
