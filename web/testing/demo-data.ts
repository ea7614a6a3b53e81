import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

/** Names the folder in which one run of the tests keeps a data folder with the demonstration case. */
const SHARED = 'GAPLINE_TEST_DEMO';
const LOOK_AGAIN_MS = 200;

/** Before any browser test: an empty place for the demonstration case, gone when the tests have ended. */
export function setup(): () => void {
  const shared = mkdtempSync(join(tmpdir(), 'gapline-demo-'));
  process.env[SHARED] = shared;
  return () => rmSync(shared, { recursive: true, force: true });
}

/**
 * Fills an empty folder with what a first start makes: the demonstration case, its films and the shipped documents. Made once a
 * run, by whoever asks first, because the films take long; the others wait and get a copy.
 */
export async function copyDemoData(folder: string, script: string): Promise<void> {
  const shared = process.env[SHARED];
  if (!shared) return;
  const data = join(shared, 'data');
  const made = join(shared, 'made');
  const failed = join(shared, 'failed');
  if (takes(join(shared, 'taken')))
    await makeOnce({ data, script }).then(
      () => note(made),
      () => note(failed),
    );
  while (!existsSync(made)) {
    // Without it the test's own start makes the case, and tells what is wrong.
    if (existsSync(failed)) return;
    await pause(LOOK_AGAIN_MS);
  }
  cpSync(data, folder, { recursive: true });
}

const note = (path: string): void => writeFileSync(path, '');

/** Whether this process is the first that asks: only one can make a folder. */
function takes(path: string): boolean {
  try {
    mkdirSync(path);
    return true;
  } catch {
    return false;
  }
}

/** A first start, ended as soon as it tells its address. */
function makeOnce({ data, script }: { readonly data: string; readonly script: string }): Promise<void> {
  const child = spawn(process.execPath, [script, '--data', data, '--port', '0', '--no-open'], {
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  child.stdout.on('data', (chunk: Buffer) => {
    if (chunk.toString().includes('http://')) child.kill('SIGTERM');
  });
  return new Promise((done, fail) => {
    child.on('exit', (code) => (code === 0 ? done() : fail(new Error(`the first start ended with ${code}`))));
  });
}
