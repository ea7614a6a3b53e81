import { CORE_VERSION } from '@gapline/core/plan/versions.ts';
import { Command, CommanderError } from 'commander';
import { EXIT } from './answer.ts';

/** In the order in which they are used. A verb is loaded when it is asked for: each brings much with it. */
const VERBS: Readonly<Record<string, () => Promise<Command>>> = {
  demo: async () => (await import('./verbs/demo.ts')).demoVerb,
  phantom: async () => (await import('./verbs/phantom.ts')).phantomVerb,
  measure: async () => (await import('./verbs/measure.ts')).measureVerb,
  plan: async () => (await import('./verbs/plan.ts')).planVerb,
  forecast: async () => (await import('./verbs/forecast.ts')).forecastVerb,
  kit: async () => (await import('./verbs/kit.ts')).kitVerb,
};

/** The verb that is named, or all of them where none is: for the help, and for what to say to a wrong one. */
function asked(name: string | undefined): Promise<readonly Command[]> {
  const one = name === undefined || !Object.hasOwn(VERBS, name) ? undefined : VERBS[name];
  return Promise.all((one ? [one] : Object.values(VERBS)).map((load) => load()));
}

/**
 * Runs the command line: results go to standard output, everything else to standard error, and the exit code is set.
 *
 * @param words what was typed after the program's name: a verb, its arguments and options.
 */
export async function gapline(words: readonly string[]): Promise<void> {
  const program = new Command('gapline')
    .description(
      'Planning workbench for revision of the knee replacement. Research and education only; not a medical device approved anywhere.',
    )
    .version(CORE_VERSION)
    .addHelpText(
      'after',
      '\nExit codes: 0 done, 1 refused, 2 bad input. Results go to standard output, everything else to standard error.',
    );
  for (const verb of await asked(words[0])) program.addCommand(verb);
  for (const command of [program, ...program.commands]) command.exitOverride();
  try {
    await program.parseAsync(words, { from: 'user' });
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    process.exitCode = error.exitCode === 0 ? EXIT.done : EXIT.badInput;
  }
}
