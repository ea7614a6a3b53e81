import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { readWorkUp } from '@gapline/core/work-up/read-work-up.ts';
import { afterAll, describe, expect, test } from 'vitest';
import { fullWorkUp } from '../../../cases/full-work-up.ts';
import { squareKnee } from '../../../cases/square-knee.ts';
import { letterLines, shortened } from './letter-lines.ts';
import { workUpLetter } from './work-up-letter.ts';

const dir = mkdtempSync(join(tmpdir(), 'gapline-letter-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const MADE_AT = '2026-11-01T09:00:00.000Z';
const around = { today: '2026-11-01', measured: [] };
const full: CaseFile = {
  ...squareKnee(),
  patient: { name: 'Invented^Nobody', id: 'N-17', birthDate: '1950-01-02' },
  workUp: fullWorkUp(),
};
const letter = (file: CaseFile, more: { identity?: boolean; to?: string } = {}) =>
  workUpLetter({
    case: file,
    reading: readWorkUp(file.workUp ?? {}, around),
    identity: true,
    madeAt: MADE_AT,
    ...more,
  });

async function printed(file: CaseFile, more = {}): Promise<string> {
  const path = join(dir, 'letter.pdf');
  writeFileSync(path, await letter(file, more));
  const info = spawnSync('pdfinfo', [path], { encoding: 'utf8' });
  expect(info.stdout).toMatch(/Pages:\s+1\n/);
  return spawnSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' }).stdout;
}

describe('letter of the work-up', () => {
  test('WU-10 one page however much is entered, with side, gate, classes and causes', async () => {
    const text = await printed(full, { to: 'A regional unit' });
    for (const wanted of [
      'RIGHT KNEE',
      'WHERE IT STANDS',
      'EBJIS',
      'CAUSES NAMED',
      'A regional unit',
      'not validated for clinical use',
    ])
      expect(text).toContain(wanted);
  });

  test('WU-10 identity left out leaves nothing that names the patient', async () => {
    expect(await printed(full)).toContain('N-17');
    const bytes = Buffer.from(await letter(full, { identity: false })).toString('latin1');
    const text = await printed(full, { identity: false });
    for (const secret of ['Nobody', 'N-17', '1950-01-02', full.title]) {
      expect(text).not.toContain(secret);
      expect(bytes).not.toContain(secret);
    }
    expect(text).toContain('Identity left out');
  });

  test('WU-10 an empty work-up says what is missing and invents nothing', async () => {
    const { workUp: _, ...bare } = full;
    const text = await printed(bare);
    expect(text).toContain('Not ready');
    expect(text).toContain('No cause is named yet.');
    expect(letterLines(bare, readWorkUp({}, around)).values).toEqual(['Nothing entered.']);
  });

  test('WU-10 the same case at the same time gives the same bytes', async () => {
    expect(await letter(full)).toEqual(await letter(full));
  });

  test('WU-10 long lists say how many more there are', () => {
    expect(shortened(['a', 'b', 'c'], 2)).toBe('a; b; and 1 more');
    expect(shortened(['a'], 2)).toBe('a');
  });
});
