import type { Insert } from '../../catalogue/catalogue.ts';
import type { Own } from './corners.ts';
import { type Held, NEVER, TOLERANCE, type Trial } from './trial.ts';

type Sides = readonly [medial: number, lateral: number];

const same = (a: number, b: number): boolean => Math.abs(a - b) < TOLERANCE;
const asWanted = (wanted: { medial: number; lateral: number } | undefined, [medial, lateral]: Sides): boolean =>
  !wanted || (same(wanted.medial, medial) && same(wanted.lateral, lateral));

/** Whether a femur with these augments and this offset is what was fixed by hand. */
export function takesFemur(
  { pinned = {} }: Trial,
  of: { readonly size: number; readonly distal: Sides; readonly posterior: Sides; readonly offset: number },
): boolean {
  return (
    (pinned.femurSize ?? of.size) === of.size &&
    asWanted(pinned.distalAugmentsMm, of.distal) &&
    asWanted(pinned.posteriorAugmentsMm, of.posterior) &&
    same(pinned.femoralOffsetMm ?? of.offset, of.offset)
  );
}

/** The same of a tray with its blocks. */
export const takesTibia = ({ pinned = {} }: Trial, of: { readonly size: number; readonly blocks: Sides }): boolean =>
  (pinned.traySize ?? of.size) === of.size && asWanted(pinned.tibialAugmentsMm, of.blocks);

export const takesInsert = ({ pinned = {} }: Trial, insert: Insert): boolean =>
  (pinned.level ?? insert.level) === insert.level && same(pinned.insertMm ?? insert.labelMm, insert.labelMm);

/** Ways to hold a bone that have the stem, or have none, as was fixed. */
export function takesHeld({ pinned = {} }: Trial, bone: 'femur' | 'tibia', held: readonly Held[]): readonly Held[] {
  const wanted = bone === 'femur' ? pinned.femoralStem : pinned.tibialStem;
  return wanted === undefined ? held : held.filter(({ stem }) => stem === (wanted !== 'none'));
}

export const slopesOf = ({ pinned = {}, catalogue }: Trial): readonly number[] =>
  catalogue.limits.slopeDeg.filter((deg) => same(pinned.slopeDeg ?? deg, deg));

/** A length held in one place. */
export const nailed = (own: Own, at: number | undefined): Own =>
  at === undefined ? own : { bends: [at], cost: (x) => (same(x, at) ? own.cost(x) : NEVER) };
