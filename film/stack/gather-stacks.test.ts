import type { PatientVector } from '@gapline/core/landmarks/slice-stack.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gatherStacks } from './gather-stacks.ts';
import type { SliceFile } from './slice-file.ts';
import type { SlicePlace } from './slice-place.ts';

const AXIAL: Pick<SlicePlace, 'along' | 'down'> = { along: [1, 0, 0], down: [0, 1, 0] };

interface Told {
  readonly place?: Partial<SlicePlace> | null;
  readonly pixels?: string;
  readonly series?: string;
  readonly patient?: string;
  readonly side?: 'right' | 'left';
  readonly spacing?: readonly [number, number];
  readonly rows?: number;
}

/** A slice at a height, by number: nothing in it but what its header says. */
function slice(number: number, zMm: number, told: Told = {}): SliceFile {
  const { place = {}, spacing = [0.4, 0.4] as const, rows = 512 } = told;
  return Object.freeze({
    film: {
      id: `f${number}`,
      file: `im${number}.dcm`,
      sha256: String(number).padStart(64, '0'),
      view: 'ct',
      side: 'both',
      role: 'present',
      scaleFacts: { volumetric: true, rows, columns: 512, pixelSpacing: spacing, derived: false },
    },
    pixelsSha256: told.pixels ?? `p${number}`,
    series: told.series ?? 's1',
    ...(place ? { place: { ...AXIAL, originMm: [-100, -100, zMm] as const, ...place } } : {}),
    ...(told.patient ? { patient: told.patient } : {}),
    ...(told.side ? { side: told.side } : {}),
  } satisfies SliceFile);
}
const series = (count: number, told: Told = {}, from = 0) =>
  Array.from({ length: count }, (_, k) => slice(from + k, 2 * k, told));
const gather = (slices: readonly SliceFile[]) => gatherStacks(slices, (hashes) => `id-${hashes.length}`);
const files = (slices: Iterable<{ readonly file: string }> | undefined) => [...(slices ?? [])].map((s) => s.file);
const reasons = (slices: readonly SliceFile[]) => gather(slices).left.map((l) => [l.slice.film.file, l.reason.code]);

