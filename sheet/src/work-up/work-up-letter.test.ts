import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { CAUSES } from '@gapline/core/failure/causes.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { readWorkUp } from '@gapline/core/work-up/read-work-up.ts';
import type { WorkUp } from '@gapline/core/work-up/work-up.ts';
import { DEMO_WORK_UP } from '@gapline/phantoms/src/demo-work-up.ts';
import { afterAll, describe, expect, test } from 'vitest';
import { fullWorkUp } from '../../../cases/full-work-up.ts';
import { squareKnee } from '../../../cases/square-knee.ts';
import { DISCLAIMER } from '../foot.ts';
import { brief, fewer, shortened } from './letter-words.ts';
import { pseudonymOf } from './without-identity.ts';
import { workUpLetter } from './work-up-letter.ts';

const dir = mkdtempSync(join(tmpdir(), 'gapline-letter-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));

const MADE_AT = '2026-11-01T09:00:00.000Z';
const around = { today: '2026-11-01', measured: [] };
const caseWith = (workUp: WorkUp): CaseFile => ({
  ...squareKnee(),
  title: 'Nobody again',
  patient: { name: 'Invented^Nobody', id: 'N-17', birthDate: '1950-01-02', sex: 'female' },
  workUp,
});
const full = caseWith(fullWorkUp());
const demo = caseWith(DEMO_WORK_UP);
const letter = (file: CaseFile, more: { identity?: boolean; to?: string; madeAt?: string } = {}) =>
  workUpLetter({
    case: file,
    reading: readWorkUp(file.workUp ?? {}, around),
    identity: true,
    madeAt: MADE_AT,
    ...more,
  });

const tool = (name: string, ...args: string[]): string => {
  const run = spawnSync(name, args, { encoding: 'utf8', maxBuffer: 1e9 });
  if (run.status !== 0) throw new Error(`${name}: ${run.stderr || run.error}`);
  return run.stdout;
};

async function pdfOf(file: CaseFile, more = {}): Promise<string> {
  const path = join(dir, 'letter.pdf');
  writeFileSync(path, await letter(file, more));
  expect(tool('pdfinfo', path)).toMatch(/Pages:\s+1\n/);
  return path;
}
const printed = async (file: CaseFile, more = {}) =>
  tool('pdftotext', '-raw', await pdfOf(file, more), '-').replace(/\s+/g, ' ');

/** Lowest edge of any word that is no part of the closing line, points from the top. */
function lowestWord(path: string): number {
  const words = [...tool('pdftotext', '-bbox', path, '-').matchAll(/yMin="([\d.]+)".*yMax="([\d.]+)"/g)];
  expect(words.length).toBeGreaterThan(50);
  const above = words.filter((w) => Number(w[1]) < 792).map((w) => Number(w[2]));
  return Math.max(...above);
}

/** As much of everything as a case can hold, each text as long as it may be. */
function overfull(): WorkUp {
  const w = fullWorkUp();
  const long = 'word '.repeat(400).trim();
  const many = <T extends { id: string }>(item: T, n = 60) =>
    Array.from({ length: n }, (_, i) => ({ ...item, id: `${i}` }));
  return {
    ...w,
    history: {
      ...w.history,
      operations: many({ id: '', kind: 'revision' as const, on: '2020', note: long }),
      parts: many({ ...w.history!.parts![0]!, sizeNote: long.slice(0, 500), reference: long.slice(0, 200) }),
      drugs: Object.fromEntries(Object.keys(w.history!.drugs!).map((k) => [k, 'yes'])),
      charlson: Object.fromEntries(Object.keys(w.history!.charlson!).map((k) => [k, 'yes'])),
      drugNotes: long,
      examination: { ...w.history!.examination, tenderness: long },
    },
    infection: {
      ...w.infection,
      labResults: [
        ...w.infection!.labResults!,
        ...many({ id: '', analyte: 'crp' as const, value: long.slice(0, 200) }),
        { id: 'd', analyte: 'd-dimer', value: 900, unit: 'ng/mL', takenOn: '2026-10-02' },
        { id: 'w', analyte: 'synovial-wbc', value: 900, unit: '/uL', takenOn: '2026-10-02' },
        { id: 'p', analyte: 'synovial-pmn', value: 60, unit: '%', takenOn: '2026-10-02' },
      ],
      cultures: many({ ...w.infection!.cultures![1]!, organisms: [{ name: long.slice(0, 200), kind: 'unknown' }] }),
      context: Object.fromEntries(Object.keys(w.infection!.context!).map((k) => [k, 'yes'])),
    },
    infectionDecision: { ...w.infectionDecision!, by: long.slice(0, 200), reason: long },
    evidence: Object.fromEntries(Object.keys(w.evidence!).map((k) => [k, 'present'])),
    causes: CAUSES.map((c) => ({ cause: c.id, reason: long })),
    overrideReason: long,
  };
}

describe('letter of the work-up', () => {
  test('WU-10 one A4 page with side, gate, history, classes, values raw and corrected, causes, and what it is not', async () => {
    const text = await printed(demo, { to: 'A regional unit' });
    for (const wanted of [
      'RIGHT KNEE',
      'Invented, Nobody',
      'N-17',
      'READY TO PLAN',
      'To: A regional unit',
      '2016-06-14 first replacement',
      'LONG CEMENT MANTLE',
      '2018 definition Not infected',
      'EBJIS 2021 Infection unlikely',
      'CRP 6 mg/L 2025-02-24, 1 older',
      '900 /uL; 807 without blood',
      'aspirate 2025-03-03 no growth',
      'D-dimer 0.5: no unit',
      'Loosening without infection.',
      'Against: nothing found',
      'a prompt of our own, no published checklist',
      'TO CORRECT Haemoglobin 12.6 g/dL, begin by 2025-05-19',
      DISCLAIMER,
    ])
      expect(text).toContain(wanted);
    expect(tool('pdfinfo', join(dir, 'letter.pdf'))).toMatch(/\(A4\)/);
  });

  test('WU-10 as much of everything as a case can hold stays on the page, and says what was left out', async () => {
    const path = await pdfOf(caseWith(overfull()));
    expect(lowestWord(path)).toBeLessThan(790);
    const text = tool('pdftotext', '-raw', path, '-').replace(/\s+/g, ' ');
    expect(text).toMatch(/and 5\d more/);
    expect(text).toContain('more causes');
    expect(text).toContain(DISCLAIMER);
    expect(lowestWord(await pdfOf(full))).toBeLessThan(790);
    expect(lowestWord(await pdfOf(demo))).toBeLessThan(790);
  });

  test('WU-11 identity left out leaves nothing that names the patient, in free texts neither', async () => {
    const told: CaseFile = {
      ...full,
      workUp: {
        ...full.workUp,
        history: { ...full.workUp?.history, drugNotes: 'Ms NOBODY (no. n-17, born 1950-01-02) takes nothing' },
        causes: [{ cause: 'loosening', reason: 'as Invented Nobody says' }],
      },
    };
    expect(await printed(told)).toContain('N-17');
    const bytes = Buffer.from(await letter(told, { identity: false })).toString('latin1');
    const text = await printed(told, { identity: false });
    for (const secret of ['Nobody', 'NOBODY', 'Invented ', 'N-17', 'n-17', '1950-01-02', full.title]) {
      expect(text).not.toContain(secret);
      expect(bytes).not.toContain(secret);
    }
    expect(text).toContain(pseudonymOf(told));
    expect(text).toContain('76 years, female');
    expect(text).toContain('Ms … (no. …, born …) takes nothing');
  });

  test('WU-11 the stand-in is the same for one case and tells nothing of its id', () => {
    expect(pseudonymOf(full)).toBe(pseudonymOf({ ...full, workUp: {} }));
    expect(pseudonymOf(full)).not.toBe(pseudonymOf({ ...full, id: 'other' }));
    expect(pseudonymOf({ ...full, id: 'nobody' })).not.toContain('nobody');
  });

  test('WU-10 an empty work-up says what is missing and invents nothing', async () => {
    const { workUp: _, examination: _e, ...bare } = full;
    const text = await printed(bare);
    for (const wanted of [
      'NOT READY',
      'Missing Infection has not been assessed',
      'No cause is named yet',
      'Cultures none entered',
    ])
      expect(text).toContain(wanted);
    expect(text.match(/Nothing entered\./g)?.length).toBe(4);
    expect(text).toContain('2018 definition Not assessed');
  });

  test('WU-10 infection that no person has signed for is said so, and a left knee is a left knee', async () => {
    expect(await printed({ ...demo, side: 'left' })).toMatch(/LEFT KNEE.*no person has signed for it/);
    expect(await printed(full)).toContain('decided by surgeon on 2026-11-01');
  });

  test('WU-10 the same case at the same time gives the same bytes; another time changes the date alone', async () => {
    expect(await letter(full)).toEqual(await letter(full));
    const later = await printed(full, { madeAt: '2026-11-02T09:00:00.000Z' });
    expect(later.replace('2026-11-02 09:00', '2026-11-01 09:00')).toBe(await printed(full));
  });

  test('WU-10 long lists say how many more there are', () => {
    expect(shortened(['a', 'b', 'c'], 2)).toBe('a; b; and 1 more');
    expect(shortened(['a'], 2)).toBe('a');
    expect(fewer([1, 2, 3], 2, (more) => -more)).toEqual([1, 2, -1]);
    expect(brief(' a\n b. ', 9)).toBe('a b');
    expect(brief('abcdefgh', 4)).toBe('abc…');
  });
});
