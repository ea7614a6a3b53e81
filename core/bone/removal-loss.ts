import type { Reason } from '../measure/outcome.ts';
import type { FixationInPlace, RemovalEstimate } from './bone-map.ts';

export type RemovalSurface = RemovalEstimate['surface'];

/** An estimate with whose it is: the practice's own, or the project's default that nobody has confirmed. */
export type SourcedRemovalEstimate = RemovalEstimate & { readonly from: string; readonly confirmed: boolean };

/** Said of every default, wherever it is shown (BONE-9). */
export const REMOVAL_DEFAULT_SOURCE = 'planning default of this project, grade D, no published source: to be confirmed';
export const REMOVAL_OWN_SOURCE = "the practice's own estimate";

type Triangle = readonly [least: number, likely: number, most: number];

/**
 * Defaults, mm: least, most likely, most. No table of bone lost at removal is published; only the order is: a loose part takes
 * least, an ingrown sleeve or cone most (removal chapters, e.g. Scully 2021, J Knee Surg 34:693). Posterior condyles and pegs are
 * reached last, hence a little more there from an ingrown femur.
 */
const DEFAULTS: Readonly<Record<FixationInPlace, Readonly<Record<RemovalSurface, Triangle>>>> = {
  loose: { 'femur-distal': [0, 0.5, 2], 'femur-posterior': [0, 0.5, 2], tibia: [0, 0.5, 2] },
  cemented: { 'femur-distal': [0, 1, 3], 'femur-posterior': [0, 1, 3], tibia: [0, 1, 3] },
  'cemented-stem': { 'femur-distal': [0, 1.5, 4], 'femur-posterior': [0, 1.5, 4], tibia: [0, 1.5, 4] },
  ingrown: { 'femur-distal': [0, 2, 5], 'femur-posterior': [0, 2.5, 6], tibia: [0, 2, 5] },
  'ingrown-stem': { 'femur-distal': [1, 3, 7], 'femur-posterior': [1, 3, 7], tibia: [1, 3, 7] },
  'sleeve-or-cone': { 'femur-distal': [1, 4, 12], 'femur-posterior': [1, 4, 12], tibia: [1, 4, 12] },
};

/**
 * Bone that removal of a component is expected to take from one surface (BONE-9): least, most likely and most, mm, >= 0, the corners
 * of a triangular distribution, 0 = nothing beyond what the films show.
 *
 * `fixation` is how the present component is held, `own` the practice's estimates. The practice's last usable entry for just this
 * fixation and surface stands in for the default and counts as confirmed; entering the default's numbers confirms them. An entry
 * that is out of order is passed over (`checkRemovalEstimates` names it).
 *
 * There is no published table. The defaults are planning defaults of this project, grade D, and say so in `from`.
 *
 * Example: a cemented tibia without an own entry is 0, 1, 3 mm, not confirmed.
 */
export function removalEstimate(
  fixation: FixationInPlace,
  surface: RemovalSurface,
  own: readonly RemovalEstimate[] = [],
): SourcedRemovalEstimate {
  const entered = own.findLast((e) => e.fixation === fixation && e.surface === surface && inOrder(e));
  if (entered) return { ...entered, from: REMOVAL_OWN_SOURCE, confirmed: true };
  const [leastMm, likelyMm, mostMm] = DEFAULTS[fixation][surface];
  return { fixation, surface, leastMm, likelyMm, mostMm, from: REMOVAL_DEFAULT_SOURCE, confirmed: false };
}

/** Mean of the triangular distribution, mm: what the bone is expected to lose. */
export const expectedLossMm = ({ leastMm, likelyMm, mostMm }: RemovalEstimate): number =>
  (leastMm + likelyMm + mostMm) / 3;

/** Standard deviation of the triangular distribution, mm. */
export const lossSdMm = ({ leastMm: a, likelyMm: c, mostMm: b }: RemovalEstimate): number =>
  Math.sqrt(Math.max(0, ((b - a) ** 2 - (b - c) * (c - a)) / 18));

/** Own entries of these surfaces that cannot be used, each with its place in `bone.removalEstimates` and how to mend it. */
export const checkRemovalEstimates = (
  own: readonly RemovalEstimate[],
  surfaces: readonly RemovalSurface[],
): readonly Reason[] =>
  own.flatMap((e, i) =>
    inOrder(e) || !surfaces.includes(e.surface)
      ? []
      : [
          {
            code: 'removal-estimate-out-of-order',
            message: `Loss at removal, ${e.surface}, ${e.fixation}: least, likely and most are not in this order.`,
            field: `bone.removalEstimates[${i}]`,
            mend: 'Enter least <= likely <= most, none below zero.',
          },
        ],
  );

const inOrder = (e: RemovalEstimate): boolean => 0 <= e.leastMm && e.leastMm <= e.likelyMm && e.likelyMm <= e.mostMm;
