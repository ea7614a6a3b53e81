import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

// A clinical rule without a test, or a test that names a rule nobody wrote down, fails here.

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const RULE = /\b([A-Z]{2,6})-(\d+[a-z]?)\b/g;

function walk(folder: string, accept: RegExp): string[] {
  return readdirSync(folder).flatMap((name) => {
    if (name === 'node_modules' || name === 'dist') return [];
    const path = join(folder, name);
    return statSync(path).isDirectory() ? walk(path, accept) : accept.test(name) ? [path] : [];
  });
}

/** Rules stand in docs/rules as headings or first table cells: `## LIMB-3 ...` or `| LIMB-3 | ...`. */
function writtenRules(): Map<string, string> {
  const rules = new Map<string, string>();
  for (const file of walk(join(root, 'docs/rules'), /\.md$/)) {
    for (const line of readFileSync(file, 'utf8').split('\n')) {
      const at = line.match(/^(?:#+\s+|\|\s*(?:\*\*|`)?)([A-Z]{2,6}-\d+[a-z]?)\b/);
      if (at?.[1]) rules.set(at[1], relative(root, file));
    }
  }
  return rules;
}

const written = writtenRules();
const prefixes = new Set([...written.keys()].map((r) => r.split('-')[0]));

/** Rules that the titles of the tests name. */
function testedRules(): Map<string, string> {
  const tested = new Map<string, string>();
  const folders = ['core', 'film', 'exchange', 'sheet', 'phantoms', 'cases', 'server', 'cli', 'web'];
  for (const file of folders.flatMap((f) => walk(join(root, f), /\.test\.tsx?$/))) {
    const text = readFileSync(file, 'utf8');
    for (const found of text.matchAll(/(?:test|it|describe)(?:\.each\([\s\S]*?\))?\(\s*(['"`])([\s\S]*?)\1/g))
      for (const rule of (found[2] ?? '').matchAll(RULE))
        if (prefixes.has(rule[1])) tested.set(`${rule[1]}-${rule[2]}`, relative(root, file));
  }
  return tested;
}

describe('numbered rules', () => {
  const tested = testedRules();

  test('every written rule is named by a test', () => {
    expect([...written].filter(([rule]) => !tested.has(rule)).map(([rule, file]) => `${rule} (${file})`)).toEqual([]);
  });

  test('every rule that a test names is written down', () => {
    expect([...tested].filter(([rule]) => !written.has(rule)).map(([rule, file]) => `${rule} (${file})`)).toEqual([]);
  });

  test('rules are being read at all', () => {
    expect(written.size).toBeGreaterThan(10);
  });
});
