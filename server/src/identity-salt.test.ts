import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { workbenchUnderTest } from '../testing/workbench-under-test.ts';
import { identitySalt, makeIdentitySalt } from './identity-salt.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'gapline-salt-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('FILM-6 the secret under which UIDs are replaced', () => {
  test('is made once, whole, and kept', async () => {
    await makeIdentitySalt(folder);
    const salt = await identitySalt(folder);
    expect(salt).toMatch(/^[0-9a-f]{64}$/);
    await makeIdentitySalt(folder);
    expect(await identitySalt(folder)).toBe(salt);
  });

  test('one that was cut short is never used, and made anew at the next start', async () => {
    writeFileSync(join(folder, 'identity-salt'), '');
    await expect(identitySalt(folder)).rejects.toThrow('identity-salt');
    await makeIdentitySalt(folder);
    expect(await identitySalt(folder)).toMatch(/^[0-9a-f]{64}$/);
  });

  test('is there before the first film comes', async () => {
    const bench = await workbenchUnderTest();
    expect(readFileSync(join(bench.folder, 'identity-salt'), 'utf8')).toMatch(/^[0-9a-f]{64}$/);
    await bench.close();
  });
});
