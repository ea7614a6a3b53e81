import type { PlaneOption } from '../bone/defect-on-film.ts';
import { FEMORAL_LINE, TRAY_LINE } from '../landmarks/bony-lines.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { NO_SCALE } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import type { Compartment } from '../landmarks/side.ts';
import { combine } from '../measure/combine.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Direction, normalOf } from '../plane/direction.ts';
import type { Line } from '../plane/line.ts';
import { between, dot, type Point, plus } from '../plane/point.ts';
import { CONDYLES, TRAY, toMedialContact, zero } from './bone-supports.ts';
import { type AxisOption, femoralAxes, type TargetTilt, tibialAxes, upOf } from './target-axes.ts';

type R = Reading<'coronal'>;

/** Facts of the present components that place their bone faces, mm; absent = not known. */
export interface BoneFaces {
  readonly femurDistalMm?: number;
  readonly femurPosteriorMm?: number;
  readonly trayThicknessMm?: number;
}

/**
 * Level of a resection plane on an AP film (PLAN-21), from the point where the axis meets the present component's line, along the normal
 * of the target joint line, **+ = into the bone**, in the frame's unit: the present component's bone face on the side where it stands
 * nearer the joint. A tilted component stands deeper on the other side; a saw that is square to the target first meets the higher one.
 */
export const faceLevel = {
  femur: (up: Direction<'coronal'>, r: R, thickness: number): Outcome<number> => {
    const half = between(r.at(CONDYLES[1]), r.at(CONDYLES[0]));
    return ok(thickness - Math.abs(dot(half, up)) / 2);
  },
  tibia: (up: Direction<'coronal'>, r: R, thickness: number): Outcome<number> => {
    const contact = toMedialContact(r);
    return contact.ok ? ok(thickness - Math.abs(dot(contact.value, up))) : contact;
  },
} as const;

interface BoneOnAp {
  readonly bone: 'femur' | 'tibia';
  readonly line: readonly [LandmarkId, LandmarkId];
  readonly marks: readonly LandmarkId[];
  readonly surfaces: readonly [LandmarkId, LandmarkId];
  readonly edges: Readonly<Record<Compartment, LandmarkId>>;
  readonly axes: (tilt: TargetTilt) => readonly AxisOption[];
}

const ON_AP: Readonly<Record<'femur' | 'tibia', BoneOnAp>> = {
  femur: {
    bone: 'femur',
    line: CONDYLES,
    marks: CONDYLES,
    surfaces: ['femoral-bone-distal-medial', 'femoral-bone-distal-lateral'],
    edges: { medial: 'femoral-bone-medial-edge', lateral: 'femoral-bone-lateral-edge' },
    axes: femoralAxes,
  },
  tibia: {
    bone: 'tibia',
    line: TRAY,
    marks: [...TRAY, ...CONDYLES],
    surfaces: ['tibial-bone-medial', 'tibial-bone-lateral'],
    edges: { medial: 'tibial-cortex-medial', lateral: 'tibial-cortex-lateral' },
    axes: tibialAxes,
  },
};

/** What asks for a plane on an AP film. */
export interface ApPlaneAsked {
  readonly bone: 'femur' | 'tibia';
  /** Side whose outer edge bounds the surface; null = none asked, as for a cavity. */
  readonly side: Compartment | null;
  readonly tilt: TargetTilt;
  readonly faces: BoneFaces;
  /** Whether a mark stands on the film. */
  readonly has: (id: LandmarkId) => boolean;
}

/**
 * Ways to find the resection plane of one bone on an AP film (PLAN-21), best first: square to the target along each axis that the
 * film may show, at the present component's bone face; where the component's thickness is not known, through the better of the two
 * bone marks; where the film shows no axis, along the component's own line.
 */
export function planesOnAp(asked: ApPlaneAsked): readonly PlaneOption<'coronal'>[] {
  const b = ON_AP[asked.bone];
  const along = b.axes(asked.tilt);
  const levels = [byFace(b, asked), ...byMarks(b, asked)].filter((l) => l !== null);
  return levels.flatMap((level) => [
    ...along.map((option) => planeAlong(b, asked, { level, option })),
    planeAlong(b, asked, { level, option: ownLine(b) }),
  ]);
}

interface Level {
  readonly name: string;
  readonly inputs: readonly LandmarkId[];
  /** From the zero of the bone's line into the bone, frame's unit. */
  readonly at: (up: Direction<'coronal'>, zeroAt: Point<'coronal'>, r: R) => Outcome<number>;
}

function byFace(b: BoneOnAp, { faces }: ApPlaneAsked): Level | null {
  const mm = b.bone === 'femur' ? faces.femurDistalMm : faces.trayThicknessMm;
  if (mm === undefined) return null;
  return {
    name: b.bone === 'femur' ? "femoral component's bone face" : "tray's bone face",
    inputs: b.marks,
    at: (up, _, r) => (r.mmPerUnit === null ? cannot(NO_SCALE) : faceLevel[b.bone](up, r, mm / r.mmPerUnit)),
  };
}

/** The better of the bone marks that stand on the film: nearer the joint. */
function byMarks(b: BoneOnAp, { has }: ApPlaneAsked): readonly Level[] {
  const marks = b.surfaces.filter(has);
  if (marks.length === 0) return [];
  const into = b.bone === 'femur' ? 1 : -1;
  return [
    {
      name: marks.length === 2 ? 'better of the two bone marks' : 'bone mark',
      inputs: [...b.marks, ...marks],
      at: (up, zeroAt, r) => ok(Math.min(...marks.map((id) => into * dot(between(zeroAt, r.at(id)), up)))),
    },
  ];
}

/** The component's own line where the film shows no axis: square to itself. */
const ownLine = (b: BoneOnAp): AxisOption => ({
  name: "along the component's own line, no axis on this film",
  views: [],
  inputs: b.marks,
  turnDeg: 0,
  axis: (r) => {
    const d = (b.bone === 'femur' ? FEMORAL_LINE : TRAY_LINE).direction(r);
    if (!d.ok) return d;
    const [m, l] = [r.at(b.line[0]), r.at(b.line[1])];
    return ok({ through: { frame: m.frame, x: (m.x + l.x) / 2, y: (m.y + l.y) / 2 }, along: normalOf(d.value) });
  },
});

function planeAlong(
  b: BoneOnAp,
  { side, has }: ApPlaneAsked,
  { level, option }: { readonly level: Level; readonly option: AxisOption },
): PlaneOption<'coronal'> {
  const edge = side && has(b.edges[side]) ? b.edges[side] : null;
  const into = b.bone === 'femur' ? 1 : -1;
  return {
    name: `${level.name}; ${option.name}`,
    inputs: [...new Set([...level.inputs, ...option.inputs, ...(edge ? [edge] : [])])],
    find: (r) => {
      const axis = option.axis(r);
      return combine(axis, axis.ok ? zero(axis.value, b.line, r) : axis, (a, zeroAt) => {
        const up = upOf(option, a);
        const depth = level.at(up, zeroAt, r);
        if (!depth.ok) return depth;
        const middle = plus(zeroAt, up, into * depth.value);
        return ok({ plane: edgeOn(middle, up, into), middle, edge: edge ? r.at(edge) : null });
      });
    },
  };
}

/** The plane seen edge-on through a point, its bone on the left. */
const edgeOn = (through: Point<'coronal'>, up: Direction<'coronal'>, into: 1 | -1): Line<'coronal'> => ({
  through,
  along: { frame: up.frame, x: into * up.y, y: -into * up.x },
});
