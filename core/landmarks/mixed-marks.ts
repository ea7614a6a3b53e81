import type { Reason } from '../measure/outcome.ts';
import type { Point } from '../plane/point.ts';
import type { LimbFrame } from './film-to-limb.ts';
import { isLandmarkId, type LandmarkId, landmark } from './landmark-table.ts';

/** Words in landmark names that say where a point must lie against its partner: the first lies at larger x or y. */
const OPPOSITES: Readonly<Record<LimbFrame, readonly (readonly [string, string, 'x' | 'y'])[]>> = {
  coronal: [
    ['lateral', 'medial', 'x'],
    ['proximal', 'distal', 'y'],
  ],
  sagittal: [
    ['anterior', 'posterior', 'x'],
    ['proximal', 'distal', 'y'],
    ['superior', 'inferior', 'y'],
  ],
};

/**
 * Second look at sides (LM-4): a medial mark must lie medial to its lateral partner, an anterior one in front of its
 * posterior partner, a proximal one above its distal partner. Where not, marks were exchanged or the film's side or direction is
 * wrong, and every measurement that uses them is refused rather than given with the wrong sign.
 */
export function mixedMarks<F extends LimbFrame>(
  frame: F,
  placed: ReadonlyMap<LandmarkId, { readonly at: Point<F> }>,
): ReadonlyMap<LandmarkId, Reason> {
  const faults = new Map<LandmarkId, Reason>();
  for (const [larger, smaller, axis] of OPPOSITES[frame])
    for (const [id, { at }] of placed) {
      const partner = id.replace(larger, smaller);
      if (partner === id || !isLandmarkId(partner)) continue;
      const other = placed.get(partner);
      if (!other || at[axis] > other.at[axis]) continue;
      const reason = mixed(id, partner);
      faults.set(id, reason).set(partner, reason);
    }
  return faults;
}

const mixed = (id: LandmarkId, partner: LandmarkId): Reason => ({
  code: 'marks-mixed',
  message: `“${landmark(id).label}” and “${landmark(partner).label}” lie the wrong way round: the marks are exchanged, or the side or direction of the film is wrong.`,
  field: `marks[${id}]`,
  mend: 'Exchange the two marks, or correct the side of the film.',
});