describe('CT stacks', () => {
  test('ROT-12 slices stand in the order of their place, whatever the order in which they came', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(series(12), { minLength: 12 }), (mixed) => {
        const { stacks, left, single } = gather(mixed);
        expect([stacks.length, left.length, single.length]).toEqual([1, 0, 0]);
        expect(files(stacks[0]?.film.slices?.each)).toEqual(series(12).map((s) => s.film.file));
      }),
    );
  });

  test('ROT-12 an oblique stack is ordered along its own normal, towards the head', () => {
    const t = (20 * Math.PI) / 180;
    const down: PatientVector = [0, Math.cos(t), Math.sin(t)];
    const slices = [3, 1, 2, 0].map((k) =>
      slice(k, 0, { place: { down, originMm: [0, -3 * k * Math.sin(t), 3 * k * Math.cos(t)] } }),
    );
    expect(files(gather(slices).stacks[0]?.film.slices?.each)).toEqual([0, 1, 2, 3].map((k) => `im${k}.dcm`));
    // Rows towards the right turn the plain product of the directions to the feet; the order stays.
    const mirrored = series(4, { place: { along: [-1, 0, 0] } }).map((s, k) =>
      slice(k, 2 * k, { place: { ...s.place!, originMm: [0, 0, 2 * k] } }),
    );
    const { film } = gather(mirrored).stacks[0]!;
    expect(files(film.slices?.each)).toEqual([0, 1, 2, 3].map((k) => `im${k}.dcm`));
    expect(film.columnsTowards).toBe('patient-right');
  });

  test('ROT-13 missing slices are told with their place and number, uneven ones too; both are used', () => {
    const all = series(20);
    const holed = all.filter((_, k) => k !== 7 && k !== 8);
    const { stacks } = gather(holed);
    expect(stacks[0]?.warnings.map((w) => w.code)).toEqual(['slices-missing']);
    expect(stacks[0]?.warnings[0]?.message).toContain(
      'Between slices 7 and 8 lie 6.0 mm where 2.0 mm are usual: about 2 slices are missing',
    );
    expect(stacks[0]?.film.slices?.each).toHaveLength(18);
    const uneven = [...series(10), ...[20.5, 23, 25.5].map((z, k) => slice(30 + k, z))];
    expect(gather(uneven).stacks[0]?.warnings.map((w) => w.code)).toEqual(['slices-uneven']);
    expect(gather(all).stacks[0]?.warnings).toEqual([]);
  });

  test('ROT-14 a slice given twice is left aside; another picture in its place is refused by name', () => {
    const twice = [...series(4), slice(50, 2, { pixels: 'p1' })];
    expect(gather(twice).twice.map((s) => s.film.file)).toEqual(['im50.dcm']);
    expect(gather(twice).stacks[0]?.film.slices?.each).toHaveLength(4);
    expect(gather(twice).stacks[0]?.warnings.map((w) => w.code)).toEqual(['slices-given-twice']);
    expect(reasons([...series(4), slice(51, 2)])).toEqual([['im51.dcm', 'slices-in-one-place']]);
  });

  test.each([
    ['patient', { patient: 'A | Alpha' }, { patient: 'B | Beta' }, 'slice-of-other-patient'],
    ['side', { side: 'right' }, { side: 'left' }, 'slice-of-other-side'],
    ['scan', { place: { frameOfReference: '1' } }, { place: { frameOfReference: '2' } }, 'slice-of-other-scan'],
    ['size', {}, { rows: 256 }, 'slice-of-other-size'],
    ['pixel spacing', {}, { spacing: [0.5, 0.5] }, 'slice-of-other-spacing'],
    ['direction', {}, { place: { down: [0, 0, -1] } }, 'slice-of-other-direction'],
  ] as const)('ROT-15 a slice of another %s is kept out by name, with the mend', (_, usual, odd, code) => {
    const stray = slice(40, 5, odd as Told);
    const { stacks, left } = gather([stray, ...series(5, usual as Told)]);
    expect(left).toMatchObject([{ slice: { film: { file: 'im40.dcm' } }, reason: { code, file: 'im40.dcm' } }]);
    expect(left[0]?.reason.mend).toBeTruthy();
    expect(stacks[0]?.film.slices?.each).toHaveLength(5);
  });

  test('ROT-15 what a file does not say is held against nobody; a side that one slice states is that of the stack', () => {
    const { stacks, left } = gather([...series(3), slice(9, 9, { side: 'left', patient: 'A' })]);
    expect(left).toEqual([]);
    expect(stacks[0]?.film.side).toBe('left');
    expect(gather(series(3)).stacks[0]?.film.side).toBe('both');
  });

  test('ROT-15 each series is a stack of its own; a lone slice stays a film of one picture', () => {
    const { stacks, single } = gather([
      ...series(3),
      ...series(4, { series: 's2' }, 20),
      slice(60, 0, { series: 's3' }),
    ]);
    expect(stacks.map((s) => s.film.slices?.each.length)).toEqual([3, 4]);
    expect(single.map((s) => s.film.file)).toEqual(['im60.dcm']);
    expect(new Set(stacks.map((s) => s.film.id)).size).toBe(2);
  });

  test('ROT-15 a slice without place or spacing is refused', () => {
    const { pixelSpacing: _, ...bare } = slice(1, 1).film.scaleFacts;
    const unscaled = { ...slice(31, 3), film: { ...slice(31, 3).film, scaleFacts: bare } };
    expect(reasons([...series(3), slice(30, 0, { place: null }), unscaled])).toEqual([
      ['im30.dcm', 'slice-place-unknown'],
      ['im31.dcm', 'pixel-spacing-missing'],
    ]);
  });

  test('ROT-16 stated directions must be those of the vectors', () => {
    const stated = (...words: string[]) => [
      slice(0, 0),
      slice(1, 2),
      slice(2, 4, { place: { statedDirections: words } }),
    ];
    expect(reasons(stated('L', 'P'))).toEqual([]);
    expect(reasons(stated('LF', 'PH'))).toEqual([]);
    expect(reasons(stated('R', 'P'))).toEqual([['im2.dcm', 'slice-directions-contradicted']]);
    expect(reasons(stated('L', 'A'))).toEqual([['im2.dcm', 'slice-directions-contradicted']]);
    expect(gather(series(3)).stacks[0]?.film.columnsTowards).toBe('patient-left');
  });

  test('the film of a stack stands for its middle slice', () => {
    const { film } = gather(series(5)).stacks[0]!;
    expect([film.file, film.sha256, film.view]).toEqual(['im2.dcm', '2'.padStart(64, '0'), 'ct']);
  });
});
