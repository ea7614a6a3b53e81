import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { asStorageFailure, StorageFailure } from './storage-failure.ts';

const script = fileURLToPath(new URL('../testing/fill-disk.ts', import.meta.url));

/** Runs a shell line in a mount namespace of its own, where a small disk can be mounted. */
const onSmallDisk = (folder: string, line: string) =>
  spawnSync(
    'unshare',
    [
      ...(process.getuid?.() === 0 ? [] : ['--map-root-user']),
      '--mount',
      'sh',
      '-c',
      `mount -t tmpfs -o size=2m tmpfs "${folder}" && ${line}`,
    ],
    { encoding: 'utf8' },
  );

const probe = mkdtempSync(join(tmpdir(), 'gapline-mount-'));
const canMount = onSmallDisk(probe, 'true').status === 0;
rmSync(probe, { recursive: true });

describe('a full disk', () => {
  test.runIf(canMount)('is told clearly, loses nothing that was saved, and work goes on when there is room', () => {
    const folder = mkdtempSync(join(tmpdir(), 'gapline-full-'));
    const run = onSmallDisk(
      folder,
      `"${process.execPath}" --disable-warning=ExperimentalWarning "${script}" "${folder}"`,
    );
    rmSync(folder, { recursive: true });
    expect(run.status, run.stderr).toBe(0);
    const said = JSON.parse(run.stdout) as Record<string, unknown>;
    expect(said).toMatchObject({ whenFull: 'disk-full', filmWhenFull: 'disk-full', afterRoom: 'none', filmKept: true });
    // `saved` counts the change made after there was room again.
    const lastSaved = Number(said.saved) - 1;
    expect(lastSaved).toBeGreaterThan(10);
    expect(said.stillReadable).toBe(lastSaved);
    expect(said.afterReopening).toBe(lastSaved);
    expect(said.history).toBe(lastSaved);
  });

  test.each([
    [{ code: 'ENOSPC' }, 'disk-full'],
    [{ code: 'EDQUOT' }, 'disk-full'],
    [{ code: 'EFBIG' }, 'disk-full'],
    [{ code: 'ERR_SQLITE_ERROR', errcode: 13 }, 'disk-full'],
    [{ code: '53100' }, 'disk-full'],
    [{ code: 'ECONNREFUSED' }, 'storage-unreachable'],
    [{ code: '57P01' }, 'storage-unreachable'],
    [{ code: '08006' }, 'storage-unreachable'],
  ])('the error %j is told as %s', (fields, code) => {
    expect(asStorageFailure(Object.assign(new Error('x'), fields))).toMatchObject({ code });
  });

  test('any other error stays what it is', () => {
    const bug = new TypeError('bug');
    expect(asStorageFailure(bug)).toBe(bug);
    expect(asStorageFailure('text')).toBe('text');
    expect(asStorageFailure(bug)).not.toBeInstanceOf(StorageFailure);
  });
});
