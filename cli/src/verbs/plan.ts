import { join } from 'node:path';
import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { canonicalJson } from '@gapline/core/plan/canonical-json.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import type { Film } from '@gapline/film/film.ts';
import { toGrey8, toPicture } from '@gapline/film/picture.ts';
import { listParts } from '@gapline/sheet/src/construct-list.ts';
import type { SheetPicture } from '@gapline/sheet/src/film-picture.ts';
import { planSheet } from '@gapline/sheet/src/plan-sheet.ts';
import { Command } from 'commander';
import { against } from '../against.ts';
import { type Answer, badInput, done, json, progress, refused, say } from '../answer.ts';
import { findCatalogue } from '../find-catalogue.ts';
import { openCase } from '../open-case.ts';
import { table } from '../table.ts';
import { writeFileWhole } from '../write-whole.ts';

interface PlanOptions {
  readonly out?: string;
  readonly catalogue?: string;
  readonly against?: string;
  readonly json?: boolean;
}

export const planVerb = new Command('plan')
  .description('Runs the whole job and writes plan.json and plan.pdf.')
  .argument('<case>', 'folder with case.json and its films')
  .option('--out <dir>', 'folder for plan.json and plan.pdf (otherwise the case folder)')
  .option('--catalogue <file>', 'catalogue in JSON, instead of the shipped one that the case names')
  .option('--against <case>', 'folder with an earlier state of the same case: tells what differs from its plan')
  .option('--json', 'prints the plan itself, for machines; with --against plan and changes')
  .addHelpText('after', '\nExample: gapline plan my-case --out my-plan --against my-case-of-monday')
  .action(async (folder: string, options: PlanOptions) => say(await plan(folder, options)));

export async function plan(folder: string, options: PlanOptions): Promise<Answer> {
  const opened = openCase(folder);
  if (!opened.ok) return badInput(...opened.reasons);
  const catalogue = findCatalogue(opened.file.catalogue, options.catalogue);
  if (!catalogue.ok) return badInput(catalogue.reason);
  const file = options.catalogue && catalogue.value ? { ...opened.file, catalogue: catalogue.value.id } : opened.file;
  const made = makePlan(file, catalogue.value);
  const differs =
    options.against === undefined
      ? null
      : against(options.against, { file, plan: made, catalogue: catalogue.value }, options.catalogue);
  if (differs && !differs.ok) return badInput(...differs.reasons);
  progress('drawing the sheet ...');
  const pdf = await planSheet({
    plan: made,
    case: file,
    catalogue: catalogue.value,
    pictures: picturesOf(opened.films, made),
    madeAt: new Date().toISOString(),
  });
  const out = options.out ?? folder;
  for (const [name, bytes] of [
    ['plan.json', `${canonicalJson(made)}\n`],
    ['plan.pdf', pdf],
  ] as const) {
    const written = writeFileWhole(join(out, name), bytes);
    if (!written.ok) return refused(written.reason);
  }
  if (options.json) return done(json(differs ? { plan: made, changes: differs.changes } : made), made.conflicts);
  const written = `Written: ${join(out, 'plan.json')}, ${join(out, 'plan.pdf')}`;
  const changed = differs ? ['', `Against ${options.against}:`, ...indented(differs.words)] : [];
  return done([...inWords(file, made, catalogue.value), ...changed, '', written].join('\n'), made.conflicts);
}

const indented = (lines: readonly string[]): readonly string[] =>
  (lines.length > 0 ? lines : ['nothing that is shown differs']).map((line) => `  ${line}`);

/** Grey levels of the films that a sheet can show. */
function picturesOf(films: ReadonlyMap<string, Film>, made: Plan): ReadonlyMap<string, SheetPicture> {
  const drawn = new Set(made.films.filter((f) => ['ap', 'long-leg', 'lateral'].includes(f.view)).map((f) => f.id));
  const pictures = new Map<string, SheetPicture>();
  for (const [id, film] of films) {
    if (!drawn.has(id)) continue;
    const picture = toPicture(film);
    pictures.set(id, { rows: picture.rows, columns: picture.columns, grey: toGrey8(picture) });
  }
  return pictures;
}

const signed = (v: number) => (v > 0 ? `+${v.toFixed(1)}` : v.toFixed(1));

function inWords(file: CaseFile, made: Plan, catalogue: Catalogue | null): string[] {
  const lines = [`${file.title}: ${file.side.toUpperCase()} KNEE`, ''];
  const { femoral } = made.jointLine;
  if (femoral.ok) {
    const { shiftMm, sdMm } = femoral.value;
    lines.push(`Joint line: ${signed(shiftMm)} mm (+ raised), SD ${sdMm.toFixed(1)} mm`, '');
  }
  if (made.construct.kind === 'solved') {
    const { best } = made.construct.answer;
    const parts = listParts(best.construct, catalogue).map((p) => [p.bone, p.name, p.ref]);
    const { extensionLaxityMm: e, flexionLaxityMm: f } = best.effect;
    const gaps = [
      ['extension', signed(e.medial), signed(e.lateral)],
      ['flexion', signed(f.medial), signed(f.lateral)],
    ];
    lines.push(table(['', 'component', 'number'], parts), '');
    lines.push(table(['gap, mm', 'medial', 'lateral'], gaps, [1, 2]));
  } else if (made.construct.kind === 'infeasible') {
    lines.push(
      'No construct fits:',
      ...made.construct.why.clashes.map((c) => `  ${c.message} ${c.mend ?? ''}`.trimEnd()),
    );
  } else {
    lines.push(
      'No construct proposed. Missing for it:',
      ...made.construct.because.map((m) => `  ${m.what} (${m.field})`),
    );
  }
  const needed = new Set(made.construct.kind === 'not-attempted' ? made.construct.because : []);
  const rest = made.missing.filter((m) => !needed.has(m));
  if (rest.length > 0)
    lines.push('', 'Planned without:', ...rest.map((m) => `  ${m.what} (${m.field}): ${m.wouldChange}`));
  return lines;
}
