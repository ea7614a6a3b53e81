import { demoCase } from '@gapline/phantoms/src/demo-case.ts';
import { Command } from 'commander';
import { type Answer, done, json, progress, refused, say } from '../answer.ts';
import { fillFolderWhole } from '../write-whole.ts';

interface DemoOptions {
  readonly json?: boolean;
}

export const demoVerb = new Command('demo')
  .description('Writes the demonstration case: films as DICOM, case.json, truth.json.')
  .argument('<dir>', 'new or empty folder')
  .option('--json', 'for machines')
  .addHelpText('after', '\nExample: gapline demo my-demo && gapline plan my-demo')
  .action((dir: string, options: DemoOptions) => say(demo(dir, options)));

export function demo(dir: string, options: DemoOptions): Answer {
  progress('drawing the films of the demonstration case; this takes some 20 seconds ...');
  const written = fillFolderWhole(dir, (folder) => demoCase(folder));
  if (!written.ok) return refused(written.reason);
  const { caseFile, files } = written.value;
  if (options.json) return done(json({ folder: dir, case: caseFile.id, files }));
  return done(`${caseFile.title}\nWritten to ${dir}: ${files.join(', ')}\nNext: gapline plan ${dir}`);
}
