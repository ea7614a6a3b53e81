import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const script = fileURLToPath(new URL('../src/start.ts', import.meta.url));

/** `npm start` as a process of its own. */
export interface StartedProcess {
  readonly child: ChildProcess;
  /** What it printed so far, both streams. */
  output(): string;
  /** The printed address, or an error with the output when the process ends before. */
  address(): Promise<string>;
  /** Exit code, or null where a signal ended it. */
  ended(): Promise<number | null>;
}

export interface StartHow {
  readonly args: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
  /** Program to run it under, such as a tracer. */
  readonly under?: readonly string[];
}

export function startProcess({ args, env = {}, under = [] }: StartHow): StartedProcess {
  const [program = '', ...rest] = [
    ...under,
    process.execPath,
    '--disable-warning=ExperimentalWarning',
    script,
    '--no-open',
    ...args,
  ];
  const child = spawn(program, rest, { stdio: ['ignore', 'pipe', 'pipe'], env: { ...process.env, ...env } });
  let output = '';
  let heard = (): void => undefined;
  const hear = (text: string) => {
    output += text;
    heard();
  };
  child.stdout.setEncoding('utf8').on('data', hear);
  child.stderr.setEncoding('utf8').on('data', hear);
  const ended = new Promise<number | null>((resolve) => child.once('close', (code) => resolve(code)));
  return {
    child,
    output: () => output,
    ended: () => ended,
    address: () =>
      new Promise((resolve, reject) => {
        heard = () => {
          const found = /open (http:\/\/\S+)\n/.exec(output)?.[1];
          if (found) resolve(found);
        };
        void ended.then(() => reject(new Error(`it ended: ${output}`)));
        heard();
      }),
  };
}

/** A browser's first visit: spends the key and gives the cookie with the address of the server. */
export async function visit(address: string): Promise<{ readonly base: string; readonly cookie: string }> {
  const answer = await fetch(address, { redirect: 'manual' });
  return { base: new URL(address).origin, cookie: answer.headers.get('set-cookie')?.split(';')[0] ?? '' };
}
