import { bailOutWords } from '@gapline/core/forecast/bail-out-words.ts';
import type { Forecast } from '@gapline/core/forecast/forecast-types.ts';
import { pct } from '@gapline/core/plan/told/shares.ts';
import { threeLines } from '@gapline/core/plan/told/three-lines.ts';
import { Command } from 'commander';
import { type Answer, badInput, done, json, refused, say } from '../answer.ts';
import { findCatalogue } from '../find-catalogue.ts';
import { openCase } from '../open-case.ts';
import { runSurprise } from '../run-surprise.ts';
import { table } from '../table.ts';

interface ForecastOptions {
  readonly catalogue?: string;
  readonly json?: boolean;
}

export const forecastVerb = new Command('forecast')
  .description('Draws the knees that may be found and tells what the plan becomes, how often, and what to do instead.')
  .argument('<case>', 'folder with case.json and its films')
  .option('--catalogue <file>', 'catalogue in JSON, instead of the shipped one that the case names')
  .option('--json', 'for machines')
  .addHelpText('after', '\nExample: gapline forecast my-case')
  .action((folder: string, options: ForecastOptions) => say(forecast(folder, options)));

/** Least share, 0 to 1, of a choice that is listed for people. */
const LISTED = 0.02;

export function forecast(folder: string, options: ForecastOptions): Answer {
  const opened = openCase(folder);
  if (!opened.ok) return badInput(...opened.reasons);
  const found = findCatalogue(opened.file.catalogue, options.catalogue);
  if (!found.ok) return badInput(found.reason);
  const catalogue = found.value;
  const today = new Date().toISOString().slice(0, 10);
  const answer = runSurprise({ file: opened.file, catalogue, setList: null, stock: null, today });
  if (!answer.forecast.ok) {
    const asked = answer.missing.filter((m) => m.field !== 'kit.setList');
    return refused(
      answer.forecast.reason,
      ...asked.map((m) => ({
        code: 'missing',
        message: m.what,
        field: m.field,
        mend: `Would change: ${m.wouldChange}`,
      })),
    );
  }
  const { forecast: told } = answer.forecast.value;
  if (options.json) return done(json({ format: 'gapline-forecast', version: '1.0', case: opened.file.id, ...told }));
  const lead = threeLines({ plan: answer.plan, catalogue, answer: { of: answer, catalogue } })
    .filter((line) => line.id !== 'room')
    .map(({ label, figure, head, more }) => `${label}: ${[figure, head, ...more].filter(Boolean).join(', ')}`);
  return done([opened.file.title, '', ...lead, '', ...forPeople(told)].join('\n'));
}

function forPeople({ choices, lengths, bailOuts, notStated }: Forecast): string[] {
  const shares = choices.filter((c) => c.share >= LISTED).map((c) => [c.choice, c.label, pct(c.share)]);
  const bands = lengths.map(({ label, unit, percentiles }) => [label, unit, ...percentiles.map((p) => p.toFixed(1))]);
  return [
    table(['choice', 'part', 'share'], shares, [2]),
    '',
    table(['may be found', 'unit', '5 %', '25 %', '50 %', '75 %', '95 %'], bands, [2, 3, 4, 5, 6]),
    '',
    'If it turns out otherwise',
    ...bailOutWords(bailOuts).map(
      ({ when, doing, share, pure }) =>
        `  ${when || 'always'}: ${doing} (${pct(share)} of knees; holds in ${pct(pure)} of them)`,
    ),
    ...(notStated.length > 0
      ? ['', 'Drawn without:', ...notStated.map((n) => `  ${n.what} (${n.field}): ${n.wouldChange}`)]
      : []),
  ];
}
