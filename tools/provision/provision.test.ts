import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { NEEDED } from './needed.ts';

const script = fileURLToPath(new URL('./provision.ts', import.meta.url));

describe('what the tests need from the system', () => {
  test.each(NEEDED.map((n) => [n.package, n.probe] as const))('%s is there', (_name, [program, ...args]) => {
    expect(spawnSync(program, args, { stdio: 'ignore' }).status).toBe(0);
  });

  test('with everything there, nothing is installed and nothing said', () => {
    const done = spawnSync(process.execPath, [script], { encoding: 'utf8' });
    expect([done.status, done.stdout]).toEqual([0, '']);
  });

  test('where nothing may be installed, the message names each package, why, and the command', () => {
    const empty = mkdtempSync(join(tmpdir(), 'gapline-no-programs-'));
    const done = spawnSync(process.execPath, [script], { encoding: 'utf8', env: { PATH: empty } });
    rmSync(empty, { recursive: true });
    expect(done.status).toBe(1);
    expect(done.stderr).toContain('dcmtk (an independent reader of DICOM)');
    expect(done.stderr).toContain('sudo apt-get install chromium dcmtk');
  });
});
