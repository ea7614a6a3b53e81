import type { Construct } from '../gaps/construct.ts';

/** Parts of a construct by reference, and how many of each: two equal augments, or one stem in both bones, are two. */
export function partsNeeded(construct: Construct): ReadonlyMap<string, number> {
  const refs = [
    construct.femur,
    construct.distalAugments.medial,
    construct.distalAugments.lateral,
    construct.posteriorAugments.medial,
    construct.posteriorAugments.lateral,
    construct.tray,
    construct.tibialAugments.medial,
    construct.tibialAugments.lateral,
    construct.insert,
    construct.femoralStem,
    construct.femoralOffset,
    construct.tibialStem,
    construct.tibialOffset,
    construct.femoralCone,
    construct.tibialCone,
    construct.femoralSleeve,
    construct.tibialSleeve,
  ];
  const needed = new Map<string, number>();
  for (const ref of refs) if (ref) needed.set(ref, (needed.get(ref) ?? 0) + 1);
  return needed;
}
