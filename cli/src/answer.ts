import type { Reason } from '@gapline/core/measure/outcome.ts';

/** Exit codes: success; asked for in vain (nothing wrong with the input's form); bad input. */
export const EXIT = { done: 0, refused: 1, badInput: 2 } as const;

/** What a verb has to say when it ends: its own words on standard output, or why not. */
export type Answer =
  | { readonly done: true; readonly text: string; readonly cautions?: readonly Reason[] }
  | { readonly done: false; readonly exit: 1 | 2; readonly reasons: readonly Reason[] };

export const done = (text: string, cautions: readonly Reason[] = []): Answer => ({ done: true, text, cautions });
export const refused = (...reasons: readonly Reason[]): Answer => ({ done: false, exit: EXIT.refused, reasons });
export const badInput = (...reasons: readonly Reason[]): Answer => ({ done: false, exit: EXIT.badInput, reasons });

/** One reason on standard error: what, where, and how to mend it, each on a line of its own. */
export function inLines({ message, file, field, mend }: Reason): string {
  const where = [file && !message.includes(file) ? file : '', field ?? ''].filter((s) => s !== '').join(', ');
  return [`gapline: ${message}`, ...(where ? [`  where: ${where}`] : []), ...(mend ? [`  mend:  ${mend}`] : [])].join(
    '\n',
  );
}

/** Says an answer: results on standard output, cautions and refusals on standard error. Sets the exit code. */
export function say(answer: Answer): void {
  for (const reason of answer.done ? (answer.cautions ?? []) : answer.reasons)
    process.stderr.write(`${inLines(reason)}\n`);
  if (answer.done) process.stdout.write(answer.text.endsWith('\n') ? answer.text : `${answer.text}\n`);
  process.exitCode = answer.done ? EXIT.done : answer.exit;
}

/** A word on long work, on standard error so that results can be piped. */
export const progress = (words: string): void => void process.stderr.write(`gapline: ${words}\n`);

export const json = (value: unknown): string => JSON.stringify(value, null, 2);
