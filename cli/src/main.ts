import { CORE_VERSION } from '@gapline/core/plan/versions.ts';
import { Command, CommanderError } from 'commander';
import { EXIT } from './answer.ts';
import { demoVerb } from './verbs/demo.ts';
import { forecastVerb } from './verbs/forecast.ts';
import { kitVerb } from './verbs/kit.ts';
import { measureVerb } from './verbs/measure.ts';
import { phantomVerb } from './verbs/phantom.ts';
import { planVerb } from './verbs/plan.ts';

const program = new Command('gapline')
  .description(
    'Planning workbench for revision of the knee replacement. Research and education only; not a medical device approved anywhere.',
  )
  .version(CORE_VERSION)
  .addHelpText(
    'after',
    '\nExit codes: 0 done, 1 refused, 2 bad input. Results go to standard output, everything else to standard error.',
  );

for (const verb of [demoVerb, phantomVerb, measureVerb, planVerb, forecastVerb, kitVerb]) program.addCommand(verb);
for (const command of [program, ...program.commands]) command.exitOverride();

try {
  await program.parseAsync();
} catch (error) {
  if (!(error instanceof CommanderError)) throw error;
  process.exitCode = error.exitCode === 0 ? EXIT.done : EXIT.badInput;
}
