import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { ARROWS, FOR_TESTS, PACKAGES } from './arrows.ts';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const WORKSPACES = ['core', 'film', 'exchange', 'store', 'sheet', 'phantoms', 'server', 'web', 'cli', 'tools', 'cases'];
const IMPORT =
  /(?:^|[\s;])(?:import|export)\s+(?:[\s\S]*?\sfrom\s+)?['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)/gm;

function sources(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    if (name === 'node_modules' || name === 'dist') return [];
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return sources(path);
    return /\.tsx?$/.test(name) ? [path] : [];
  });
}

/** Repository-relative path that an import leads to, or the bare package name. */
function target(file: string, specifier: string): { inside: string } | { outside: string } {
  if (specifier.startsWith('@gapline/')) return { inside: specifier.slice('@gapline/'.length) };
  if (specifier.startsWith('.')) return { inside: relative(root, resolve(dirname(file), specifier)) };
  return { outside: specifier };
}

const under = (path: string, folder: string) => path === folder || path.startsWith(`${folder}/`);

/** The longest key of the table that holds the path. */
const home = (path: string) =>
  Object.keys(ARROWS)
    .filter((k) => under(path, k))
    .sort((a, b) => b.length - a.length)[0];

function breaches(file: string, text: string): string[] {
  const path = relative(root, file);
  const from = home(path);
  if (!from) return [`${path}: stands in no folder of the table`];
  const isTest = /\.test\.tsx?$/.test(path);
  const found: string[] = [];
  for (const match of text.matchAll(IMPORT)) {
    const specifier = match[1] ?? match[2] ?? '';
    const to = target(file, specifier);
    if ('inside' in to) {
      const allowed = [from, ...(ARROWS[from] ?? []), ...(isTest ? FOR_TESTS : [])];
      if (!allowed.some((folder) => under(to.inside, folder))) found.push(`${path} may not import ${to.inside}`);
    } else if (!isTest) {
      const workspace = path.split('/')[0] ?? '';
      const packages = PACKAGES[workspace];
      const name = to.outside
        .split('/')
        .slice(0, to.outside.startsWith('@') ? 2 : 1)
        .join('/');
      if (packages && !packages.includes(name)) found.push(`${path} may not import the package ${to.outside}`);
    }
  }
  return found;
}

const files = WORKSPACES.flatMap((w) => sources(join(root, w)));

describe('fences', () => {
  test('every import follows the table of arrows', () => {
    expect(files.length).toBeGreaterThan(20);
    expect(files.flatMap((f) => breaches(f, readFileSync(f, 'utf8')))).toEqual([]);
  });

  test('the check itself sees a forbidden import', () => {
    const file = join(root, 'core/plane/point.ts');
    expect(breaches(file, "import { x } from '../gaps/construct.ts';")).toHaveLength(1);
    expect(breaches(file, "import fs from 'node:fs';")).toHaveLength(1);
    expect(breaches(join(root, 'phantoms/src/a.ts'), "import { hka } from '@gapline/core/limb/hka.ts';")).toHaveLength(
      1,
    );
  });

  test('core knows no clock, no chance and no outside world', () => {
    const banned = /Date\.now|new Date\(\)|Math\.random|process\.|fetch\(|document\.|window\./;
    const core = files.filter((f) => relative(root, f).startsWith('core/') && !f.endsWith('.test.ts'));
    expect(core.filter((f) => banned.test(readFileSync(f, 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '')))).toEqual(
      [],
    );
  });
});
