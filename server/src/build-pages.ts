import { readdir, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';

/** Folders and files whose change makes the pages old. */
const SOURCES = ['web', 'core', 'server/src/contract.ts', 'package-lock.json'];

/** Builds the pages when their sources are newer. Gives true when it built. */
export async function freshPages(project: string, say: (line: string) => void): Promise<boolean> {
  const pages = join(project, 'web', 'dist');
  const built = (await stat(join(pages, 'index.html')).catch(() => null))?.mtimeMs ?? 0;
  const changed = await Promise.all(SOURCES.map((source) => newest(join(project, source))));
  if (Math.max(...changed) <= built) return false;
  say('Building the pages ...');
  const { buildPages } = await import('../../web/build.ts');
  const draft = `${pages}.${process.pid}.tmp`;
  await buildPages({ outDir: draft, minify: true });
  await rm(pages, { recursive: true, force: true });
  await rename(draft, pages);
  return true;
}

/** Time of the newest source under a path, ms. */
async function newest(path: string): Promise<number> {
  const entry = await stat(path);
  if (!entry.isDirectory()) return entry.mtimeMs;
  const names = (await readdir(path)).filter(
    (n) => n !== 'node_modules' && !n.startsWith('dist') && !n.includes('.test.'),
  );
  return Math.max(0, ...(await Promise.all(names.map((name) => newest(join(path, name))))));
}
