import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { openFilmFiles, sha256Of } from './film-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'gapline-films-'));
afterAll(() => rmSync(folder, { recursive: true }));
const bytes = Buffer.from('the bytes of a film');
const sha256 = sha256Of(bytes);
const path = join(folder, 'films', sha256.slice(0, 2), sha256);

describe('film files', () => {
  test('a film is stored under the SHA-256 of its bytes, once', async () => {
    const films = await openFilmFiles(folder);
    expect(await films.put(bytes)).toBe(sha256);
    expect(await films.put(bytes)).toBe(sha256);
    // The hash as `sha256sum` of coreutils gives it for the same text.
    expect(sha256).toBe('093402f8735910651c1ac0103234576124a8f2923d44d1e67a95cbc8956e2302');
    expect(readFileSync(path)).toEqual(bytes);
    const read = await films.read(sha256);
    expect(read.ok && Buffer.from(read.value).equals(bytes)).toBe(true);
  });

  test('a film that is not there is told', async () => {
    const films = await openFilmFiles(folder);
    expect(await films.has('0'.repeat(64))).toBe(false);
    expect(await films.read('0'.repeat(64))).toMatchObject({ ok: false, reason: { code: 'film-not-stored' } });
  });

  test('a film that changed on the disk is refused on reading and mended by storing it again', async () => {
    const films = await openFilmFiles(folder);
    writeFileSync(path, 'the bytes of a fily');
    expect(await films.read(sha256)).toMatchObject({
      ok: false,
      reason: { code: 'film-damaged', mend: expect.stringContaining('Import') },
    });
    await films.put(bytes);
    expect((await films.read(sha256)).ok).toBe(true);
  });

  test('what a killed process left half written is swept away at the next start', async () => {
    mkdirSync(join(folder, 'incoming'), { recursive: true });
    writeFileSync(join(folder, 'incoming', 'half'), 'x');
    writeFileSync(`${path}.1-1.draft`, 'x');
    await openFilmFiles(folder);
    expect(readdirSync(join(folder, 'incoming'))).toEqual([]);
    expect(readdirSync(join(folder, 'films', sha256.slice(0, 2)))).toEqual([sha256]);
  });
});
