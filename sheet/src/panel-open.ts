import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { bailOut } from './construct-list.ts';
import { type Box, heading, type Page, write } from './page.ts';

/** Left: what to do when it does not fit. Right: what was not known, and what contradicts itself. */
export function openPoints(
  page: Page,
  { plan, catalogue }: { readonly plan: Plan; readonly catalogue: Catalogue | null },
  box: Box,
): void {
  const left: Box = { ...box, width: 262 };
  const right: Box = { ...box, x: box.x + 277, width: box.width - 277 };
  const top = heading(page, 'IF IT DOES NOT FIT', left);
  write(page, nextBest(plan, catalogue), { box: inside(left, top), style: { size: 8.5, least: 5.5 } });
  heading(page, 'NOT KNOWN WHEN THIS WAS PLANNED', right);
  write(page, notKnown(plan), { box: inside(right, top), style: { size: 8.5, least: 5.5 } });
}

const inside = (box: Box, top: number): Box => ({ ...box, y: top - 1, height: box.y + box.height - top });

function nextBest(plan: Plan, catalogue: Catalogue | null): string {
  if (plan.construct.kind !== 'solved') return 'No construct, hence no next best one.';
  const { best, alternatives } = plan.construct.answer;
  if (alternatives.length === 0) return 'No other construct of another kind fits.';
  return alternatives
    .slice(0, 3)
    .map((other, i) => `${i + 1}.  ${bailOut(best, other, catalogue)}`)
    .join('\n');
}

function notKnown(plan: Plan): string {
  const conflicts = plan.conflicts.map((c) => `IN CONFLICT: ${c.message}`);
  const missing = plan.missing.map((m) => m.what);
  if (conflicts.length + missing.length === 0) return 'Nothing that the plan asks for.';
  return [...conflicts, ...(missing.length > 0 ? [`${missing.join('; ')}.`] : [])].join('\n');
}
