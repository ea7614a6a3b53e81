import type { DrawnLimb } from './anthropometry.ts';
import { CARTILAGE_MM, cortexInside, farthest } from './bone.ts';
import type { Replacement } from './faults.ts';
import { type FemoralComponent, femoralComponent } from './femoral-component.ts';
import { buildFemur, type Femur } from './femur.ts';
import { type Mesh, movedMesh, pointAt, pointCount, reshaped } from './mesh.ts';
import { block, plate, rod } from './solids.ts';
import {
  about,
  back,
  chained,
  ease,
  type Motion,
  type Point3,
  rad,
  shiftBy,
  turnCoronal,
  turnSagittal,
} from './space.ts';
import { template } from './template.ts';
import { buildTibia, type Tibia } from './tibia.ts';
import { type TibialComponent, tibialComponent } from './tibial-component.ts';

export type Segment = 'femur' | 'tibia' | 'patella';

/** What a solid adds to the ray: millimetres of cortical bone, of cobalt-chrome, of soft tissue for each mm of path. */
export interface Solid {
  readonly mesh: Mesh;
  readonly segment: Segment;
  readonly bone?: number;
  /** As `bone`, for what varies slowly and may be drawn on coarser pixels. */
  readonly spongy?: number;
  readonly metal?: number;
  readonly soft?: number;
}

export interface InPlace {
  readonly replacement: Replacement;
  readonly femur: FemoralComponent;
  /** Component to femur, tray to tibia. */
  readonly femurAt: Motion;
  readonly tray: TibialComponent;
  readonly trayAt: Motion;
  /** Remaining bone under the components: height over the native joint line by compartment. */
  readonly femurFloor: (x: number) => number;
  readonly tibiaCeiling: (x: number) => number;
  readonly posteriorFloorMm: number;
  readonly patellaCutMm: number;
}

/** One leg at rest, each bone in its own frame. */
export interface Leg {
  readonly limb: DrawnLimb;
  readonly femur: Femur;
  readonly tibia: Tibia;
  readonly patella: { readonly outer: Mesh; readonly scale: number };
  readonly inPlace: InPlace | null;
  readonly solids: readonly Solid[];
  /** Native: anterior cortex above the condyles to the posterior joint line, mm. */
  readonly anteriorCortexY: number;
  /** Native posterior joint line (cartilage), y in the femur's frame. */
  readonly posteriorLineY: number;
}

const MARROW = 0.05;
const share = (medial: number, lateral: number) => (x: number) => medial + (lateral - medial) * ease(-9, 9, x);

/** Presses every point that lies beyond a plane back onto it, so that the solid ends there: an exact cut of a closed mesh. */
const cutBy = (mesh: Mesh, through: Point3, away: Point3): Mesh =>
  reshaped(mesh, (p) => {
    const d = (p[0] - through[0]) * away[0] + (p[1] - through[1]) * away[1] + (p[2] - through[2]) * away[2];
    return d <= 0 ? p : [p[0] - d * away[0], p[1] - d * away[1], p[2] - d * away[2]];
  });

/**
 * Cancellous bone: the inside of the cortex between a joint and the shaft, thinning out over a distance. Drawn as
 * nested solids cut at even steps; `keep` says which side of each cut stays.
 */
function cancellous(inner: Mesh, from: number, to: number, keep: 'below' | 'above'): Solid[] {
  const steps = 9;
  const away = keep === 'below' ? 1 : -1;
  return Array.from({ length: steps }, (_, i) => {
    const z = from + ((to - from) * i) / (steps - 1);
    return { mesh: cutBy(inner, [0, 0, z], [0, 0, away]), segment: 'femur', spongy: 0.3 / steps } as const;
  });
}

function boneSolids(segment: Segment, outer: Mesh, inner: Mesh, spongy: readonly Solid[]): Solid[] {
  return [
    { mesh: outer, segment, bone: 1, soft: -1 },
    { mesh: inner, segment, bone: MARROW - 1, soft: 0.95 },
    ...spongy.map((s) => ({ ...s, segment })),
  ];
}

