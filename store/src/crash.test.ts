import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, test } from 'vitest';
import { lockDataFolder } from './data-folder-lock.ts';
import { openFilmFiles } from './film-files.ts';
import { openEmbeddedStore } from './open-store.ts';

const script = fileURLToPath(new URL('../testing/commit-forever.ts', import.meta.url));
const folders: string[] = [];
const newFolder = () => {
  const folder = mkdtempSync(join(tmpdir(), 'gapline-crash-'));
  folders.push(folder);
  return folder;
};
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

interface Victim {
  readonly child: ChildProcess;
  readonly lines: string[];
  /** Resolves when the process has said this many lines. */
  said(count: number): Promise<void>;
  kill(): Promise<void>;
}

function victim(folder: string): Victim {
  const child = spawn(process.execPath, ['--disable-warning=ExperimentalWarning', script, folder], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const lines: string[] = [];
  let rest = '';
  let heard = (): void => undefined;
  const ended = new Promise<void>((resolve) => child.once('close', () => resolve()));
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    const parts = `${rest}${text}`.split('\n');
    rest = parts.pop() ?? '';
    lines.push(...parts);
    heard();
  });
  return {
    child,
    lines,
    said: (count) =>
      new Promise((resolve, reject) => {
        heard = () => (lines.length >= count ? resolve() : undefined);
        void ended.then(() => reject(new Error(`the process ended after ${lines.length} lines`)));
        heard();
      }),
    async kill() {
      child.kill('SIGKILL');
      await ended;
    },
  };
}

const numbersAfter = (lines: readonly string[], word: string) =>
  lines.filter((l) => l.startsWith(`${word} `)).map((l) => l.slice(word.length + 1));

describe('a process killed at any moment', () => {
  test('loses nothing that it acknowledged, and the next one opens the same folder', async () => {
    const folder = newFolder();
    const films = new Set<string>();
    let acknowledged = 0;
    for (let round = 0; round < 8; round += 1) {
      const process = victim(folder);
      await process.said(20 + round * 37);
      await process.kill();
      acknowledged = Math.max(acknowledged, ...numbersAfter(process.lines, 'saved').map(Number));
      for (const sha256 of numbersAfter(process.lines, 'film')) films.add(sha256);

      const lock = lockDataFolder(folder);
      expect(lock.ok, 'the lock of a killed process is free').toBe(true);
      const opened = await openEmbeddedStore(folder);
      if (!opened.ok || !lock.ok) throw new Error('the folder does not open');
      const stored = await opened.value.cases.read('crash');
      // One more may have reached the disk before its acknowledgement was said.
      expect(stored?.revision).toBeGreaterThanOrEqual(acknowledged);
      expect(stored?.revision).toBeLessThanOrEqual(acknowledged + 1);
      expect(stored?.case.title).toBe(String((stored?.revision ?? 0) - 1));
      expect(await opened.value.cases.history('crash')).toHaveLength((stored?.revision ?? 0) - 1);
      const files = await openFilmFiles(folder);
      for (const sha256 of films) expect((await files.read(sha256)).ok, `film ${sha256}`).toBe(true);
      expect(
        readdirSync(join(folder, 'films'), { recursive: true }).filter((f) => String(f).endsWith('.draft')),
      ).toEqual([]);
      await opened.value.close();
      lock.value.release();
    }
    expect(acknowledged).toBeGreaterThan(500);
    expect(films.size).toBeGreaterThan(20);
  });
});

describe('two processes on one data folder', () => {
  test('the second is refused with the folder and the process named, and is let in after the first is killed', async () => {
    const folder = newFolder();
    const first = victim(folder);
    await first.said(3);
    const second = lockDataFolder(folder);
    expect(second).toMatchObject({
      ok: false,
      reason: { code: 'data-folder-in-use', field: folder, mend: expect.stringContaining('--data') },
    });
    expect(second.ok ? '' : second.reason.message).toContain(folder);
    expect(second.ok ? '' : second.reason.message).toContain(`process ${first.child.pid}`);
    await first.kill();
    const third = lockDataFolder(folder);
    expect(third.ok).toBe(true);
    if (third.ok) third.value.release();
  });

  test('within one process the folder is held as well, and free once released', () => {
    const folder = newFolder();
    const first = lockDataFolder(folder);
    expect(lockDataFolder(folder).ok).toBe(false);
    if (first.ok) first.value.release();
    const again = lockDataFolder(folder);
    expect(again.ok).toBe(true);
    if (again.ok) again.value.release();
  });
});

const hasStrace = spawnSync('strace', ['-V']).status === 0;

describe('power loss', () => {
  test.runIf(hasStrace)('every acknowledged commit was synced to the disk before (seen by strace)', () => {
    const folder = newFolder();
    const commits = 50;
    const traced = spawnSync(
      'strace',
      ['-f', '-qq', '-e', 'trace=fsync,fdatasync,write', '-s', '16', process.execPath, script, folder, String(commits)],
      { encoding: 'utf8', maxBuffer: 1 << 28 },
    );
    expect(traced.status, traced.stderr.slice(-500)).toBe(0);
    let synced = 0;
    let least = Number.POSITIVE_INFINITY;
    let seen = 0;
    for (const line of traced.stderr.split('\n')) {
      if (/\bf(data)?sync\(\d+\)\s+= 0|<\.\.\. f(data)?sync resumed>.*= 0/.test(line)) synced += 1;
      if (/write\(1, "saved /.test(line)) {
        seen += 1;
        least = Math.min(least, synced);
        synced = 0;
      }
    }
    expect(seen).toBe(commits);
    expect(least).toBeGreaterThanOrEqual(1);
  });
});
