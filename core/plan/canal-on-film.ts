import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import { toLimb } from '../landmarks/film-to-limb.ts';
import { toRad } from '../measure/angle.ts';
import { cannot, type Outcome, ok, type Reason } from '../measure/outcome.ts';
import type { Direction } from '../plane/direction.ts';
import { between, dot, type Point, plus, point } from '../plane/point.ts';
import type { CanalLevel, CanalTrace } from '../stems/canal-trace.ts';
import type { CanalInView, StemView } from '../stems/canal-view.ts';
import type { CanalSection } from '../stems/straight-stem.ts';
import { type BoneOnFilm, spot } from './bones-on-film.ts';

/** Standard deviation of marking one wall of a canal where the trace states none, mm (STM-6; assumption). */
export const WALL_SD_MM = 1;

/** How the planned component holds its stem in one view. */
export interface StemFrame {
  /** Across and above the present joint line: where the stem's axis passes the component, mm of the bone's frame. */
  readonly throughAcrossMm: number;
  readonly throughUpMm: number;
  /** Height of the target over the present joint line, mm: where heights along the stem are counted from. */
  readonly targetMm: number;
  /** From the bone's `up` to the stem's axis, deg counter-clockwise (x lateral or anterior, y proximal). */
  readonly turnDeg: number;
}

/** One bone on one film with the stem's axis on it, ready to turn film points into canal sections and back. */
export interface StemOnFilm<F extends LimbFrame> {
  readonly bone: BoneOnFilm<F>;
  /** Where the axis passes the component; `zMm` there. */
  readonly through: Point<F>;
  readonly throughZMm: number;
  /** Outwards along the stem; across it, lateral or anterior. */
  readonly out: Direction<F>;
  readonly across: Direction<F>;
}

/** The stem's axis on a film: outwards is proximal on a femur, distal on a tibia. */
export function stemOnFilm<F extends LimbFrame>(
  bone: BoneOnFilm<F>,
  which: 'femur' | 'tibia',
  frame: StemFrame,
): StemOnFilm<F> {
  const [c, s] = [Math.cos(toRad(frame.turnDeg)), Math.sin(toRad(frame.turnDeg))];
  const turn = (d: Direction<F>, sign: 1 | -1): Direction<F> => ({
    frame: d.frame,
    x: sign * (d.x * c - d.y * s),
    y: sign * (d.x * s + d.y * c),
  });
  const sign = which === 'femur' ? 1 : -1;
  return {
    bone,
    through: spot(bone, frame.throughAcrossMm, frame.throughUpMm),
    throughZMm: sign * (frame.throughUpMm - frame.targetMm),
    out: turn(bone.up, sign),
    across: turn(bone.across, 1),
  };
}

/** A place of the stem's frame on the limb: mm along and across. */
export const placeOnStem = <F extends LimbFrame>(on: StemOnFilm<F>, zMm: number, acrossMm: number): Point<F> =>
  plus(
    plus(on.through, on.out as Point<F>, (zMm - on.throughZMm) / on.bone.mm),
    on.across as Point<F>,
    acrossMm / on.bone.mm,
  );

/** What is told of a trace when it is refused. */
export interface TraceAt {
  readonly trace: CanalTrace;
  /** Index in `canals`. */
  readonly index: number;
  /** File of the film. */
  readonly file: string;
}

/**
 * One traced canal in mm of the stem's frame (STM-6): along the planned axis of the stem from the target joint line outwards, walls
 * across it with **+ = lateral (AP) or anterior (lateral view)**. Each level stands at the mean height of its two points, each wall read
 * there along itself. Refuses levels out of order, walls that cross or meet, a level that lies along the bone instead of across
 * it, and a canal outside of its own bone; each with file, field and mend.
 */
export function canalOnFilm<F extends LimbFrame>(on: StemOnFilm<F>, at: TraceAt): Outcome<CanalInView> {
  const { levels, sdMm } = at.trace;
  const inner = levels.map((l) => pairOf(on, l.innerA, l.innerB));
  const fault = traceFault(inner, at);
  if (fault) return cannot(fault);
  const sections = sectionsOf(inner);
  const outer = outerSections(on, levels);
  const wallSdMm = sdMm ?? WALL_SD_MM;
  // Under a thin shell the marks of both walls may pass each other by what the eye allows, not by more.
  const beyond = 3 * Math.SQRT2 * wallSdMm;
  if (outer?.some((o, i) => isOutside(sections[i], o, beyond)))
    return cannot(
      reason(at, 'canal-outside-bone', ['the canal lies outside of its bone.', 'Trace inner and outer cortex anew.']),
    );
  const { film } = on.bone;
  return ok({
    view: film.toLimb.frame === 'sagittal' ? 'lateral' : 'ap',
    film: film.film.id,
    sections,
    outer,
    wallSdMm,
    scaleRelativeSd: film.scale?.relativeSd ?? 0,
  });
}

const isOutside = (canal: CanalSection | undefined, bone: CanalSection, byMm: number): boolean =>
  canal !== undefined && (bone.lowMm - canal.lowMm > byMm || canal.highMm - bone.highMm > byMm);

