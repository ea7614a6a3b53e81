import { type LandmarkId, landmark } from '../landmarks/landmark-table.ts';
import type { Mark } from '../landmarks/mark.ts';
import { cannot, type Outcome, ok, type Reason } from '../measure/outcome.ts';
import type { Perturbation } from '../measure/propagate.ts';
import { between, cross, type Point } from '../plane/point.ts';
import { areaCentre } from './area-centre.ts';
import type { RotationEvidence, RotationFilm } from './rotation-evidence.ts';
import { levelOf, type TransverseFrame, toTransverse, transverseFrame } from './transverse-frame.ts';

/** A landmark of a stack in the plane of the limb. */
export interface OnStack {
  /** One point, or the points of an outline, mm. */
  readonly points: readonly Point<'transverse'>[];
  /** The point itself, or the centre of the outline's area. */
  readonly at: Point<'transverse'>;
  /** Standard deviation of marking one coordinate, mm. */
  readonly sdMm: number;
  readonly slice: number;
  /** Place of its slice along the normal, mm. */
  readonly levelMm: number;
}

/** One stack seen from one limb: its marks laid over each other, whatever slices they lie on. */
export interface KneeOnStack {
  readonly film: RotationFilm;
  readonly frame: TransverseFrame;
  readonly placed: ReadonlyMap<LandmarkId, OnStack>;
  /** Marks that cannot be used, each with its reason. */
  readonly faults: ReadonlyMap<LandmarkId, Reason>;
}

/** The marks of one stack and one side, in the plane of the limb. Refuses what `transverseFrame` refuses. */
export function kneeOnStack(film: RotationFilm, { side, marks }: RotationEvidence): Outcome<KneeOnStack> {
  const frame = transverseFrame(film, side);
  if (!frame.ok) return frame;
  const placed = new Map<LandmarkId, OnStack>();
  const faults = new Map<LandmarkId, Reason>();
  for (const mark of marks) {
    if (mark.film !== film.id || mark.side !== side || placed.has(mark.landmark)) continue;
    const one = place(mark, frame.value);
    if (one.ok) placed.set(mark.landmark, one.value);
    else faults.set(mark.landmark, { ...one.reason, field: `marks[${mark.landmark}, ${side}, ${film.id}]` });
  }
  for (const [id, reason] of wrongWayRound(placed)) faults.set(id, reason);
  return ok({ film, frame: frame.value, placed, faults });
}

function place(mark: Mark, frame: TransverseFrame): Outcome<OnStack> {
  const { label, outline, markingSdMm } = landmark(mark.landmark);
  const { slice, points: px } = mark;
  if (slice === undefined || !Number.isInteger(slice) || !frame.stack.each[slice]) return cannot(noSlice(label, slice));
  if (!px.every((p) => Number.isFinite(p.x) && Number.isFinite(p.y)))
    return cannot({ code: 'not-a-finite-number', message: `${label}: a coordinate is not a number.` });
  const points = px.map((p) => toTransverse(frame, slice, p));
  const at = outline ? areaCentre(points) : only(points, label);
  if (!at.ok) return cannot({ ...at.reason, message: `${label}: ${at.reason.message}` });
  return ok({ points, at: at.value, sdMm: mark.sdMm ?? markingSdMm, slice, levelMm: levelOf(frame, slice) });
}

const noSlice = (label: string, slice: number | undefined): Reason => ({
  code: 'slice-not-known',
  message:
    slice === undefined
      ? `${label}: it is not said on which slice it lies.`
      : `${label} lies on slice ${slice + 1}, which the stack does not have.`,
  mend: 'Place the mark again on its slice.',
});

const only = (points: readonly Point<'transverse'>[], label: string): Outcome<Point<'transverse'>> => {
  const [at] = points;
  return at && points.length === 1
    ? ok(at)
    : {
        ok: false,
        reason: { code: 'one-point-needed', message: `${label} is one point; ${points.length} are given.` },
      };
};

