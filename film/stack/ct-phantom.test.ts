import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { SLICE_OFFSET } from '@gapline/core/landmarks/slice-stack.ts';
import { measureRotation } from '@gapline/core/rotation/measure-rotation.ts';
import { type CtPhantom, type CtRequest, ctPhantom, writeCt } from '@gapline/phantoms/src/ct.ts';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { toCaseFilm } from '../case-film.ts';
import type { Film } from '../film.ts';
import { readFilm } from '../read-film.ts';
import { gatherStacks } from './gather-stacks.ts';
import { sliceValues } from './hounsfield.ts';
import { type SliceFile, sliceFile } from './slice-file.ts';

// Written forward by the phantom, read back from its files: the two share no formula.

const dir = mkdtempSync(join(tmpdir(), 'gapline-ct-'));
afterAll(() => rmSync(dir, { recursive: true, force: true }));
const has = (command: string, ...args: string[]) => spawnSync(command, args).error === undefined;

const RIGHT: CtRequest = {
  seed: 5,
  side: 'right',
  femoralDeg: -6,
  tibialDeg: -29,
  legDeg: 14,
  size: 160,
  thicknessMm: 4,
};
const LEFT: CtRequest = {
  seed: 6,
  side: 'left',
  femoralDeg: 2.5,
  tibialDeg: -11,
  legDeg: -9,
  size: 160,
  thicknessMm: 4,
};

interface Read {
  readonly phantom: CtPhantom;
  readonly films: readonly Film[];
  readonly slices: readonly SliceFile[];
}

function readBack(request: CtRequest): Read {
  const phantom = ctPhantom(request);
  const films: Film[] = [];
  const slices = writeCt(phantom).map(({ file, bytes }, i) => {
    const film = readFilm(bytes, file);
    if (!film.ok) throw new Error(film.reason.message);
    films.push(film.value);
    const entry = toCaseFilm(film.value, { id: `s${i}`, file, sha256: String(i).padStart(64, '0') }).value;
    const one = sliceFile(
      film.value,
      { id: 'P' },
      { film: { ...entry, sha256: entry.sha256! }, pixelsSha256: `p${i}` },
    );
    if (!one) throw new Error('a CT slice is wanted');
    return one;
  });
  return { phantom, films, slices };
}

/** Most posterior places of metal of both condyles on a slice: where their common tangent touches, from the pixels alone. */
function metalBacks(film: Film): readonly [Place, Place] {
  const values = sliceValues(film);
  const metal: Place[] = [];
  for (let i = 0; i < values.length; i++)
    if (values[i]! - SLICE_OFFSET > 4000) metal.push({ x: i % film.columns, y: Math.floor(i / film.columns) });
  const middle = metal.reduce((s, p) => s + p.x, 0) / metal.length;
  let [down, across] = [1, 0];
  let pair: readonly [Place, Place] = [metal[0]!, metal[0]!];
  for (let round = 0; round < 8; round++) {
    const back = (half: readonly Place[]) => {
      const far = Math.max(...half.map((p) => p.y * down + p.x * across));
      const edge = half.filter((p) => p.y * down + p.x * across > far - 0.6);
      return { x: mean(edge, 'x'), y: mean(edge, 'y') };
    };
    pair = [back(metal.filter((p) => p.x < middle)), back(metal.filter((p) => p.x > middle))];
    const [a, b] = pair;
    const size = Math.hypot(b.x - a.x, b.y - a.y);
    [down, across] = [(b.x - a.x) / size, -(b.y - a.y) / size];
  }
  return pair;
}
interface Place {
  readonly x: number;
  readonly y: number;
}
const mean = (points: readonly Place[], axis: 'x' | 'y') => points.reduce((s, p) => s + p[axis], 0) / points.length;

describe('CT phantoms, written and read back', () => {
  const read: Record<'right' | 'left', Read> = {} as never;
  beforeAll(() => {
    read.right = readBack(RIGHT);
    read.left = readBack(LEFT);
  });

  test.skipIf(!has('dciodvfy', '-version'))('dciodvfy finds no error in a slice', () => {
    const path = join(dir, 'slice.dcm');
    writeFileSync(path, writeCt(read.right.phantom)[9]!.bytes);
    const run = spawnSync('dciodvfy', [path], { encoding: 'utf8' });
    expect(`${run.stdout}${run.stderr}`.split('\n').filter((l) => l.startsWith('Error'))).toEqual([]);
  });

  test.each([
    ['right', RIGHT],
    ['left', LEFT],
  ] as const)(
    'ROT-1 ROT-12 the %s knee: one stack, and its true marks give the chosen rotations within 0.01 degrees',
    (side, chosen) => {
      const { slices, phantom } = read[side];
      const { stacks, left } = gatherStacks(slices.toReversed(), () => 'ct');
      expect([stacks.length, left.length]).toEqual([1, 0]);
      const { film, warnings } = stacks[0]!;
      expect([film.side, film.columnsTowards, warnings.length]).toEqual([side, 'patient-left', 0]);
      const marks = phantom.truth.marks.map((m): Mark => ({ ...m, side, film: 'ct', how: 'model-truth' }));
      const [femur, tibia, both] = measureRotation({ side, sex: 'female', films: [film], marks });
      expect(Math.abs(femur!.value! - chosen.femoralDeg)).toBeLessThan(0.01);
      expect(Math.abs(tibia!.value! - chosen.tibialDeg)).toBeLessThan(0.01);
      expect(both!.value).toBeCloseTo(chosen.femoralDeg + 0.3 + chosen.tibialDeg + 18, 2);
      // Stated spread of marking: as wide as between readers (limits of agreement of some 3 degrees), not wider.
      expect(femur!.sd).toBeGreaterThan(0.5);
      expect(femur!.sd).toBeLessThan(1.6);
    },
  );

  test('ROT-2 the back of the condyles found in the pixels alone gives the femoral rotation within one stated spread', () => {
    const { slices, phantom, films } = read.right;
    const { film } = gatherStacks(slices, () => 'ct').stacks[0]!;
    const on = phantom.truth.marks.find((m) => m.landmark === 'ct-femoral-posterior-medial')!.slice;
    const [viewerLeft, viewerRight] = metalBacks(films[on]!);
    // The right knee's lateral side lies at the viewer's left.
    const found: Record<string, Place> = {
      'ct-femoral-posterior-lateral': viewerLeft,
      'ct-femoral-posterior-medial': viewerRight,
    };
    const marks = phantom.truth.marks.map((m): Mark => {
      const seen = found[m.landmark];
      return { ...m, points: seen ? [seen] : m.points, side: 'right', film: 'ct', how: 'model-truth' };
    });
    const [femur] = measureRotation({ side: 'right', films: [film], marks });
    expect(Math.abs(femur!.value! - RIGHT.femoralDeg)).toBeLessThan(femur!.sd!);
  });

  test('all slices share one scale of grey: air, soft tissue and metal have the same values on each', () => {
    for (const film of read.right.films) {
      const values = sliceValues(film);
      expect(Math.abs(values[0]! - SLICE_OFFSET + 1000)).toBeLessThan(60);
    }
    const tray = sliceValues(read.right.films[10]!);
    expect(Math.max(...tray.slice(tray.length / 2 - 80, tray.length / 2 + 80)) - SLICE_OFFSET).toBeGreaterThan(7900);
  });
});
