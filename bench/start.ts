import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fillSmallDataFolder } from '../server/testing/small-data-folder.ts';
import { startProcess } from '../server/testing/started-process.ts';
import type { Bench } from './bench-types.ts';
import { median } from './timing/median.ts';

const RUNS = 5;
/** A server that does nothing, in the same Node. */
const BARE = "require('node:http').createServer().listen(0, '127.0.0.1', () => console.log('listening'))";

async function secondStart(folder: string): Promise<number> {
  const began = performance.now();
  const started = startProcess({ args: ['--data', folder, '--port', '0'] });
  await started.address();
  const spent = performance.now() - began;
  started.child.kill('SIGINT');
  await started.ended();
  return spent;
}

async function bareStart(): Promise<number> {
  const began = performance.now();
  const child = spawn(process.execPath, ['-e', BARE], { stdio: ['ignore', 'pipe', 'inherit'] });
  await once(child.stdout, 'data');
  const spent = performance.now() - began;
  child.kill('SIGKILL');
  await once(child, 'close');
  return spent;
}

export const benches: readonly Bench[] = [
  {
    name: 'second start, from the command to the printed address',
    target: 'under 3000 ms',
    async run() {
      const folder = mkdtempSync(join(tmpdir(), 'gapline-start-'));
      try {
        await fillSmallDataFolder(folder);
        await secondStart(folder);
        const ours: number[] = [];
        const theirs: number[] = [];
        for (let i = 0; i < RUNS; i++) {
          theirs.push(await bareStart());
          ours.push(await secondStart(folder));
        }
        const [a, b] = [median(ours), median(theirs)];
        return {
          ours: a,
          theirs: b,
          unit: 'ms',
          ratio: a / b,
          note: 'the alternative is a bare Node server that does nothing',
        };
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  },
];
