import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { LANDMARKS } from '@gapline/core/landmarks/landmark-table.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { afterAll, describe, expect, test } from 'vitest';
import { demoCase } from './demo-case.ts';
import { exposed } from './exposure.ts';
import { takeFilm } from './film.ts';
import { buildPhantom, plannedFilms } from './phantom.ts';
import type { Vary } from './vary.ts';
import { writePhantom } from './write-phantom.ts';

const root = mkdtempSync(join(tmpdir(), 'gapline-phantom-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const SMALL = { resolution: 0.1 } as const;
let made = 0;
const folder = () => join(root, String(made++));
const make = (seed: number, vary: Vary = {}) => {
  const dir = folder();
  return { dir, ...writePhantom({ seed, vary: { ...SMALL, ...vary } }, dir) };
};
const sums = (dir: string) =>
  readdirSync(dir)
    .sort()
    .map((f) => [
      f,
      createHash('sha256')
        .update(readFileSync(join(dir, f)))
        .digest('hex'),
    ]);
const truthOf = (dir: string) => JSON.parse(readFileSync(join(dir, 'truth.json'), 'utf8'));
const has = (command: string, ...args: string[]) => spawnSync(command, args).error === undefined;
const elements = (dir: string, film: string) =>
  spawnSync('dcmdump', ['+L', join(dir, `${film}.dcm`)], { encoding: 'utf8' }).stdout;

describe('a written phantom', () => {
  const first = make(42, { earlier: true });

  test('same seed, same bytes; another seed, other bytes', () => {
    expect(sums(make(42, { earlier: true }).dir)).toEqual(sums(first.dir));
    expect(sums(make(43, { earlier: true }).dir)).not.toEqual(sums(first.dir));
  });

  test('case.json lists every film with its hash, size and side, and marks only what its view allows', () => {
    const file: CaseFile = JSON.parse(readFileSync(join(first.dir, 'case.json'), 'utf8'));
    expect(file).toEqual(first.caseFile);
    expect(file.format).toBe('gapline-case');
    expect(file.invented).toBe(true);
    expect(file.films.map((f) => f.view)).toEqual(['long-leg', 'ap', 'lateral', 'skyline', 'ap']);
    for (const film of file.films) {
      const bytes = readFileSync(join(first.dir, film.file));
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(film.sha256);
    }
    for (const mark of file.marks) {
      const film = file.films.find((f) => f.id === mark.film)!;
      const known = LANDMARKS.find((l) => l.id === mark.landmark)!;
      expect(known.views).toContain(film.view);
      expect(mark.points.length >= 3).toBe(known.outline);
      for (const p of mark.points) {
        expect(p.x).toBeGreaterThan(0);
        expect(p.x).toBeLessThan(film.scaleFacts.columns);
        expect(p.y).toBeGreaterThan(0);
        expect(p.y).toBeLessThan(film.scaleFacts.rows);
      }
    }
  });

  test('truth.json names every landmark of the table that these films can show', () => {
    const native = make(42, { native: true, side: 'left' });
    const seen = new Set<string>();
    for (const dir of [first.dir, native.dir])
      for (const film of Object.values(truthOf(dir).films) as { landmarks: { landmark: string }[] }[])
        for (const m of film.landmarks) seen.add(m.landmark);
    const onFilms = LANDMARKS.filter((l) => l.views.some((view) => view !== 'ct'));
    expect(onFilms.map((l) => l.id).filter((id) => !seen.has(id))).toEqual([]);
  });

  test('medial is medial on both legs: on the long-leg film both knees look at each other', () => {
    const marks = first.caseFile.marks.filter((m) => m.film === 'long-leg');
    const x = (landmark: string, side: string) =>
      marks.find((m) => m.landmark === landmark && m.side === side)!.points[0]!.x;
    // The patient's right is at the viewer's left.
    expect(x('talus-lateral', 'right')).toBeLessThan(x('talus-medial', 'right'));
    expect(x('talus-medial', 'right')).toBeLessThan(x('talus-medial', 'left'));
    expect(x('talus-medial', 'left')).toBeLessThan(x('talus-lateral', 'left'));
  });

  test.skipIf(!has('dciodvfy', '-version'))('dciodvfy finds no error in any film, DX and CR', () => {
    const cr = make(7, { cr: true, monochrome1: true });
    for (const dir of [first.dir, cr.dir])
      for (const name of readdirSync(dir).filter((f) => f.endsWith('.dcm'))) {
        const run = spawnSync('dciodvfy', [join(dir, name)], { encoding: 'utf8' });
        expect(`${run.stdout}${run.stderr}`.split('\n').filter((l) => l.startsWith('Error'))).toEqual([]);
      }
  });
});

describe.skipIf(!has('dcmdump', '--version'))('each variation has its effect in the file', () => {
  test('cr and monochrome1 change class and polarity', () => {
    const { dir } = make(3, { cr: true, monochrome1: true });
    const dump = elements(dir, 'ap');
    expect(dump).toMatch(/\(0008,0060\) CS \[CR\]/);
    expect(dump).toMatch(/\(0028,0004\) CS \[MONOCHROME1\]/);
  });

  test('scale=ermf and scale=fiducial state what the beam truly did', () => {
    const ermf = make(3, { scale: 'ermf', mag: 1.2 });
    expect(elements(ermf.dir, 'ap')).toMatch(/\(0018,1114\) DS \[1\.2\]/);
    const fiducial = make(3, { scale: 'fiducial', mag: 1.2, resolution: 0.1 });
    const spacing = elements(fiducial.dir, 'ap').match(/\(0028,0030\) DS \[([\d.]+)\\/)?.[1];
    expect(Number(spacing)).toBeCloseTo(1.48 / 1.2, 5);
    expect(fiducial.caseFile.films[1]!.scaleFacts.calibrationType).toBe('FIDUCIAL');
  });

  test('bits=14 stores 14 bits', () => {
    const { dir } = make(3, { bits: 14 });
    expect(elements(dir, 'lateral')).toMatch(/\(0028,0101\) US 14/);
  });

  test('side, sex and story reach patient and film', () => {
    const { dir, caseFile } = make(3, { side: 'left', sex: 'male' });
    expect(caseFile.side).toBe('left');
    expect(elements(dir, 'ap')).toMatch(/\(0020,0062\) CS \[L\]/);
    expect(elements(dir, 'ap')).toMatch(/\(0010,0040\) CS \[M/);
    expect(elements(dir, 'long-leg')).toMatch(/\(0020,0062\) CS \[B\]/);
    expect(elements(dir, 'long-leg')).toMatch(/DERIVED\\PRIMARY/);
  });
});

describe('each variation has its effect in the truth', () => {
  const legOf = (vary: Vary) => {
    const { dir, caseFile } = make(5, { side: 'right', ...vary });
    return { truth: truthOf(dir), leg: truthOf(dir).legs.right, caseFile };
  };

  test('faults asked for are the faults built in', () => {
    const { leg } = legOf({ jointline: 8, varus: 5, subsidence: 4, tibialloss: 6, insert: 12, hardware: 'screws' });
    expect(leg.replacement.trayVarusDeg).toBe(5);
    expect(leg.present.mpta).toBe(85);
    expect(leg.jointLine.femoralShiftMm).toBeCloseTo(8, 0);
    // 9 mm cut, 4 mm tray, 12 mm insert, 4 mm sunk.
    expect(leg.jointLine.tibialShiftMm).toBeCloseTo(3, 0);
    expect(leg.replacement.hardware).toBe('screws');
  });

  test('more bone lost medially deepens the medial support by as much', () => {
    const [a, b] = [2, 9].map((tibialloss) => legOf({ tibialloss }).leg.bone.symbols.T.medial);
    expect(b - a).toBeCloseTo(7, 1);
  });

  test('rotation with flexion shows as apparent alignment, as the projection law has it', () => {
    // Reference 5.2: a knee bent by 15 degrees and turned out by 15 shows 3.9 degrees more varus.
    const hka = (vary: Vary) => legOf(vary).truth.films['long-leg'].knees[0].projected.hka as number;
    const straight = hka({ rotation: 0, flexion: 0 });
    expect(hka({ rotation: 15, flexion: 0 }) - straight).toBeCloseTo(0, 0);
    expect(straight - hka({ rotation: 15, flexion: 15 })).toBeGreaterThan(2.9);
    expect(straight - hka({ rotation: 15, flexion: 15 })).toBeLessThan(4.9);
  });

  test('balldepth moves the ball off the plane of the knee: about 1 % of scale a centimetre', () => {
    const width = (balldepth: number) => {
      const ball = legOf({ balldepth }).caseFile.marks.find(
        (m) => m.film === 'ap' && m.landmark === 'calibration-ball',
      )!;
      const x = ball.points.map((p) => p.x);
      return Math.max(...x) - Math.min(...x);
    };
    expect(width(40) / width(0)).toBeCloseTo(1 + 40 / (1150 - 120 - 40), 2);
  });

  test('native and other choose what is replaced', () => {
    expect(legOf({ native: true }).leg.replacement).toBeNull();
    expect(legOf({ other: 'replaced' }).truth.legs.left.replacement).not.toBeNull();
    expect(legOf({}).truth.legs.left.replacement).toBeNull();
  });

  test('marks=jittered moves marks by about their marking spread, truth stays', () => {
    const exact = legOf({});
    const shaken = legOf({ marks: 'jittered' });
    expect(shaken.leg).toEqual(exact.leg);
    const z: number[] = [];
    for (const [i, m] of exact.caseFile.marks.entries()) {
      const film = exact.truth.films[m.film];
      const knee = film.knees.find((k: { side: string }) => k.side === 'right') ?? film.knees[0];
      const sd = LANDMARKS.find((l) => l.id === m.landmark)!.markingSdMm / knee.mmPerPxAtKnee;
      for (const [k, p] of m.points.entries()) {
        const q = shaken.caseFile.marks[i]!.points[k]!;
        z.push((q.x - p.x) / sd, (q.y - p.y) / sd);
      }
    }
    const spread = Math.sqrt(z.reduce((s, v) => s + v * v, 0) / z.length);
    expect(z.length).toBeGreaterThan(200);
    expect(spread).toBeGreaterThan(0.85);
    expect(spread).toBeLessThan(1.15);
  });
});

describe('the picture', () => {
  const phantom = buildPhantom({ seed: 5, vary: { side: 'right', resolution: 0.15, noise: false } });
  const scene = plannedFilms(phantom)[1]!.scene;
  const choices = { seed: 5, bits: 12, monochrome1: false, noise: false } as const;
  const film = takeFilm(scene, choices);
  const at = (x: number, y: number) => film.pixels[Math.round(y) * film.columns + Math.round(x)]!;

  test('metal is brightest, then bone, then soft tissue, then air', () => {
    const marks = make(5, { side: 'right', resolution: 0.15 }).caseFile.marks;
    const one = (id: string) => marks.find((m) => m.film === 'ap' && m.landmark === id)!.points[0]!;
    const condyle = one('lateral-condyle-distal');
    const [m, l] = [one('tibial-shaft-proximal-medial'), one('tibial-shaft-proximal-lateral')];
    const metal = at(condyle.x, condyle.y - 12);
    const bone = at((m.x + l.x) / 2, (m.y + l.y) / 2);
    const soft = at(m.x + (m.x - l.x) * 0.6, m.y);
    const air = at(film.columns * 0.97, film.rows * 0.5);
    expect(metal).toBeGreaterThan(bone + 400);
    expect(bone).toBeGreaterThan(soft + 100);
    expect(soft).toBeGreaterThan(air + 100);
  });

  test('every pixel of an exposure is a finite number, metal and air included', () => {
    const exposure = { scatter: 0.1, quanta: 5000, seed: 5, noise: true, levelling: 0.25 };
    expect(exposed({ ...exposure, beam: scene.beam, solids: scene.solids }).every(Number.isFinite)).toBe(true);
  });

  test('monochrome1 is the same picture turned about', () => {
    const turned = takeFilm(scene, { ...choices, monochrome1: true });
    expect([...turned.pixels.slice(0, 5000)].every((v, i) => v === 4095 - film.pixels[i]!)).toBe(true);
  });

  test('noise changes pixels, not marks or truth', () => {
    const noisy = takeFilm(scene, { ...choices, noise: true });
    let differing = 0;
    for (let i = 0; i < noisy.pixels.length; i++) if (noisy.pixels[i] !== film.pixels[i]) differing++;
    expect(differing / noisy.pixels.length).toBeGreaterThan(0.2);
  });
});

describe('the demonstration case', () => {
  test('is a raised joint line over a tray sunk into varus, marked as by a person', () => {
    const dir = folder();
    const { caseFile } = demoCase(dir, { resolution: 0.1 });
    const { legs } = truthOf(dir);
    expect(caseFile.id).toBe('demo');
    expect(caseFile.invented).toBe(true);
    expect(caseFile.films.map((f) => f.role)).toContain('before-first-replacement');
    expect(caseFile.marks.every((m) => m.how === 'by-hand')).toBe(true);
    expect(legs.right.jointLine.femoralShiftMm).toBeGreaterThan(6);
    expect(legs.right.present.mpta).toBeLessThan(87);
    expect(caseFile.examination?.openingExtensionMm?.medial).toBeGreaterThan(2);
    // Enough bone on either side for augments of a common catalogue, none so deep that only a cone would do.
    expect(legs.right.bone.symbols.D.medial).toBeLessThan(26);
    expect(legs.right.bone.symbols.T.medial).toBeLessThan(28);
  });
});