/** A point of a wall: along and across the stem, mm. */
interface OnWall {
  readonly z: number;
  readonly y: number;
}

interface LevelPair {
  readonly a: OnWall;
  readonly b: OnWall;
}

type FilmXY = CanalLevel['innerA'];

function onWall<F extends LimbFrame>(on: StemOnFilm<F>, p: FilmXY): OnWall {
  const v = between(on.through, toLimb(on.bone.film.toLimb, point('film', p.x, p.y)) as Point<F>);
  return {
    z: on.throughZMm + dot(v, on.out as Point<F>) * on.bone.mm,
    y: dot(v, on.across as Point<F>) * on.bone.mm,
  };
}

const pairOf = <F extends LimbFrame>(on: StemOnFilm<F>, a: FilmXY, b: FilmXY): LevelPair => ({
  a: onWall(on, a),
  b: onWall(on, b),
});

const reason = (at: TraceAt, code: string, [what, mend]: readonly [string, string], level?: number): Reason => ({
  code,
  message: `Canal of the ${at.trace.bone} on film ${at.trace.film}: ${what}`,
  file: at.file,
  field: level === undefined ? `canals[${at.index}]` : `canals[${at.index}].levels[${level}]`,
  mend,
});

function traceFault(pairs: readonly LevelPair[], at: TraceAt): Reason | null {
  const fault = (code: string, words: readonly [string, string], level?: number) => reason(at, code, words, level);
  if (pairs.length < 3)
    return fault('canal-levels', ['fewer than three levels are traced.', 'Mark both walls at more levels.']);
  if (pairs.some(({ a, b }) => ![a.z, a.y, b.z, b.y].every(Number.isFinite)))
    return fault('not-a-finite-number', ['a coordinate is not a number.', 'Trace the canal again.']);
  const first = pairs[0];
  const towards = Math.sign((first?.b.y ?? 0) - (first?.a.y ?? 0));
  for (const [i, { a, b }] of pairs.entries()) {
    const before = pairs[i - 1];
    if (before && !(a.z > before.a.z && b.z > before.b.z))
      return fault(
        'canal-order',
        [`level ${i + 1} does not lie beyond level ${i}.`, 'Trace from the joint outwards.'],
        i,
      );
    if (!((b.y - a.y) * towards > 0))
      return fault(
        'canal-walls-cross',
        [`the walls meet or cross at level ${i + 1}.`, 'Give the two walls in the same order at each level.'],
        i,
      );
    if (Math.abs(b.z - a.z) > Math.abs(b.y - a.y))
      return fault(
        'canal-level-oblique',
        [`level ${i + 1} runs along the bone, not across it.`, 'Mark both walls at one height.'],
        i,
      );
  }
  return null;
}

/** A wall at a height: straight between its points and, by the little that a level leans, beyond its ends. */
function wallAt(wall: readonly OnWall[], z: number): number {
  const after = wall.findIndex((p) => p.z >= z);
  const i = Math.min(Math.max(after < 0 ? wall.length - 1 : after, 1), wall.length - 1);
  const [p, q] = [wall[i - 1], wall[i]];
  return p && q ? p.y + ((z - p.z) / (q.z - p.z)) * (q.y - p.y) : (q?.y ?? 0);
}

function sectionsOf(pairs: readonly LevelPair[]): readonly CanalSection[] {
  const walls = [pairs.map((p) => p.a), pairs.map((p) => p.b)] as const;
  return pairs.map(({ a, b }) => {
    const zMm = (a.z + b.z) / 2;
    const [p, q] = [wallAt(walls[0], zMm), wallAt(walls[1], zMm)];
    return { zMm, lowMm: Math.min(p, q), highMm: Math.max(p, q) };
  });
}

function outerSections<F extends LimbFrame>(
  on: StemOnFilm<F>,
  levels: readonly CanalLevel[],
): readonly CanalSection[] | null {
  const pairs = levels.flatMap(({ outerA, outerB }) => (outerA && outerB ? [pairOf(on, outerA, outerB)] : []));
  return pairs.length === levels.length ? sectionsOf(pairs) : null;
}

/** Of several traces of one view: the one that reaches furthest out; within 10 mm of it the one with the least spread; then the first. */
export function bestTrace(traces: readonly CanalInView[]): CanalInView | null {
  const reach = (c: CanalInView) => c.sections.at(-1)?.zMm ?? 0;
  const furthest = Math.max(...traces.map(reach));
  const spread = (c: CanalInView) => Math.hypot(c.wallSdMm, 15 * c.scaleRelativeSd);
  return traces
    .filter((c) => reach(c) > furthest - 10)
    .reduce<CanalInView | null>((a, b) => (a === null || spread(b) < spread(a) - 1e-9 ? b : a), null);
}

/** Which of the two views of a stem a film shows; null = neither. */
export const stemViewOf = (view: string): StemView | null =>
  view === 'lateral' ? 'lateral' : view === 'ap' || view === 'long-leg' ? 'ap' : null;
