import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { SOURCES } from '@gapline/core/plan/sources.ts';
import { type Page, PT_PER_MM, rule, write } from './page.ts';

export const DISCLAIMER =
  'DRAFT - research and education; not a medical device approved anywhere; not validated for clinical use; the operating surgeon and local protocols decide.';

interface Footed {
  readonly plan: Plan;
  readonly file: CaseFile;
  readonly sha256: string;
}

/** Sources, versions, the check ruler and what this sheet is not. */
export function foot(page: Page, { plan, file, sha256 }: Footed): void {
  const [x, width] = [28, 539];
  rule(page, { x, y: 742, width }, 1.2);
  const known = plan.sources.filter((key) => key in SOURCES);
  const sources = known.length > 0 ? known.join('; ') : 'none';
  write(page, `Sources (full citations in docs/sources.md): ${sources}.`, {
    box: { x, y: 746, width, height: 24 },
    style: { size: 6.5, least: 4.5 },
  });
  const tables = Object.entries(plan.versions.tables).map(([name, version]) => `${name} ${version}`);
  write(page, `Case ${file.id} · core ${plan.versions.core} · ${tables.join(' · ')} · plan sha-256 ${sha256}`, {
    box: { x, y: 771, width, height: 9 },
    style: { size: 6, least: 4.5 },
  });
  ruler(page, { x, y: 794 });
  write(page, DISCLAIMER, {
    box: { x: 190, y: 786, width: 377, height: 30 },
    style: { size: 9, least: 7, weight: 'bold' },
  });
}

/** 50 mm on paper, ticks every 5 mm: measure it before trusting any printed scale. */
function ruler(page: Page, { x, y }: { readonly x: number; readonly y: number }): void {
  page.lineWidth(0.8).strokeColor('black').undash();
  page
    .moveTo(x, y)
    .lineTo(x + 50 * PT_PER_MM, y)
    .stroke();
  for (let mm = 0; mm <= 50; mm += 5) {
    const tick = mm % 10 === 0 ? 7 : 4;
    page
      .moveTo(x + mm * PT_PER_MM, y - tick)
      .lineTo(x + mm * PT_PER_MM, y)
      .stroke();
  }
  write(page, '50 mm on paper: check with a ruler', {
    box: { x, y: y + 3, width: 150, height: 10 },
    style: { size: 7 },
  });
}
