import { slicePlaceMm } from '@gapline/core/landmarks/slice-stack.ts';
import type { Warning } from '@gapline/core/measure/outcome.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import { agrees, columnsAlong } from './directions.ts';
import { spacingOf } from './gaps.ts';
import { type LeftOut, type PlacedSlice, withoutOddOnes } from './odd-ones.ts';
import type { SliceFile } from './slice-file.ts';

/** Slices that make one film. */
export interface Stacked {
  readonly film: CaseFilm;
  readonly members: readonly SliceFile[];
  readonly warnings: readonly Warning[];
}

export interface Gathered {
  readonly stacks: readonly Stacked[];
  /** Slices without a second one in their series: films of one picture, as they came. */
  readonly single: readonly SliceFile[];
  readonly left: readonly LeftOut[];
  /** Slices that are in a stack already under another name. */
  readonly twice: readonly SliceFile[];
}

/**
 * Gathers imported slices into stacks, one a series, in the order in which the series came (ROT-12 to ROT-16). Inputs: slices with
 * what their files say; `idOf` makes a short name from the hashes of the slices. Result: one film of view `ct` for each
 * stack, with cautions; and every slice that is in none, with its reason. Nothing is dropped unsaid.
 */
export function gatherStacks(slices: readonly SliceFile[], idOf: (hashes: readonly string[]) => string): Gathered {
  const gathered = {
    stacks: [] as Stacked[],
    single: [] as SliceFile[],
    left: [] as LeftOut[],
    twice: [] as SliceFile[],
  };
  for (const series of bySeries(slices)) {
    if (series.length < 2) {
      gathered.single.push(...series);
      continue;
    }
    const placed: PlacedSlice[] = [];
    for (const slice of series) {
      const fault = placeFault(slice);
      if (fault) gathered.left.push({ slice, reason: fault });
      else if (slice.place) placed.push({ ...slice, place: slice.place });
    }
    const { kept, left } = withoutOddOnes(placed);
    gathered.left.push(...left);
    const { once, twice, clash } = onlyOnce(inOrder(kept));
    gathered.left.push(...clash);
    if (once.length >= 2) {
      gathered.stacks.push(stackOf(once, { twice: twice.length, idOf }));
      gathered.twice.push(...twice);
    } else gathered.single.push(...once, ...twice);
  }
  return gathered;
}

function bySeries(slices: readonly SliceFile[]): readonly (readonly SliceFile[])[] {
  const series = new Map<string, SliceFile[]>();
  for (const slice of slices) {
    const key = slice.series ?? '';
    const there = series.get(key);
    if (there) there.push(slice);
    else series.set(key, [slice]);
  }
  return [...series.values()];
}

function placeFault({ film, place }: SliceFile): LeftOut['reason'] | null {
  if (!place)
    return {
      code: 'slice-place-unknown',
      message: `${film.file} does not say where in the patient it lies.`,
      file: film.file,
      field: '(0020,0032), (0020,0037)',
      mend: 'Export the series again with position and orientation of each slice.',
    };
  if (!film.scaleFacts.pixelSpacing)
    return {
      code: 'pixel-spacing-missing',
      message: `${film.file} does not state its pixel spacing.`,
      file: film.file,
      field: '(0028,0030)',
      mend: 'Export the series again with its pixel spacing.',
    };
  if (place.statedDirections && !agrees(place.statedDirections, place.along, place.down))
    return {
      code: 'slice-directions-contradicted',
      message: `${film.file} contradicts itself about its directions: Patient Orientation says ${place.statedDirections.join(', ')}, Image Orientation says otherwise.`,
      file: film.file,
      field: '(0020,0020)',
      mend: 'Left and right, or front and back, cannot be trusted. Ask for the original series from the scanner.',
    };
  return null;
}

/** By place along the normal; of two in one place, as they came. */
const inOrder = (slices: readonly PlacedSlice[]): readonly PlacedSlice[] => {
  const [first] = slices;
  if (!first) return [];
  const at = (s: PlacedSlice): number => slicePlaceMm(first.place, s.place);
  return [...slices].sort((a, b) => at(a) - at(b));
};

/** Nearer than this, mm, slices lie in one place. */
const ONE_PLACE_MM = 0.01;

/** Of slices in one place the first is kept: an equal picture is one given twice, another picture cannot be told from it. */
function onlyOnce(slices: readonly PlacedSlice[]) {
  const once: PlacedSlice[] = [];
  const twice: SliceFile[] = [];
  const clash: LeftOut[] = [];
  for (const slice of slices) {
    const before = once.at(-1);
    if (!before || slicePlaceMm(before.place, slice.place) - slicePlaceMm(before.place, before.place) > ONE_PLACE_MM)
      once.push(slice);
    else if (slice.pixelsSha256 === before.pixelsSha256) twice.push(slice);
    else clash.push({ slice, reason: inOnePlace(slice, before) });
  }
  return { once, twice, clash };
}

const inOnePlace = (slice: SliceFile, before: SliceFile): LeftOut['reason'] => ({
  code: 'slices-in-one-place',
  message: `${slice.film.file} lies in the same place as ${before.film.file} and shows another picture; the first is used.`,
  file: slice.film.file,
  mend: 'Two reconstructions are mixed in one series. Import the one that is wanted alone.',
});

interface StackNeeds {
  readonly twice: number;
  readonly idOf: (hashes: readonly string[]) => string;
}

function stackOf(slices: readonly PlacedSlice[], { twice, idOf }: StackNeeds): Stacked {
  const middle = slices[Math.floor(slices.length / 2)] as PlacedSlice;
  const { along, down } = middle.place;
  const each = slices.map(({ film: { sha256, file }, place: { originMm } }) => ({ sha256, file, originMm }));
  const towards = columnsAlong(along);
  const side = slices.find((s) => s.side !== undefined)?.side;
  const { columnsTowards: _, ...shown } = middle.film;
  const film: CaseFilm = {
    ...shown,
    id: idOf(each.map((s) => s.sha256)),
    view: 'ct',
    side: side ?? 'both',
    ...(towards === undefined ? {} : { columnsTowards: towards }),
    slices: { along, down, each },
  };
  const places = slices.map((s) => slicePlaceMm(middle.place, s.place));
  const { warnings } = spacingOf(places, middle.film.file);
  return { film, members: slices, warnings: twice > 0 ? [...warnings, givenTwice(twice, middle.film.file)] : warnings };
}

const givenTwice = (count: number, file: string): Warning => ({
  code: 'slices-given-twice',
  message:
    count === 1 ? 'One slice was given twice and is used once.' : `${count} slices were given twice and are used once.`,
  file,
});
