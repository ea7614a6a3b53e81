import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { writePhantom } from '@gapline/phantoms/src/write-phantom.ts';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { gapline as runGapline } from './gapline.ts';

const main = fileURLToPath(new URL('./main.ts', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'cli-'));
const whole = join(folder, 'whole');

/** A process of its own, as people start it. */
function spawned(...args: string[]) {
  const run = spawnSync(process.execPath, ['--disable-warning=ExperimentalWarning', main, ...args], {
    encoding: 'utf8',
    maxBuffer: 1e9,
  });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

/** The same without a new process, which would spend most of its time on loading. */
async function gapline(...args: string[]) {
  const said = { out: '', err: '' };
  const { exitCode } = process;
  const listen = (to: 'out' | 'err') => (words: string | Uint8Array) => {
    said[to] += words;
    return true;
  };
  const spies = [
    vi.spyOn(process.stdout, 'write').mockImplementation(listen('out')),
    vi.spyOn(process.stderr, 'write').mockImplementation(listen('err')),
  ];
  process.exitCode = undefined;
  try {
    await runGapline(args);
    return { code: process.exitCode ?? 0, ...said };
  } finally {
    for (const spy of spies) spy.mockRestore();
    process.exitCode = exitCode;
  }
}

/** A copy of the whole case with its case.json changed. */
function spoilt(name: string, change: (file: CaseFile) => object): string {
  const dir = join(folder, name);
  cpSync(whole, dir, { recursive: true });
  const path = join(dir, 'case.json');
  writeFileSync(path, JSON.stringify(change(JSON.parse(readFileSync(path, 'utf8')))));
  return dir;
}

beforeAll(() => {
  writePhantom({ seed: 3, vary: { side: 'right', resolution: 0.12, ideal: true } }, whole);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('the command line', () => {
  test.each(['demo', 'phantom', 'measure', 'plan', 'forecast', 'kit'])(
    '%s --help explains itself and ends well',
    async (verb) => {
      const { code, out } = await gapline(verb, '--help');
      expect(code).toBe(0);
      expect(out).toContain(`Usage: gapline ${verb}`);
      expect(out).toContain('Example: gapline');
    },
  );

  test('a process of its own says the same and ends with the same codes', async () => {
    for (const args of [['plan', '--help'], ['plan'], ['plan', whole, '--colour']])
      expect(spawned(...args)).toEqual(await gapline(...args));
  });

  test('an unknown verb, a missing argument and an unknown option are bad input', async () => {
    for (const args of [['fold'], ['plan'], ['plan', whole, '--colour'], ['phantom', 'x']]) {
      const { code, out, err } = await gapline(...args);
      expect([code, out]).toEqual([2, '']);
      expect(err).toContain('error:');
    }
  });

  test('phantom writes a folder whole, the same seed with the same bytes, and never into a used folder', async () => {
    const [a, b] = [join(folder, 'a'), join(folder, 'b')];
    const args = ['--seed', '7', '--vary', 'resolution=0.08', 'varus=6', '--json'];
    const first = await gapline('phantom', a, ...args);
    expect(first.code).toBe(0);
    const said = JSON.parse(first.out) as { files: string[]; seed: number };
    expect(said.seed).toBe(7);
    expect(readdirSync(a).sort()).toEqual([...said.files].sort());
    expect((await gapline('phantom', b, ...args)).code).toBe(0);
    for (const name of said.files) expect(readFileSync(join(a, name)).equals(readFileSync(join(b, name)))).toBe(true);
    const again = await gapline('phantom', a, ...args);
    expect(again.code).toBe(1);
    expect(again.err).toContain('holds something already');
  });

  test('phantom names a bad seed and a bad variation', async () => {
    const dir = join(folder, 'never');
    const seed = await gapline('phantom', dir, '--seed', '1.5');
    expect([seed.code, seed.out]).toEqual([2, '']);
    expect(seed.err).toContain('--seed');
    const vary = await gapline('phantom', dir, '--seed', '1', '--vary', 'varus=90');
    expect(vary.code).toBe(2);
    expect(vary.err).toContain('varus');
    expect(existsSync(dir)).toBe(false);
  });

  test('measure gives a table for people and every measurement for machines', async () => {
    const people = await gapline('measure', whole);
    expect(people.code).toBe(0);
    expect(people.out).toMatch(/Hip-knee-ankle deviation \(HKA\)\s+-?\d+\.\d\s+\d+\.\d\s+deg/);
    const machines = JSON.parse((await gapline('measure', whole, '--json')).out) as {
      measurements: { id: string; rule: string; sign: string }[];
    };
    expect(machines.measurements.length).toBeGreaterThan(25);
    expect(machines.measurements.every((m) => m.rule !== '' && m.sign !== '')).toBe(true);
  });

  test('plan writes plan.json and plan.pdf; the same case gives the same plan.json', async () => {
    const [one, two] = [join(folder, 'one'), join(folder, 'two')];
    const { code, out } = await gapline('plan', whole, '--out', one);
    expect(code).toBe(0);
    expect(out).toContain('RIGHT KNEE');
    expect(readdirSync(one).sort()).toEqual(['plan.json', 'plan.pdf']);
    expect(readFileSync(join(one, 'plan.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    const printed = await gapline('plan', whole, '--out', two, '--json');
    expect(readFileSync(join(two, 'plan.json')).equals(readFileSync(join(one, 'plan.json')))).toBe(true);
    expect(JSON.parse(printed.out)).toEqual(JSON.parse(readFileSync(join(one, 'plan.json'), 'utf8')));
  });

  test('plan --against tells what differs from an earlier state of the case, and refuses another knee', async () => {
    const out = join(folder, 'against');
    const lower = (file: CaseFile) => ({
      ...file,
      marks: file.marks.map((mark) =>
        mark.landmark.startsWith('femoral-bone-distal')
          ? { ...mark, points: mark.points.map(({ x, y }) => ({ x, y: y - 20 })) }
          : mark,
      ),
    });
    const earlier = spoilt('earlier', lower);
    const told = await gapline('plan', whole, '--out', out, '--against', earlier);
    expect(told.code).toBe(0);
    expect(told.out).toContain(`Against ${earlier}:`);
    expect(told.out).toContain('Cost of the construct: ');
    const same = await gapline('plan', whole, '--out', out, '--against', whole);
    expect(same.out).toContain('nothing that is shown differs');
    const machine = await gapline('plan', whole, '--out', out, '--against', earlier, '--json');
    const { plan, changes } = JSON.parse(machine.out);
    expect(plan).toEqual(JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8')));
    expect(changes.some((c: { about: string }) => c.about === 'cost')).toBe(true);
    const left = spoilt('other-side', (f) => ({ ...f, side: 'left' }));
    const refused = await gapline('plan', whole, '--out', join(folder, 'unwritten'), '--against', left);
    expect([refused.code, refused.out]).toEqual([2, '']);
    expect(refused.err).toContain('The earlier case is of the left knee, this one of the right.');
    expect(existsSync(join(folder, 'unwritten'))).toBe(false);
  });
});

describe('the bone that may be found', () => {
  /** The phantom with what a forecast asks for besides, and few draws. */
  const uncertain = (name: string) =>
    spoilt(name, (f) => ({
      ...f,
      catalogue: 'example',
      bone: { ...f.bone, femurFixation: 'cemented', tibiaFixation: 'loose', femurCanalMm: 13, tibiaCanalMm: 12 },
      forecast: { seed: 3, draws: 100, infectionChance: 0.05, spreads: EVERY_SPREAD },
      kit: { setList: 'example-hospital', sharePct: 60 },
    }));
  const EVERY_SPREAD = { femurCanalMm: 0.4, tibiaCanalMm: 0.4, referenceSlopeDeg: 1 };

  test('forecast refuses what was not stated and names each with what it would change', async () => {
    const { code, out, err } = await gapline(
      'forecast',
      spoilt('unstated', (f) => ({ ...f, catalogue: 'example' })),
    );
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('bone.femurFixation');
    expect(err).toContain('Would change:');
  });

  test('forecast tells what the plan becomes; kit writes the sets as a table and on paper', async () => {
    const dir = uncertain('uncertain');
    const told = await gapline('forecast', dir);
    expect(told.err).not.toContain('mend:');
    expect(told.code).toBe(0);
    expect(told.out).toMatch(/How sure: .*100 knees drawn/);
    expect(told.out).toContain('If it turns out otherwise');
    const out = join(folder, 'kit-out');
    const made = await gapline('kit', dir, '--out', out, '--surgery', '2099-12-14', '--json');
    expect(made.code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(['kit.csv', 'kit.pdf']);
    const kit = JSON.parse(made.out) as { format: string; decided: { bring: string[]; share: number } };
    expect(kit.format).toBe('gapline-kit');
    const brought = readFileSync(join(out, 'kit.csv'), 'utf8')
      .split('\r\n')
      .filter((l) => l.startsWith('yes,'));
    expect(brought.map((l) => l.split(',')[1])).toEqual(kit.decided.bring);
  });

  test('kit names a bad day, a bad share and a list of sets that is not there', async () => {
    const dir = uncertain('asked');
    for (const [args, said] of [
      [['--surgery', '2026-02-30'], '--surgery'],
      [['--share', '150'], '--share'],
      [['--sets', join(folder, 'none.json')], '--sets'],
    ] as const) {
      const { code, out, err } = await gapline('kit', dir, ...args);
      expect([code, out]).toEqual([2, '']);
      expect(err).toContain(said);
      expect(err).toContain('mend:');
    }
  });
});

describe('bad input', () => {
  test.each<[string, () => string, number, string[]]>([
    ['no such folder', () => join(folder, 'nowhere'), 2, ['does not exist', 'case.json', 'mend:']],
    [
      'a case of a newer version',
      () => spoilt('newer', (f) => ({ ...f, version: '9.0' })),
      2,
      ['version 9.0', 'newer Gapline'],
    ],
    ['a mistyped field', () => spoilt('typo', (f) => ({ ...f, sied: 'right' })), 2, ['case.json', 'sied', '"side"']],
    [
      'a film that is not there',
      () => spoilt('gone', (f) => ({ ...f, films: f.films.map((x, i) => (i ? x : { ...x, file: 'gone.dcm' })) })),
      2,
      ['gone.dcm', 'films[0].file'],
    ],
    [
      'a film that was changed',
      () => spoilt('changed', (f) => ({ ...f, films: f.films.map((x) => ({ ...x, sha256: '0'.repeat(64) })) })),
      2,
      ['SHA-256 differs', 'films[0].sha256'],
    ],
    [
      'a film of another patient',
      () => spoilt('other', (f) => ({ ...f, patient: { ...f.patient, id: 'SOMEBODY-ELSE' } })),
      2,
      ['states another patient', 'patient.id'],
    ],
    [
      'a film of the other side',
      () => spoilt('side', (f) => ({ ...f, films: f.films.map((x) => (x.id === 'ap' ? { ...x, side: 'left' } : x)) })),
      2,
      ['ap.dcm', 'the right side', 'sideConfirmed'],
    ],
    [
      'a film outside the folder',
      () => spoilt('outside', (f) => ({ ...f, films: f.films.map((x) => ({ ...x, file: '../ap.dcm' })) })),
      2,
      ['plain file name'],
    ],
    [
      'an unknown catalogue',
      () => spoilt('catalogue', (f) => ({ ...f, catalogue: 'nobody' })),
      2,
      ['nobody', 'catalogue', 'example'],
    ],
  ])('%s is refused by name with its mend, and nothing is written', async (_what, make, exit, said) => {
    const dir = make();
    const before = existsSync(dir) ? readdirSync(dir).sort() : [];
    const { code, out, err } = await gapline('plan', dir);
    expect([code, out]).toEqual([exit, '']);
    for (const words of said) expect(err).toContain(words);
    expect(existsSync(dir) ? readdirSync(dir).sort() : []).toEqual(before);
  });

  test('a full disk is a clear message and leaves nothing half-written', async () => {
    // A limit on the size of any file stands in for a disk that has no room left: the write fails half-way.
    const out = join(folder, 'full');
    const words = [process.execPath, main, 'plan', whole, '--out', out].map((w) => `'${w}'`).join(' ');
    const run = spawnSync('bash', ['-c', `trap '' XFSZ; ulimit -f 8; exec ${words}`], { encoding: 'utf8' });
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('could not be written');
    expect(run.stderr).toContain('Nothing half-written is left');
    expect(readdirSync(out).filter((n) => n.endsWith('.tmp') || n === 'plan.pdf')).toEqual([]);
  });

  test('a folder that cannot be written to is named', async () => {
    const { code, err } = await gapline('plan', whole, '--out', join(whole, 'case.json', 'inside'));
    expect(code).toBe(1);
    expect(err).toMatch(/could not be written: a part of the path is a file|a file of that name/);
  });
});
