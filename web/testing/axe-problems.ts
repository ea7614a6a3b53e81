import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/** Rules whose answer hangs on how the page is laid out, and so on the size of the window. */
const OF_LAYOUT = ['scrollable-region-focusable'];

/** Every problem that axe finds on a page as it is, or on a part of it, in words: the rule and where. */
export const axeProblems = (page: Page, part = 'html'): Promise<readonly string[]> => problems(axeOn(page, part));

/** The same page at another size: only what may have changed with it is looked at again, because axe takes long. */
export const axeProblemsOfLayout = (page: Page, part = 'html'): Promise<readonly string[]> =>
  problems(axeOn(page, part).withRules(OF_LAYOUT));

/** What passes is not asked for: telling it takes half of the time. */
const axeOn = (page: Page, part: string): AxeBuilder =>
  new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).include(part);

async function problems(axe: AxeBuilder): Promise<readonly string[]> {
  const { violations } = await axe.analyze();
  return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
}
