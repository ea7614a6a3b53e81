import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { planChangesInWords } from '@gapline/core/plan/plan-changes-in-words.ts';
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Session } from './session.ts';
import { shareUnchanged } from './share-unchanged.ts';
import { whyUnchanged } from './why-unchanged.ts';

export interface PlanChanges {
  readonly label: string;
  readonly lines: readonly string[];
  /** Why there are none, where that can be told. */
  readonly why: string | null;
}

export interface PlanningState {
  readonly plan: Plan;
  /** The case that the plan was made from. */
  readonly of: CaseFile;
  /** The last plan that was not in the middle of a drag, with its case: for what need not follow every frame. */
  readonly settled: { readonly plan: Plan; readonly of: CaseFile };
  /** What the last finished change did to the plan, in words. */
  readonly changes: PlanChanges | null;
  /** Catalogue that the plan was made with; null = none chosen, or not there yet. */
  readonly catalogue: Catalogue | null;
  /** Computing time of the last plan, ms. */
  readonly tookMs: number;
}

export interface Planning {
  readonly store: StoreApi<PlanningState>;
  close(): void;
}

/**
 * Keeps the plan abreast of the case: at most once a frame, with the same `makePlan` that the server runs.
 * During a drag the changes are told against the plan before the drag. Another catalogue is fetched when
 * the case names one.
 */
export function openPlanning(
  session: Session,
  first: Catalogue | null,
  fetchCatalogue: (id: string) => Promise<Catalogue>,
): Planning {
  const start = planned(session.store.getState().shown, first);
  const store = createStore<PlanningState>(() => ({ ...start, settled: start, changes: null }));
  let asked = session.store.getState().shown.catalogue;
  let frame = 0;
  const compute = (catalogue: Catalogue | null): void => {
    const { shown, draft, pending, confirmed } = session.store.getState();
    const { plan, settled, catalogue: before } = store.getState();
    const label = draft?.label ?? pending.at(-1)?.label ?? confirmed.undoLabel ?? 'Last change';
    const made = planned(shown, catalogue);
    const next = { ...made, plan: shareUnchanged(plan, made.plan) };
    // Parts of two catalogues are told by their references.
    const lines = planChangesInWords(settled.plan, next.plan, before === catalogue ? catalogue : null);
    const why = lines.length === 0 ? whyUnchanged(settled.of, shown) : null;
    const changes = { label, lines, why };
    store.setState({ ...next, changes, settled: draft === null ? next : settled });
  };
  const onFrame = (): void => {
    frame = 0;
    const { shown, draft } = session.store.getState();
    const { of, plan, catalogue, settled } = store.getState();
    if (shown.catalogue !== asked) {
      asked = shown.catalogue;
      void nextCatalogue(asked, fetchCatalogue).then(compute);
    } else if (forPlan(shown) !== forPlan(of)) compute(catalogue);
    // A drag that was let go: its last plan is already there. The case may have changed where the plan did not.
    else if (draft === null && settled.of !== of) store.setState({ settled: { plan, of } });
  };
  const unsubscribe = session.store.subscribe(() => {
    frame ||= requestAnimationFrame(onFrame);
  });
  return {
    store,
    close() {
      unsubscribe();
      cancelAnimationFrame(frame);
    },
  };
}

/** All of a case that a plan is made from; the work-up is read beside it and is no part of it. */
function forPlan(file: CaseFile): string {
  const { workUp: _, ...rest } = file;
  return JSON.stringify(rest);
}

/** Without its catalogue a case can still be planned, but for the construct. */
const nextCatalogue = async (
  id: string | undefined,
  fetchCatalogue: (id: string) => Promise<Catalogue>,
): Promise<Catalogue | null> => (id === undefined ? null : fetchCatalogue(id).catch(() => null));

function planned(of: CaseFile, catalogue: Catalogue | null): Omit<PlanningState, 'changes' | 'settled'> {
  const start = performance.now();
  const plan = makePlan(of, catalogue);
  return { plan, of, catalogue, tookMs: performance.now() - start };
}