/** What must lie lateral of its partner. */
const LATERAL: readonly (readonly [LandmarkId, LandmarkId])[] = [
  ['ct-lateral-epicondyle', 'ct-medial-epicondyle-sulcus'],
  ['ct-lateral-epicondyle', 'ct-medial-epicondyle-peak'],
  ['ct-femoral-posterior-lateral', 'ct-femoral-posterior-medial'],
  ['ct-tray-posterior-lateral', 'ct-tray-posterior-medial'],
];

/** What must lie in front of a line from medial to lateral, however the leg is turned. */
const IN_FRONT: readonly (readonly [LandmarkId, readonly [LandmarkId, LandmarkId]])[] = [
  ['ct-lateral-epicondyle', ['ct-femoral-posterior-medial', 'ct-femoral-posterior-lateral']],
  ['ct-plateau-outline', ['ct-tray-posterior-medial', 'ct-tray-posterior-lateral']],
  ['ct-tubercle-tip', ['ct-tray-posterior-medial', 'ct-tray-posterior-lateral']],
];

/**
 * Second look at side and direction (ROT-8): lateral points must lie lateral of their medial partners, the epicondyle in front
 * of the back of the condyles, plateau and tubercle in front of the back of the tray. Where not, marks are exchanged, or the
 * scan was registered the wrong way round, and what uses them is refused rather than given with the wrong sign.
 */
function wrongWayRound(placed: ReadonlyMap<LandmarkId, OnStack>): ReadonlyMap<LandmarkId, Reason> {
  const faults = new Map<LandmarkId, Reason>();
  for (const [further, nearer] of LATERAL) {
    const [a, b] = [placed.get(further), placed.get(nearer)];
    if (!a || !b || a.at.x > b.at.x) continue;
    const reason = mixed(further, nearer, 'lateral of');
    faults.set(further, reason).set(nearer, reason);
  }
  for (const [front, [medial, lateral]] of IN_FRONT) {
    const [p, m, l] = [placed.get(front), placed.get(medial), placed.get(lateral)];
    if (!p || !m || !l || cross(between(m.at, l.at), between(m.at, p.at)) > 0) continue;
    const reason = mixed(front, medial, 'in front of');
    faults.set(front, reason).set(medial, reason).set(lateral, reason);
  }
  return faults;
}

const mixed = (one: LandmarkId, other: LandmarkId, way: string): Reason => ({
  code: 'marks-mixed',
  message: `“${landmark(one).label}” does not lie ${way} “${landmark(other).label}”: marks are exchanged, or the side or the directions of the scan are wrong.`,
  field: `marks[${one}]`,
  mend: 'Exchange the two marks, or correct the side; if the marks are right, the scan was registered the wrong way round.',
});

/** Where formulas read from, as the marks stand or a little moved. */
export interface StackReading {
  readonly at: (id: LandmarkId) => Outcome<Point<'transverse'>>;
}

/** Some landmarks of a stack with everything that may err: each coordinate of each point, independently. */
export function shakableStack(knee: KneeOnStack, inputs: readonly LandmarkId[]) {
  const moved = new Map<LandmarkId, { frame: 'transverse'; x: number; y: number }[]>();
  const perturbations: Perturbation[] = [];
  for (const id of inputs) {
    const one = knee.placed.get(id);
    if (!one) throw new Error(`${id} is not marked on stack ${knee.film.id}`);
    const now = one.points.map((p) => ({ ...p }));
    moved.set(id, now);
    for (const [i, p] of one.points.entries())
      for (const axis of ['x', 'y'] as const)
        perturbations.push({
          cause: `${knee.film.id}: ${id}, ${i + 1}, ${axis}`,
          move: (times) => {
            const to = now[i];
            if (to) to[axis] = p[axis] + times * one.sdMm;
          },
        });
  }
  const reading: StackReading = {
    at: (id) => {
      const points = moved.get(id);
      const [first] = points ?? [];
      if (!points || !first) throw new Error(`${id} is not among the stated inputs`);
      return landmark(id).outline ? areaCentre(points) : ok(first);
    },
  };
  return { reading, perturbations };
}
