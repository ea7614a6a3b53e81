import { join } from 'node:path';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { isDate } from '@gapline/core/plan/field-kinds.ts';
import type { SurpriseKit } from '@gapline/core/plan/surprise.ts';
import { counted, money, pct } from '@gapline/core/plan/told/shares.ts';
import { kitCsv } from '@gapline/exchange/kit/kit-csv.ts';
import { kitList } from '@gapline/sheet/src/kit/kit-list.ts';
import { toldKit } from '@gapline/sheet/src/kit/told-kit.ts';
import { Command } from 'commander';
import { type Answer, badInput, done, json, refused, say } from '../answer.ts';
import { findCatalogue } from '../find-catalogue.ts';
import { findSetList, findStock } from '../find-set-list.ts';
import { openCase } from '../open-case.ts';
import { runSurprise } from '../run-surprise.ts';
import { table } from '../table.ts';
import { writeFileWhole } from '../write-whole.ts';

interface KitOptions {
  readonly out?: string;
  readonly catalogue?: string;
  readonly sets?: string;
  readonly stock?: string;
  readonly surgery?: string;
  readonly share?: string;
  readonly json?: boolean;
}

export const kitVerb = new Command('kit')
  .description('Chooses the sets that must be in the room, and writes kit.pdf and kit.csv.')
  .argument('<case>', 'folder with case.json and its films')
  .option('--out <dir>', 'folder for kit.pdf and kit.csv (otherwise the case folder)')
  .option('--sets <file>', 'list of sets in JSON, instead of the one that the case names')
  .option('--stock <file>', 'stock in CSV: lots and expiry')
  .option('--surgery <date>', 'day of surgery, such as 2026-12-14')
  .option('--share <percent>', 'share of openings that must have an answer, %')
  .option('--catalogue <file>', 'catalogue in JSON, instead of the shipped one that the case names')
  .option('--json', 'for machines')
  .addHelpText('after', '\nExample: gapline kit my-case --surgery 2026-12-14 --out my-plan')
  .action(async (folder: string, options: KitOptions) => say(await kit(folder, options)));

export async function kit(folder: string, options: KitOptions): Promise<Answer> {
  const opened = openCase(folder);
  if (!opened.ok) return badInput(...opened.reasons);
  const asked = withAsked(opened.file, options);
  if (!asked.ok) return badInput(asked.reason);
  const file = asked.value;
  const catalogue = findCatalogue(file.catalogue, options.catalogue);
  if (!catalogue.ok) return badInput(catalogue.reason);
  const setList = findSetList(file.kit?.setList, options.sets);
  if (!setList.ok) return badInput(setList.reason);
  const stock = findStock(options.stock);
  if (!stock.ok) return badInput(stock.reason);
  const madeAt = new Date().toISOString();
  const answer = runSurprise({
    file,
    catalogue: catalogue.value,
    setList: setList.value,
    stock: stock.value,
    today: madeAt.slice(0, 10),
  });
  if (!catalogue.value) return badInput(NO_CATALOGUE);
  const content = toldKit({ file, answer, catalogue: catalogue.value, setList: setList.value });
  if (!content.ok) return refused(content.reason);
  if (!answer.kit.ok) return refused(answer.kit.reason);
  const out = options.out ?? folder;
  for (const [name, bytes] of [
    ['kit.csv', kitCsv(answer.kit.value.decided, setList.value)],
    ['kit.pdf', await kitList({ case: file, content: content.value, madeAt })],
  ] as const) {
    const written = writeFileWhole(join(out, name), bytes);
    if (!written.ok) return refused(written.reason);
  }
  const cautions = [...answer.kit.value.proposed.notes, ...answer.kit.warnings];
  if (options.json)
    return done(json({ format: 'gapline-kit', version: '1.0', case: file.id, ...answer.kit.value }), cautions);
  const written = `Written: ${join(out, 'kit.csv')}, ${join(out, 'kit.pdf')}`;
  return done(
    [`${file.title}: ${file.side.toUpperCase()} KNEE`, '', ...inWords(answer.kit.value), '', written].join('\n'),
    cautions,
  );
}

const NO_CATALOGUE = {
  code: 'no-catalogue',
  message: 'The case names no catalogue.',
  file: 'case.json',
  field: 'catalogue',
  mend: 'Name one in the case, or give its file with --catalogue FILE.',
};

/** The case with what the command line asks for in place of its own. */
function withAsked(file: CaseFile, { surgery, share }: KitOptions) {
  const wrong = (field: string, given: string, mend: string) => ({
    ok: false as const,
    reason: { code: 'bad-option', message: `${field} ${given} cannot be used.`, field, mend },
  });
  if (surgery !== undefined && !isDate(surgery)) return wrong('--surgery', surgery, 'Give a day such as 2026-12-14.');
  const percent = share === undefined ? undefined : Number(share);
  if (percent !== undefined && !(percent >= 1 && percent <= 100))
    return wrong('--share', String(share), 'Give a number from 1 to 100, in per cent.');
  const kit = {
    ...file.kit,
    ...(surgery === undefined ? {} : { surgeryOn: surgery }),
    ...(percent === undefined ? {} : { sharePct: percent }),
  };
  return { ok: true as const, value: { ...file, kit } };
}

function inWords({ decided, proposed, without, currency, isDecided }: SurpriseKit): string[] {
  const sets = decided.sets
    .filter((s) => s.brought)
    .map((s) => [
      s.ref,
      s.name,
      s.owner === 'loan' ? 'loan' : 'own shelf',
      String(s.trays),
      money(s.cost, currency),
      s.orderBy ?? '',
      pct(s.adds),
    ]);
  const proof = proposed.proven
    ? 'proven: no cheaper room does as much'
    : `a room from ${money(proposed.leastCost, currency)} might do as well`;
  return [
    `${counted(decided.bring.length, 'set')}, ${money(decided.cost, currency)}: an answer in ${pct(decided.share)} of drawn knees (${isDecided ? 'decided by hand' : proof})`,
    '',
    table(['number', 'set', 'from', 'trays', 'cost', 'order by', 'adds'], sets, [3, 4, 6]),
    '',
    'Cost against coverage',
    ...proposed.curve.map(
      (step) => `  ${money(step.cost, currency).padStart(12)}  ${pct(step.share)}${step.proven ? '' : ' (not proven)'}`,
    ),
    '',
    'Without an answer',
    ...(decided.uncovered.length > 0
      ? decided.uncovered.map((u) => `  ${pct(u.share)}: ${u.words}`)
      : ['  nothing that was drawn']),
    '',
    'If a set does not arrive',
    ...without.map((w) => `  ${w.words}`),
  ];
}
