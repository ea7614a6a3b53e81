import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { StorageFailure } from '@gapline/store/src/storage-failure.ts';
import { describe, expect, test } from 'vitest';
import { refusalOf } from './answer-errors.ts';
import { ERRORS, type ErrorCode, errorBody, Refusal, refusalFor, statusOf } from './errors.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const sources = (folder: string): readonly (readonly [string, string])[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !name.includes('.test.'))
    .map((name) => [join(folder, name), readFileSync(join(root, folder, name), 'utf8')] as const);
const server = sources('server/src').filter(([name]) => !name.endsWith('src/errors.ts'));
const store = sources('store/src');
const codes = Object.keys(ERRORS) as ErrorCode[];
const codesIn = (files: typeof server, pattern: RegExp) =>
  new Set(files.flatMap(([, text]) => [...text.matchAll(pattern)].map((m) => m[1] ?? '')));

/** Reasons that end the start, before there is a server to answer. */
const AT_START: readonly string[] = [
  'data-folder-in-use',
  'data-of-a-newer-version',
  'port-in-use',
  'bad-port',
  'unknown-option',
];

describe('the table of errors', () => {
  test.each(codes)('%s is used somewhere', (code) => {
    expect(
      [...server, ...store].filter(([, text]) => text.includes(`'${code}'`) || text.includes(`${code}:`)),
    ).not.toEqual([]);
  });

  test('every code that is thrown or given as a reason is in the table', () => {
    const thrown = codesIn(server, /new Refusal\(\s*'([^']+)'/g);
    const fallback = codesIn(server, /refusalFor\([^;]*?,\s*'([^']+)'\s*,?\s*\)/g);
    const reasons = codesIn([...server, ...store], /\bcode: '([^']+)'/g);
    expect(thrown.size).toBeGreaterThan(8);
    expect(fallback.size).toBeGreaterThan(4);
    expect(reasons.size).toBeGreaterThan(8);
    const unknown = [...thrown, ...fallback, ...reasons].filter(
      (c) => !Object.hasOwn(ERRORS, c) && !AT_START.includes(c),
    );
    expect(unknown).toEqual([]);
  });

  test.each(codes)('%s has a status, one plain sentence and a mend', (code) => {
    expect(statusOf(code)).toBeGreaterThanOrEqual(400);
    const { message, mend } = errorBody(new Refusal(code)).error;
    expect(message).toMatch(/^[A-Z].*\.$/);
    expect(mend).toMatch(/^[A-Z].*\.$/);
  });

  test('a reason keeps its own words, file and field under a code of the table', () => {
    const reason = { code: 'line-has-no-length', message: 'No length.', field: 'films[2]', mend: 'Move it.' };
    expect(errorBody(refusalFor(reason, 'edit-refused'))).toEqual({
      error: { code: 'edit-refused', message: 'No length.', field: 'films[2]', mend: 'Move it.' },
    });
    expect(refusalFor({ code: 'toString', message: 'x' }, 'edit-refused').code).toBe('edit-refused');
    expect(refusalFor({ code: 'no-such-case', message: 'x' }, 'edit-refused').code).toBe('no-such-case');
  });

  test('failures of the storage are told, bugs are not dressed up', () => {
    expect(refusalOf(new StorageFailure('disk-full', 'x', null), 'POST')?.code).toBe('disk-full');
    expect(statusOf('disk-full')).toBe(507);
    expect(refusalOf(new TypeError('bug'), 'POST')).toBeNull();
    expect(refusalOf('text', 'GET')).toBeNull();
  });
});
