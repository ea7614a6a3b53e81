import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/** Every problem that axe finds on a page as it is, in words: the rule and where. */
export async function axeProblems(page: Page): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(', ')}`);
}
