import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Measurement } from '@gapline/core/limb/measurement.ts';
import { makePlan } from '@gapline/core/plan/make-plan.ts';
import type { Plan } from '@gapline/core/plan/plan.ts';
import { Command } from 'commander';
import { type Answer, badInput, done, json, say } from '../answer.ts';
import { openCase } from '../open-case.ts';
import { table } from '../table.ts';

export const measureVerb = new Command('measure')
  .description('Gives every measurement of a case with unit, sign, uncertainty and where its millimetres come from.')
  .argument('<case>', 'folder with case.json and its films')
  .option('--json', 'for machines')
  .addHelpText('after', '\nExample: gapline measure my-case')
  .action((folder: string, options: { json?: boolean }) => say(measure(folder, options)));

export function measure(folder: string, options: { readonly json?: boolean }): Answer {
  const opened = openCase(folder);
  if (!opened.ok) return badInput(...opened.reasons);
  const plan = makePlan(opened.file, null);
  const { measurements, jointLine, films, conflicts } = plan;
  if (options.json) {
    const about = { format: 'gapline-measurements', version: '1.0', case: opened.file.id, core: plan.versions.core };
    return done(json({ ...about, films, measurements, jointLine, conflicts }), conflicts);
  }
  return done(forPeople(plan, opened.file.title), conflicts);
}

function forPeople(plan: Plan, title: string): string {
  const had = plan.measurements.filter((m) => m.value !== null);
  const lacked = plan.measurements.filter((m) => m.value === null);
  const parts = [
    title,
    '',
    table(['side', 'measurement', 'value', '± SD', 'unit', 'scale', 'film', 'sign'], had.map(row), [2, 3]),
  ];
  const notes = had.flatMap((m) => m.flags.map((f) => `${m.id} (${m.side}): ${f.message}`));
  if (notes.length > 0) parts.push('', 'Cautions', ...notes.map((n) => `  ${n}`));
  if (lacked.length > 0) {
    parts.push(
      '',
      'Not measured',
      table(
        ['side', 'measurement', 'because'],
        lacked.map((m) => [m.side, m.label, why(m)]),
      ),
    );
  }
  parts.push('', ...jointLineLines(plan));
  return parts.join('\n');
}

const DIGITS: Readonly<Record<Measurement['unit'], number>> = { mm: 1, deg: 1, px: 1, '1': 2, '%': 1 };
const UNITS: Readonly<Record<Measurement['unit'], string>> = { mm: 'mm', deg: 'deg', px: 'px', '1': '', '%': '%' };

function row(m: Measurement): string[] {
  const digits = DIGITS[m.unit];
  const sd = m.sd === null ? '' : m.sd.toFixed(digits);
  return [m.side, m.label, (m.value ?? 0).toFixed(digits), sd, UNITS[m.unit], m.scale, m.film ?? '', m.sign];
}

function why(m: Measurement): string {
  if (m.missing && m.missing.length > 0) return `not marked: ${m.missing.map((id) => landmark(id).label).join('; ')}`;
  return m.refused ? m.refused.message : 'not known';
}

function jointLineLines({ jointLine }: Plan): string[] {
  const line = (name: string, e: Plan['jointLine']['femoral']) =>
    e.ok
      ? `Joint line, ${name}: present line ${e.value.shiftMm.toFixed(1)} mm from target (+ raised), SD ${e.value.sdMm.toFixed(1)} mm`
      : `Joint line, ${name}: not known. ${e.reason.message}`;
  return [line('femur', jointLine.femoral), line('tibia', jointLine.tibial)];
}
