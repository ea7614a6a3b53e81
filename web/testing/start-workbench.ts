import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { copyDemoData } from './demo-data.ts';

/** Root of the project. */
export const PROJECT = join(import.meta.dirname, '..', '..');

/** The real server in a process of its own. */
export interface Workbench {
  readonly process: ChildProcess;
  /** What it prints to be opened: with the key. */
  readonly address: string;
}

/**
 * Starts the workbench on a folder of data, port 0 = any that is free, and waits for the address that it prints. A new
 * folder holds the demonstration case.
 */
export async function startWorkbench(folder: string, port = 0): Promise<Workbench> {
  const script = join(PROJECT, 'server', 'src', 'start.ts');
  if (!existsSync(folder) || readdirSync(folder).length === 0) await copyDemoData(folder, script);
  const child = spawn(process.execPath, [script, '--data', folder, '--port', String(port), '--no-open'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const address = await new Promise<string>((done, failed) => {
    let said = '';
    const hear = (chunk: Buffer) => {
      said += chunk.toString();
      const found = said.match(/http:\/\/127\.0\.0\.1:\d+\/\?key=\S+/);
      if (found) done(found[0]);
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.on('exit', (code) => failed(new Error(`the workbench ended with ${code}: ${said}`)));
  });
  return { process: child, address };
}

/** Ends the workbench by a signal and waits until it is gone; one that has ended already is left alone. */
export async function endWorkbench({ process: child }: Workbench, signal: 'SIGTERM' | 'SIGKILL'): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const gone = new Promise((done) => child.once('exit', done));
  child.kill(signal);
  await gone;
}
