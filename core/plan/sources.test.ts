import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { keysIn, SOURCES } from './sources.ts';

test('docs/sources.md gives the same citations as the table', () => {
  const text = readFileSync(new URL('../../docs/sources.md', import.meta.url), 'utf8');
  const rows = [...text.matchAll(/^\| (.+?) \| (.+) \|$/gm)].map(([, key, citation]) => [key, citation]);
  expect(rows.slice(1).filter(([key]) => key !== '---')).toEqual(
    Object.entries(SOURCES).sort(([a], [b]) => (a < b ? -1 : 1)),
  );
});

test('keys are found inside the words of a source, each once, in the order of the table', () => {
  expect(keysIn(['MacDessi 2021 (sign); Moreland 1987', 'Johal 2012', 'MacDessi 2021'])).toEqual([
    'Johal 2012',
    'MacDessi 2021',
    'Moreland 1987',
  ]);
  expect(keysIn(['common practice, no source'])).toEqual([]);
});
