import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const script = fileURLToPath(new URL('../testing/fill-disk.ts', import.meta.url));

/** Runs a shell line in a mount namespace of its own, with a small disk mounted on the folder. */
function onSmallDisk(line: (folder: string) => string) {
  const folder = mkdtempSync(join(tmpdir(), 'gapline-small-disk-'));
  const rootless = process.getuid?.() === 0 ? [] : ['--map-root-user'];
  const shell = `mount -t tmpfs -o size=8m tmpfs "${folder}" && ${line(folder)}`;
  const done = spawnSync('unshare', [...rootless, '--mount', 'sh', '-c', shell], { encoding: 'utf8' });
  rmSync(folder, { recursive: true });
  return done;
}
const canMount = onSmallDisk(() => 'true').status === 0;

describe('a film that does not fit on the disk', () => {
  test.runIf(canMount)('is refused as such, leaves nothing behind, and the work goes on', () => {
    const run = onSmallDisk(
      (folder) => `"${process.execPath}" --disable-warning=ExperimentalWarning "${script}" "${folder}"`,
    );
    expect(run.status, run.stderr).toBe(0);
    expect(JSON.parse(run.stdout)).toEqual({
      status: 507,
      body: {
        error: {
          code: 'disk-full',
          message: expect.stringContaining('disk that holds the data folder is full'),
          mend: expect.stringContaining('Make room'),
        },
      },
      changed: 200,
      cases: ['Kept'],
      faults: [],
    });
  });
});
