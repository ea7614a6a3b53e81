import { dot3, type PatientVector } from '@gapline/core/landmarks/slice-stack.ts';
import type { Reason } from '@gapline/core/measure/outcome.ts';
import type { SliceFile } from './slice-file.ts';

/** A slice of a series that has its place. */
export type PlacedSlice = SliceFile & { readonly place: NonNullable<SliceFile['place']> };

/** A slice that stays out of its stack, and why. */
export interface LeftOut {
  readonly slice: SliceFile;
  readonly reason: Reason;
}

/** Directions that differ by less than this belong to one stack, deg. */
const SAME_DIRECTION_DEG = 0.5;
/** Spacings that differ by less than this share are the same, but for rounding. */
const SAME_SPACING = 1e-3;

interface Trait<T> {
  readonly code: string;
  readonly what: string;
  readonly mend: string;
  /** Undefined = the file does not say; that is held against nobody. */
  readonly of: (slice: PlacedSlice) => T | undefined;
  readonly same: (a: T, b: T) => boolean;
}

const trait = <T>(t: Trait<T>): Trait<T> => t;
const equal = <T>(a: T, b: T): boolean => a === b;
const near = (a: number, b: number): boolean => Math.abs(a - b) <= SAME_SPACING * Math.max(Math.abs(a), Math.abs(b));
const parallel = (a: PatientVector, b: PatientVector): boolean =>
  dot3(a, b) > Math.cos((SAME_DIRECTION_DEG * Math.PI) / 180);

const PATIENT = trait({
  code: 'slice-of-other-patient',
  what: 'names another patient than most slices of its series',
  mend: 'Look at the export: the slices of two patients are mixed. Import those of one patient alone.',
  of: (s) => s.patient,
  same: equal,
});
const SIDE = trait({
  code: 'slice-of-other-side',
  what: 'states another side than most slices of its series',
  mend: 'Import the slices of each side as a case of their own, or correct the side in the archive.',
  of: (s) => s.side,
  same: equal,
});
const FRAME = trait({
  code: 'slice-of-other-scan',
  what: 'has another frame of reference than most slices of its series: the patient may have moved between them',
  mend: 'Import the series of one scan.',
  of: (s) => s.place.frameOfReference,
  same: equal,
});
const SIZE = trait({
  code: 'slice-of-other-size',
  what: 'has other rows or columns than most slices of its series',
  mend: 'Import it as a series of its own.',
  of: (s) => `${s.film.scaleFacts.rows} x ${s.film.scaleFacts.columns}`,
  same: equal,
});
const SPACING = trait({
  code: 'slice-of-other-spacing',
  what: 'has another pixel spacing than most slices of its series',
  mend: 'Import the slices of each spacing as a series of their own.',
  of: (s) => s.film.scaleFacts.pixelSpacing,
  same: (a, b) => near(a[0], b[0]) && near(a[1], b[1]),
});
const DIRECTION = trait({
  code: 'slice-of-other-direction',
  what: 'lies in another direction than most slices of its series',
  mend: 'Import the slices of each direction as a series of their own.',
  of: (s) => s.place,
  same: (a, b) => parallel(a.along, b.along) && parallel(a.down, b.down),
});

/**
 * Splits a series into the slices that belong together and those that do not (ROT-15), by patient, side, frame of reference, size,
 * spacing and direction, in this order. What most slices have is kept; of two equally many, what came first.
 */
export function withoutOddOnes(series: readonly PlacedSlice[]): {
  readonly kept: readonly PlacedSlice[];
  readonly left: readonly LeftOut[];
} {
  const left: LeftOut[] = [];
  let kept = series;
  const keep = <T>(t: Trait<T>): void => {
    const usual = mostCommon(kept.map(t.of), t.same);
    if (usual === undefined) return;
    const fits = (s: PlacedSlice): boolean => {
      const own = t.of(s);
      return own === undefined || t.same(own, usual);
    };
    for (const slice of kept) if (!fits(slice)) left.push({ slice, reason: reasonFor(slice, t) });
    kept = kept.filter(fits);
  };
  keep(PATIENT);
  keep(SIDE);
  keep(FRAME);
  keep(SIZE);
  keep(SPACING);
  keep(DIRECTION);
  return { kept, left };
}

const reasonFor = ({ film }: SliceFile, t: Pick<Trait<unknown>, 'code' | 'what' | 'mend'>): Reason => ({
  code: t.code,
  message: `${film.file} ${t.what}.`,
  file: film.file,
  mend: t.mend,
});

function mostCommon<T>(values: readonly (T | undefined)[], same: (a: T, b: T) => boolean): T | undefined {
  const groups: { readonly value: T; count: number }[] = [];
  for (const value of values) {
    if (value === undefined) continue;
    const group = groups.find((g) => same(g.value, value));
    if (group) group.count += 1;
    else groups.push({ value, count: 1 });
  }
  return groups.reduce<(typeof groups)[number] | undefined>((a, b) => (a && a.count >= b.count ? a : b), undefined)
    ?.value;
}