/** Bone of the femur as the saw left it and time has taken it: the box cuts of the component plus the losses. */
function cutFemur(mesh: Mesh, placed: { at: Motion; part: FemoralComponent; r: Replacement }): Mesh {
  const { at, part, r } = placed;
  const { distalZ, posteriorY, anteriorY } = part.cuts;
  const A = r.femurApMm;
  const loss = share(r.femoralLossMm.medial, r.femoralLossMm.lateral);
  const local = movedMesh(mesh, back(at));
  const flangeTop = 0.755 * A;
  let cut = reshaped(local, ([x, y, z]) => [x, y, Math.max(z, distalZ + loss(x))]);
  cut = reshaped(cut, ([x, y, z]) => [x, z < 0.75 * A ? Math.max(y, posteriorY + r.posteriorLossMm) : y, z]);
  cut = reshaped(cut, ([x, y, z]) => [x, z < flangeTop ? Math.min(y, anteriorY) : y, z]);
  const chamfer = 0.16 * A;
  const s = Math.SQRT1_2;
  cut = cutBy(cut, [0, posteriorY, distalZ + chamfer + 1], [0, -s, -s]);
  cut = cutBy(cut, [0, 0.83 * A, distalZ], [0, s, -s]);
  const notch = 0.13 * r.femurWidthMm;
  cut = reshaped(cut, ([x, y, z]) => [x, y, Math.abs(x) < notch && y < 0.75 * A ? Math.max(z, part.boxTopMm) : z]);
  return movedMesh(cut, at);
}

/** Bone of the tibia under the tray, with loss and lucent line. */
function cutTibia(mesh: Mesh, at: Motion, r: Replacement): Mesh {
  const local = movedMesh(mesh, back(at));
  const loss = share(r.tibialLossMm.medial + r.lucentMm, r.tibialLossMm.lateral + r.lucentMm);
  const cut = reshaped(local, ([x, y, z]) => {
    const rim = ease(0.36 * r.trayWidthMm, 0.5 * r.trayWidthMm, Math.abs(x));
    const ceiling = -r.trayThicknessMm - r.cementMm - loss(x) * (1 - 0.35 * rim);
    return [x, y, Math.min(z, ceiling)];
  });
  return movedMesh(cut, at);
}

/** What an old osteotomy left in the upper tibia, below the keel: two screws from lateral, or a staple over the lateral cortex. */
function hardware(r: Replacement): Mesh[] {
  if (r.hardware === 'screws')
    return [-66, -78].map((z) => {
      const line: Point3[] = [26, 23, 22.9, -15].map((x, i) => [x, 8, i === 3 ? z - 2 : z]);
      return rod(line, [4, 4, 2.2, 2.2], 16);
    });
  if (r.hardware === 'staple')
    return [
      block([26, 10, -78], [29, 14, -58]),
      block([10, 10, -61], [26, 14, -58]),
      block([10, 10, -78], [26, 14, -75]),
    ];
  return [];
}

