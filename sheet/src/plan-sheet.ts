import { createHash } from 'node:crypto';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { canonicalJson } from '@gapline/core/plan/canonical-json.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { collected } from './collected.ts';
import { filmPanel, filmsForSheet } from './film-panel.ts';
import type { SheetPicture } from './film-picture.ts';
import { foot } from './foot.ts';
import { header } from './header.ts';
import { newPage, type Page, write } from './page.ts';
import { constructPanel } from './panel-construct.ts';
import { numbersPanel } from './panel-numbers.ts';
import { openPoints } from './panel-open.ts';
import { readableName, SIDE_IN_WORDS } from './words.ts';

export interface SheetRequest {
  readonly plan: Plan;
  readonly case: CaseFile;
  /** For the names of the parts; without it the sheet gives their numbers alone. */
  readonly catalogue?: Catalogue | null;
  /** Films as grey levels by their id; a film without a picture is drawn on black. */
  readonly pictures: ReadonlyMap<string, SheetPicture>;
  /** ISO date and time, shown and stored: the only input besides the plan that changes the bytes. */
  readonly madeAt: string;
}

/**
 * The plan on one A4 page as a vector PDF, to be taken into theatre: who, side, films with the plan to scale, components, gaps, joint line,
 * what was not known, sources. Readable in black and white. Same request, same bytes.
 */
export function planSheet(request: SheetRequest): Promise<Uint8Array> {
  const { plan, case: file, catalogue = null, pictures, madeAt } = request;
  const sha256 = createHash('sha256').update(canonicalJson(plan)).digest('hex');
  const who = file.patient.name ? readableName(file.patient.name) : file.title;
  const page = newPage(`${SIDE_IN_WORDS[plan.side]} - ${who}`, madeAt);
  const bytes = collected(page);
  const after = `plan ${sha256.slice(0, 12)}`;
  header(page, { file, madeAt, title: 'Plan for revision of the knee replacement', after });
  films(page, plan, pictures);
  constructPanel(page, { plan, catalogue }, { x: 28, y: 424, width: 318, height: 232 });
  numbersPanel(page, plan, { x: 362, y: 424, width: 205, height: 232 });
  openPoints(page, { plan, catalogue }, { x: 28, y: 662, width: 539, height: 74 });
  foot(page, { plan, file, sha256 });
  page.end();
  return bytes;
}

function films(page: Page, plan: Plan, pictures: SheetRequest['pictures']): void {
  const shown = filmsForSheet(plan, pictures);
  const boxes = [
    { x: 28, y: 92, width: 306, height: 322 },
    { x: 346, y: 92, width: 221, height: 322 },
  ];
  for (const [i, film] of shown.entries()) {
    const box = shown.length === 1 ? { x: 28, y: 92, width: 539, height: 322 } : boxes[i];
    if (box) filmPanel(page, film, box);
  }
  if (shown.length === 0) {
    write(page, 'The case holds no film of this knee.', {
      box: { x: 28, y: 200, width: 539, height: 20 },
      style: { size: 12, align: 'center' },
    });
  }
}
