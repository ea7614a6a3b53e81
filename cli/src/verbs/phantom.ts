import { parseVary, VARY_HELP } from '@gapline/phantoms/src/vary.ts';
import { writePhantom } from '@gapline/phantoms/src/write-phantom.ts';
import { Command } from 'commander';
import { type Answer, badInput, done, json, progress, refused, say } from '../answer.ts';
import { fillFolderWhole } from '../write-whole.ts';

interface PhantomOptions {
  readonly seed: string;
  readonly vary?: readonly string[];
  readonly json?: boolean;
}

export const phantomVerb = new Command('phantom')
  .description('Writes a virtual limb: films as DICOM, case.json, truth.json. The same seed gives the same bytes.')
  .argument('<dir>', 'new or empty folder')
  .requiredOption('--seed <number>', 'whole number from 0')
  .option('--vary <name=value...>', 'what to choose instead of draw')
  .option('--json', 'for machines')
  .addHelpText(
    'after',
    `\nWhat can be varied:\n${VARY_HELP}\n\nExample: gapline phantom --seed 7 --vary varus=6 ball=no -- my-phantom`,
  )
  .action((dir: string, options: PhantomOptions) => say(phantom(dir, options)));

export function phantom(dir: string, options: PhantomOptions): Answer {
  const seed = Number(options.seed);
  if (!/^\d+$/.test(options.seed) || !Number.isSafeInteger(seed)) {
    return badInput({
      code: 'bad-seed',
      message: `“${options.seed}” is not a whole number from 0.`,
      field: '--seed',
      mend: 'Give for example --seed 7.',
    });
  }
  const vary = parseVary(options.vary ?? []);
  if (!vary.ok) return badInput({ ...vary.reason, field: `--vary ${vary.reason.field ?? ''}`.trim() });
  progress(`drawing the films of phantom ${seed} ...`);
  const written = fillFolderWhole(dir, (folder) => writePhantom({ seed, vary: vary.value }, folder));
  if (!written.ok) return refused(written.reason);
  const { caseFile, files } = written.value;
  if (options.json) return done(json({ folder: dir, case: caseFile.id, seed, files }));
  return done(`${caseFile.title}\nWritten to ${dir}: ${files.join(', ')}`);
}
