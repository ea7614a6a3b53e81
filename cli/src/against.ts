import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { Reason } from '@gapline/core/measure/outcome.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { comparePlans, type PlanChange } from '@gapline/core/plan/compare-plans.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { planChangesInWords } from '@gapline/core/plan/plan-changes-in-words.ts';
import { notTheSameKnee } from '@gapline/core/plan/same-knee.ts';
import { findCatalogue } from './find-catalogue.ts';
import { openCase } from './open-case.ts';

/** What differs between a plan and that of an earlier state of the same case. */
export type Against =
  | { readonly ok: true; readonly changes: readonly PlanChange[]; readonly words: readonly string[] }
  | { readonly ok: false; readonly reasons: readonly Reason[] };

/** What was planned now, and with which catalogue. */
export interface Planned {
  readonly file: CaseFile;
  readonly plan: Plan;
  readonly catalogue: Catalogue | null;
}

/**
 * Plans an earlier state of a case anew and tells what differs. Another side or another patient is refused by name.
 *
 * @param instead catalogue file instead of the one that the earlier case names, as for the plan itself.
 */
export function against(folder: string, now: Planned, instead: string | undefined): Against {
  const opened = openCase(folder);
  if (!opened.ok) return opened;
  const others = notTheSameKnee(now.file, opened.file);
  if (others.length > 0) return { ok: false, reasons: others.map((reason) => ({ ...reason, file: folder })) };
  const found = findCatalogue(opened.file.catalogue, instead);
  if (!found.ok) return { ok: false, reasons: [found.reason] };
  const before = makePlan(opened.file, found.value);
  const both = found.value?.id === now.catalogue?.id ? now.catalogue : null;
  return { ok: true, changes: comparePlans(before, now.plan), words: planChangesInWords(before, now.plan, both) };
}