/** Puts the components of a replacement into the two bones. */
function putIn(
  limb: DrawnLimb,
  _femur: Femur,
  replacement: Replacement,
  lines: { front: number; posterior: number },
): InPlace {
  // A flexed component tips its flange forward; it is chosen so that the flange still lies on the cortex.
  const room = lines.front - lines.posterior - replacement.forwardMm;
  const femurApMm = room / (1 + 0.6 * Math.tan(rad(replacement.femurFlexionDeg)));
  const r: Replacement = { ...replacement, femurApMm };
  const part = femoralComponent({
    widthMm: r.femurWidthMm,
    apMm: femurApMm,
    distalMm: r.femurDistalMm,
    posteriorMm: r.femurPosteriorMm,
  });
  // Tilted about the middle of the condyles' height, so that the middle of the metal stays on the mechanical axis.
  const centre: Point3 = [0, 0.37 * femurApMm, 6];
  const seat = shiftBy([0, lines.posterior + r.forwardMm, r.raisedMm]);
  // mLDFA 90 - tilt: lateral side higher for a smaller angle; turnCoronal(+) lowers the lateral side's distal end to lateral.
  const tilt = chained(turnSagittal(r.femurFlexionDeg), turnCoronal(90 - r.femurAngleDeg));
  const femurAt = chained(about(centre, tilt), seat);
  const tray = tibialComponent(
    { widthMm: r.trayWidthMm, apMm: r.trayApMm, thicknessMm: r.trayThicknessMm, keelMm: r.keelMm },
    r.insertMm,
    r.cementMm,
  );
  const trayTilt = chained(turnSagittal(-r.traySlopeDeg), turnCoronal(r.trayVarusDeg));
  const trayAt = chained(trayTilt, shiftBy([0, 5 * (limb.tibiaApMm / 52), -r.trayDepthMm]));
  const slopeX = Math.tan(rad(90 - r.femurAngleDeg));
  const loss = share(r.femoralLossMm.medial, r.femoralLossMm.lateral);
  const tibialLoss = share(r.tibialLossMm.medial + r.lucentMm, r.tibialLossMm.lateral + r.lucentMm);
  const traySlopeX = Math.tan(rad(r.trayVarusDeg));
  return {
    replacement: r,
    femur: part,
    femurAt,
    tray,
    trayAt,
    femurFloor: (x) => r.raisedMm + slopeX * x + r.femurDistalMm + loss(x),
    tibiaCeiling: (x) => -r.trayDepthMm + traySlopeX * x - r.trayThicknessMm - r.cementMm - tibialLoss(x),
    posteriorFloorMm: r.forwardMm + r.femurPosteriorMm + r.posteriorLossMm,
    patellaCutMm: -3.5,
  };
}

/** Front of the femur just over the trochlea, where a flange lies. */
const frontCortex = (femur: Femur): number => {
  let y = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < pointCount(femur.outer); i++) {
    const p = pointAt(femur.outer, i);
    if (p[2] > 46 && p[2] < 62) y = Math.max(y, p[1]);
  }
  return y;
};

function patellaSolids(outer: Mesh, inPlace: InPlace | null, scale: number): Solid[] {
  const inner = cortexInside(outer, {
    from: 1e4,
    to: 2e4,
    shellMm: 1.2,
    diameter: [
      [0, 1],
      [1, 1],
    ],
  });
  if (!inPlace) return boneSolids('patella', outer, inner, [{ mesh: inner, segment: 'patella', spongy: 0.28 }]);
  const cut = (m: Mesh) => cutBy(m, [0, inPlace.patellaCutMm, 0], [0, -1, 0]);
  const disc = (r: number, y0: number, y1: number): Mesh =>
    movedMesh(
      plate(
        Array.from(
          { length: 40 },
          (_, k) => [r * Math.cos((Math.PI * k) / 20), r * Math.sin((Math.PI * k) / 20)] as const,
        ),
        y0,
        y1,
      ),
      { m: [1, 0, 0, 0, 0, 1, 0, 1, 0], shift: [0, 0, 0] },
    );
  const c = inPlace.patellaCutMm;
  return [
    ...boneSolids('patella', cut(outer), cut(inner), [{ mesh: cut(inner), segment: 'patella', spongy: 0.28 }]),
    { mesh: disc(16.5 * scale, c - 1, c), segment: 'patella', bone: 0.7 },
    { mesh: disc(16.5 * scale, c - 9, c - 1), segment: 'patella', soft: -0.1 },
  ];
}

