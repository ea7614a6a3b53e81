import type { Reason } from '../measure/outcome.ts';
import { type Direction, direction } from '../plane/direction.ts';
import { between, dot, type Point, point } from '../plane/point.ts';
import type { LimbFrame } from './film-to-limb.ts';
import { isLandmarkId, type LandmarkId, landmark } from './landmark-table.ts';

type Placed<F extends LimbFrame> = ReadonlyMap<LandmarkId, { readonly at: Point<F> }>;

/** Words in landmark names that say where a point must lie against its partner: the first further across or further up. */
const OPPOSITES: Readonly<Record<LimbFrame, readonly (readonly [string, string, 'across' | 'up'])[]>> = {
  coronal: [
    ['lateral', 'medial', 'across'],
    ['proximal', 'distal', 'up'],
  ],
  sagittal: [
    ['anterior', 'posterior', 'across'],
    ['proximal', 'distal', 'up'],
    ['superior', 'inferior', 'up'],
  ],
  // A skyline may be shown with the patella above or below: its columns alone say which way is lateral (LM-8).
  axial: [['lateral', 'medial', 'across']],
};

/**
 * Second look at sides (LM-4): a lateral mark must lie lateral to its medial partner, an anterior one in front of its
 * posterior partner, a proximal one above its distal partner. Where not, marks were exchanged or the film's side or
 * direction is wrong, and every measurement that uses them is refused rather than given with the wrong sign.
 */
export function mixedMarks<F extends LimbFrame>(frame: F, placed: Placed<F>): ReadonlyMap<LandmarkId, Reason> {
  const faults = new Map<LandmarkId, Reason>();
  const up = upwards(frame, placed);
  const directions = { up, across: point(frame, up.y, -up.x) };
  for (const [further, nearer, way] of OPPOSITES[frame])
    for (const [id, { at }] of placed) {
      const partner = id.replace(further, nearer);
      if (partner === id || !isLandmarkId(partner)) continue;
      const other = placed.get(partner);
      if (!other || dot(between(other.at, at), directions[way]) > 0) continue;
      const reason = mixed(id, partner);
      faults.set(id, reason).set(partner, reason);
    }
  return faults;
}

/** Up on this picture, from the tibia's marks to the femur's: a film may lie turned. Without both, up is up. */
function upwards<F extends LimbFrame>(frame: F, placed: Placed<F>): Direction<F> {
  const centre = (bone: 'femur' | 'tibia'): Point<F> | null => {
    const points = [...placed].filter(([id]) => landmark(id).bone === bone).map(([, { at }]) => at);
    if (points.length === 0) return null;
    const sum = (axis: 'x' | 'y') => points.reduce((s, p) => s + p[axis], 0) / points.length;
    return point(frame, sum('x'), sum('y'));
  };
  const [tibia, femur] = [centre('tibia'), centre('femur')];
  const up = tibia && femur ? direction<F>(tibia, femur) : null;
  return up?.ok ? up.value : point(frame, 0, 1);
}

const mixed = (id: LandmarkId, partner: LandmarkId): Reason => ({
  code: 'marks-mixed',
  message: `“${landmark(id).label}” and “${landmark(partner).label}” lie the wrong way round: the marks are exchanged, or the side or direction of the film is wrong.`,
  field: `marks[${id}]`,
  mend: 'Exchange the two marks, or correct the side of the film.',
});
