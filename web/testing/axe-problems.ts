import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/** Every problem that axe finds on a page as it is, or on a part of it, in words: the rule and where. */
export async function axeProblems(page: Page, part = 'html'): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page }).include(part).analyze();
  return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
}