/** Builds one leg from what was drawn; `replacement` null = native. */
export function buildLeg(limb: DrawnLimb, replacement: Replacement | null): Leg {
  const femur = buildFemur(limb);
  const tibia = buildTibia(limb);
  const posteriorLineY = Math.min(femur.at.medialPosterior[1], femur.at.lateralPosterior[1]) - CARTILAGE_MM;
  const anteriorCortexY = frontCortex(femur);
  const inPlace = replacement
    ? putIn(limb, femur, replacement, { front: anteriorCortexY, posterior: posteriorLineY })
    : null;
  const cutF = (m: Mesh) =>
    inPlace ? cutFemur(m, { at: inPlace.femurAt, part: inPlace.femur, r: inPlace.replacement }) : m;
  const cutT = (m: Mesh) => (inPlace ? cutTibia(m, inPlace.trayAt, inPlace.replacement) : m);
  const scale = limb.patellaLengthMm / 46.4;
  const patella = reshaped(template('patella'), ([x, y, z]) => [x * scale, y * scale, z * scale]);
  const fIn = cutF(femur.inner);
  const tIn = cutT(tibia.inner);
  const L = limb.femurMm;
  const t = limb.tibiaMm;
  const solids: Solid[] = [
    ...boneSolids('femur', cutF(femur.outer), fIn, [
      ...cancellous(fIn, 30, 100, 'below'),
      ...cancellous(femur.inner, L - 105, L - 15, 'above'),
    ]),
    ...boneSolids('tibia', cutT(tibia.outer), tIn, [
      ...cancellous(tIn, -85, -22, 'above'),
      ...cancellous(tibia.inner, -t + 70, -t + 25, 'below'),
    ]),
    ...boneSolids('tibia', tibia.fibula.outer, tibia.fibula.inner, []),
    ...boneSolids('tibia', tibia.talus.outer, tibia.talus.inner, [
      { mesh: tibia.talus.inner, segment: 'tibia', spongy: 0.27 },
    ]),
    ...patellaSolids(patella, inPlace, scale),
  ];
  if (inPlace) {
    const { femurAt, trayAt, tray, femur: comp, replacement: r } = inPlace;
    solids.push(
      ...comp.metal.map((m) => ({ mesh: movedMesh(m, femurAt), segment: 'femur', metal: 1 }) as const),
      ...tray.metal.map((m) => ({ mesh: movedMesh(m, trayAt), segment: 'tibia', metal: 0.5 }) as const),
      ...tray.insert.map((m) => ({ mesh: movedMesh(m, trayAt), segment: 'tibia', soft: -0.12 }) as const),
      ...tray.cement.map((m) => ({ mesh: movedMesh(m, trayAt), segment: 'tibia', bone: 0.55 }) as const),
      ...hardware(r).map((m) => ({ mesh: m, segment: 'tibia', metal: 0.8 }) as const),
    );
  }
  return { limb, femur, tibia, patella: { outer: patella, scale }, inPlace, solids, anteriorCortexY, posteriorLineY };
}

/** Lowest points of the two native or metal condyles in a direction, femur's frame. */
export function condyleMeshes(leg: Leg): { readonly medial: Mesh; readonly lateral: Mesh } {
  const { inPlace } = leg;
  if (inPlace)
    return {
      medial: movedMesh(inPlace.femur.condyles.medial, inPlace.femurAt),
      lateral: movedMesh(inPlace.femur.condyles.lateral, inPlace.femurAt),
    };
  const keep = (side: 1 | -1): Mesh => {
    const points: number[] = [];
    for (let i = 0; i < pointCount(leg.femur.outer); i++) {
      const p = pointAt(leg.femur.outer, i);
      if (p[0] * side > 8 && p[2] < 45) points.push(...p);
    }
    return { points: Float64Array.from(points), triangles: new Uint32Array(0) };
  };
  return { medial: keep(-1), lateral: keep(1) };
}

export const lowest = (mesh: Mesh, down: Point3): Point3 => farthest(mesh, down);
