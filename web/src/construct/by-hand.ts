import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { SolvedConstruct } from '@gapline/core/gaps/construct.ts';
import { DEFAULT_WEIGHTS } from '@gapline/core/gaps/default-weights.ts';
import { pinInWords } from '@gapline/core/gaps/pinned/pin-of-construct.ts';
import { PINS, type PinId, type Pinned, pinsIn } from '@gapline/core/gaps/pinned/pinned.ts';
import { stopsOf } from '@gapline/core/gaps/pinned/reach.ts';
import type { PinnedQuestion } from '@gapline/core/gaps/pinned/solve-pinned.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Edit } from '@gapline/core/plan/edit.ts';
import { questionFor } from '@gapline/core/plan/solve-for.ts';
import type { Desk } from '../case/desk.tsx';
import type { PlanningState } from '../case/planning.ts';

/** A construct on the desk with all that moving it by hand needs. */
export interface InReach {
  readonly solved: SolvedConstruct;
  readonly catalogue: Catalogue;
  readonly question: PinnedQuestion;
}

/** What can be moved by hand; null while no construct is planned. */
export function inReach({ plan, of, catalogue }: Pick<PlanningState, 'plan' | 'of' | 'catalogue'>): InReach | null {
  if (!catalogue || !plan.bone.ok || plan.construct.kind !== 'solved') return null;
  const weights = of.settings?.weights ?? DEFAULT_WEIGHTS;
  const question = questionFor(of, { state: plan.bone.value.state, catalogue, weights });
  return { solved: plan.construct.answer.best, catalogue, question };
}

export const labelOf = (id: PinId): string => PINS.find((p) => p.id === id)?.label ?? id;

/** One and the same while nothing is fixed. */
const NOTHING: Pinned = {};

export const pinnedIn = (file: CaseFile): Pinned => file.settings?.pinned ?? NOTHING;

/** Edits that fix what is given. */
export const pinEdits = (pins: Pinned): readonly Edit[] =>
  pinsIn(pins).map((id) => ({ kind: 'set', field: `/settings/pinned/${id}`, value: pins[id] }));

/** What was fixed, in words, for the line of changes and for undo. */
export const pinWords = (pins: Pinned, catalogue: Catalogue): string =>
  pinsIn(pins)
    .map((id) => `${labelOf(id)} fixed by hand: ${pinInWords(id, pins, catalogue)}`)
    .join('; ');

/** Fixes something at once; where a limit forbids it nothing is fixed, and the limits are named. */
export function fix(desk: Desk, pins: Pinned): string | null {
  desk.session.commitDraft();
  const now = inReach(desk.planning.store.getState());
  if (!now) return 'There is no construct to fix anything of.';
  const pinned = { ...pinnedIn(desk.session.store.getState().shown), ...pins };
  const stops = stopsOf({ ...now.question, pinned });
  if (stops.length > 0) return stopWords(stops);
  desk.session.commit(pinEdits(pins), pinWords(pins, now.catalogue));
  return null;
}

export const stopWords = (stops: ReturnType<typeof stopsOf>): string =>
  stops.length === 0 ? 'limits together' : stops.map((s) => s.what).join(', ');

/** Leaves some of what is fixed to the solver again. */
export function release(desk: Desk, ids: readonly PinId[]): void {
  desk.session.commitDraft();
  const fixed = ids.filter((id) => pinnedIn(desk.session.store.getState().shown)[id] !== undefined);
  if (fixed.length === 0) return;
  desk.session.commit(
    fixed.map((id) => ({ kind: 'set', field: `/settings/pinned/${id}`, value: null })),
    `Released: ${fixed.map((id) => labelOf(id).toLowerCase()).join(', ')}`,
  );
}
