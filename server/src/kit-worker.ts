// Runs in a thread of its own: the plan for the bone that may be found, and the paper of its kit.
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { SetList, StockItem } from '@gapline/core/kit/set-list.ts';
import { type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { finish } from '@gapline/core/measure/steps.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { planningForSurprise } from '@gapline/core/plan/plan-for-surprise.ts';
import { kitCsv } from '@gapline/exchange/kit/kit-csv.ts';
import { kitList } from '@gapline/sheet/src/kit/kit-list.ts';
import { toldKit } from '@gapline/sheet/src/kit/told-kit.ts';
import type { KitListWanted } from './kit-work.ts';

const parsed = <T>(body: string | null): T | null => (body === null ? null : (JSON.parse(body) as T));

/** The kit list as PDF or CSV, reckoned from the saved case. */
export async function kitListOf(wanted: KitListWanted): Promise<Outcome<Uint8Array>> {
  const file = JSON.parse(wanted.caseBody) as CaseFile;
  const catalogue = parsed<Catalogue>(wanted.catalogueBody);
  const setList = parsed<SetList>(wanted.setListBody);
  const stock = parsed<readonly StockItem[]>(wanted.stockBody);
  const answer = finish(planningForSurprise({ file, catalogue, setList, stock, today: wanted.madeAt.slice(0, 10) }));
  if (!answer.kit.ok) return answer.kit;
  if (!catalogue || !setList) throw new Error('A kit was made without catalogue or sets.');
  if (wanted.kind === 'csv') return ok(Buffer.from(kitCsv(answer.kit.value.decided, setList)));
  const content = toldKit({ file, answer, catalogue, setList });
  if (!content.ok) return content;
  return ok(await kitList({ case: file, content: content.value, madeAt: wanted.madeAt }));
}
