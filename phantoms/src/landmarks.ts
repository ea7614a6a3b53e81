import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import { type Pixel, projected } from './beam.ts';
import { shaftMiddle } from './bone.ts';
import { condyleMeshes, type Segment } from './leg.ts';
import { type Mesh, movedMesh, pointAt } from './mesh.ts';
import { commonTangent, crossings, direction, extreme, shadow } from './outline.ts';
import type { Scene, Standing } from './scene.ts';
import { add, cross, length, minus, moved, type Point3, times, unit } from './space.ts';

/** A named point as it truly is: on the film, and where it has one place in space, in the room (mm). */
export interface TrueMark {
  readonly landmark: LandmarkId;
  readonly side: Side;
  readonly points: readonly Pixel[];
  readonly mm: Point3 | null;
}

/** Pixels on the outline of a sphere's shadow, evenly about it. */
export function sphereOutline(scene: Scene, centre: Point3, radius: number, count = 8): Pixel[] {
  const { source } = scene.beam;
  const axis = minus(source, centre);
  const d = length(axis);
  const n = unit(axis);
  const u = unit(cross(n, Math.abs(n[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const v = cross(n, u);
  // The rays that graze the sphere touch it on a circle a little nearer to the source than its middle.
  const middle = add(centre, times(n, (radius * radius) / d));
  const r = radius * Math.sqrt(1 - (radius / d) ** 2);
  return Array.from({ length: count }, (_, k) => {
    const a = (2 * Math.PI * (k + 0.25)) / count;
    return projected(scene.beam, add(middle, add(times(u, r * Math.cos(a)), times(v, r * Math.sin(a)))));
  });
}

/** Collects the marks of one leg on one film. */
class Finder {
  readonly found: TrueMark[] = [];
  readonly scene: Scene;
  readonly s: Standing;

  constructor(scene: Scene, s: Standing) {
    this.scene = scene;
    this.s = s;
  }

  room(segment: Segment, p: Point3): Point3 {
    return moved(this.s.pose[segment], p);
  }

  pixel(segment: Segment, p: Point3): Pixel {
    return projected(this.scene.beam, this.room(segment, p));
  }

  mesh(segment: Segment, m: Mesh): Mesh {
    return movedMesh(m, this.s.pose[segment]);
  }

  onFilm(p: Pixel): boolean {
    const { columns, rows } = this.scene.beam;
    const edge = 0.014 * Math.min(columns, rows);
    return p.x >= edge && p.y >= edge && p.x < columns - edge && p.y < rows - edge;
  }

  put(landmark: LandmarkId, points: readonly Pixel[], mm: Point3 | null): void {
    if (points.every((p) => this.onFilm(p))) this.found.push({ landmark, side: this.s.side, points, mm });
  }

  /** A point carried by a bone. */
  carried(landmark: LandmarkId, segment: Segment, p: Point3): void {
    this.put(landmark, [this.pixel(segment, p)], this.room(segment, p));
  }

  /** Both sides of a shaft's outline, across its axis at a height of the bone's own frame. */
  cortices(
    names: readonly [LandmarkId, LandmarkId],
    segment: 'femur' | 'tibia',
    z: number,
    front: 'lateral' | 'anterior',
  ): boolean {
    const { leg } = this.s;
    const bone = leg[segment].outer;
    const far = segment === 'femur' ? leg.limb.femurMm : -leg.limb.tibiaMm;
    const middle = shaftMiddle(bone, Math.min(far, 0) + 20, Math.max(far, 0) - 20);
    const at = (h: number): Point3 => [...middle(h), h] as unknown as Point3;
    const origin = this.pixel(segment, at(z));
    const axis = direction(this.pixel(segment, at(z - 25)), this.pixel(segment, at(z + 25)));
    const ahead = this.pixel(segment, add(at(z), front === 'lateral' ? [20, 0, 0] : [0, 20, 0]));
    const across = { x: -axis.y, y: axis.x };
    const sign = (ahead.x - origin.x) * across.x + (ahead.y - origin.y) * across.y < 0 ? -1 : 1;
    const d = { x: sign * across.x, y: sign * across.y };
    const ends = crossings(this.scene.beam, this.mesh(segment, bone), origin, d);
    if (!ends?.every((p) => this.onFilm(p))) return false;
    this.put(names[0], [ends[0]], null);
    this.put(names[1], [ends[1]], null);
    return true;
  }

  /** Both edges of a bone's outline straight across from a point. */
  edges(names: readonly [LandmarkId, LandmarkId], segment: 'femur' | 'tibia', bone: Mesh, at: Point3): void {
    const origin = this.pixel(segment, at);
    const d = direction(this.pixel(segment, add(at, [-20, 0, 0])), this.pixel(segment, add(at, [20, 0, 0])));
    const ends = crossings(this.scene.beam, this.mesh(segment, bone), origin, d);
    if (!ends) return;
    this.put(names[0], [ends[0]], null);
    this.put(names[1], [ends[1]], null);
  }

  /** The first of several heights at which the shaft's two cortices lie on the film. */
  cortexAtFirst(
    names: readonly [LandmarkId, LandmarkId],
    segment: 'femur' | 'tibia',
    heights: readonly number[],
    front: 'lateral' | 'anterior',
  ): void {
    for (const z of heights) if (this.cortices(names, segment, z, front)) return;
  }
}

const steps = (from: number, to: number, by: number): number[] =>
  Array.from({ length: Math.floor(Math.abs(to - from) / by) + 1 }, (_, i) => from + Math.sign(to - from) * by * i);

function frontFemur(f: Finder): void {
  const { leg } = f.s;
  const { at, headRadiusMm } = leg.femur;
  const head = f.room('femur', at.headCentre);
  if (f.scene.view === 'long-leg') f.put('femoral-head', sphereOutline(f.scene, head, headRadiusMm), head);
  const L = leg.limb.femurMm;
  const levels = f.scene.view === 'long-leg' ? [L / 2] : steps(L / 2, 125, 5);
  f.cortexAtFirst(['femoral-shaft-proximal-medial', 'femoral-shaft-proximal-lateral'], 'femur', levels, 'lateral');
  f.cortexAtFirst(['femoral-shaft-distal-medial', 'femoral-shaft-distal-lateral'], 'femur', [100], 'lateral');
  const kept = (p: Point3) => !leg.inPlace || p[2] > leg.inPlace.femurFloor(p[0]) + 2;
  const points = [
    ['medial-epicondyle', at.medialEpicondyle],
    ['medial-epicondyle-sulcus', at.medialEpicondyleSulcus],
    ['lateral-epicondyle', at.lateralEpicondyle],
    ['adductor-tubercle', at.adductorTubercle],
  ] as const;
  for (const [name, p] of points) if (kept(p)) f.carried(name, 'femur', p);
  const down = direction(f.pixel('femur', [0, 0, 40]), f.pixel('femur', [0, 0, 0]));
  const condyles = condyleMeshes(leg);
  const medial = shadow(f.scene.beam, f.mesh('femur', condyles.medial));
  const lateral = shadow(f.scene.beam, f.mesh('femur', condyles.lateral));
  const [m, l] = commonTangent(medial, lateral, down);
  f.put('medial-condyle-distal', [m], null);
  f.put('lateral-condyle-distal', [l], null);
  if (leg.inPlace) frontFemoralComponent(f, leg.inPlace, { medial, lateral, tangent: direction(m, l), on: m });
  else {
    f.carried('femoral-notch', 'femur', at.notch);
    f.edges(['femoral-bone-medial-edge', 'femoral-bone-lateral-edge'], 'femur', leg.femur.outer, [0, -10, 11]);
  }
}

function frontFemoralComponent(
  f: Finder,
  inPlace: NonNullable<Standing['leg']['inPlace']>,
  seen: { medial: Pixel[]; lateral: Pixel[]; tangent: Pixel; on: Pixel },
): void {
  const { replacement: r, femur: part, femurAt } = inPlace;
  const { tangent, on } = seen;
  const inFemur = (p: Point3) => moved(femurAt, p);
  const mmPerPx = f.scene.beam.spacingMm;
  const normal = { x: -tangent.y, y: tangent.x };
  const near = (p: Pixel) => Math.abs((p.x - on.x) * normal.x + (p.y - on.y) * normal.y) * mmPerPx < 8;
  f.put('femoral-component-medial-edge', [extreme(seen.medial, { x: -tangent.x, y: -tangent.y }, near)], null);
  f.put('femoral-component-lateral-edge', [extreme(seen.lateral, tangent, near)], null);
  f.carried('femoral-notch', 'femur', inFemur([0, 0.5 * r.femurApMm, part.boxTopMm]));
  const x = part.condyleMiddleMm;
  const { medial, lateral } = r.femoralLossMm;
  f.carried('femoral-bone-distal-medial', 'femur', inFemur([-x, 0.5 * r.femurApMm, r.femurDistalMm + medial]));
  f.carried('femoral-bone-distal-lateral', 'femur', inFemur([x, 0.5 * r.femurApMm, r.femurDistalMm + lateral]));
  const level = r.femurDistalMm + Math.max(medial, lateral) + 2;
  const origin = f.pixel('femur', inFemur([0, 0.5 * r.femurApMm, level]));
  const bone = f.s.leg.solids[0]!.mesh;
  const ends = crossings(f.scene.beam, f.mesh('femur', bone), origin, tangent);
  if (!ends) return;
  f.put('femoral-bone-medial-edge', [ends[0]], null);
  f.put('femoral-bone-lateral-edge', [ends[1]], null);
}

function frontTibia(f: Finder): void {
  const { leg } = f.s;
  const { at } = leg.tibia;
  const t = leg.limb.tibiaMm;
  f.carried('fibular-tip', 'tibia', at.fibularTip);
  f.cortexAtFirst(['tibial-shaft-proximal-medial', 'tibial-shaft-proximal-lateral'], 'tibia', [-100], 'lateral');
  const levels = f.scene.view === 'long-leg' ? [-0.72 * t] : steps(-0.72 * t, -115, 5);
  f.cortexAtFirst(['tibial-shaft-distal-medial', 'tibial-shaft-distal-lateral'], 'tibia', levels, 'lateral');
  if (f.scene.view === 'long-leg') {
    f.carried('talus-medial', 'tibia', at.talusMedial);
    f.carried('talus-lateral', 'tibia', at.talusLateral);
  }
  if (!leg.inPlace) {
    f.carried('tibial-spines', 'tibia', at.spines);
    f.carried('medial-plateau', 'tibia', at.medialPlateau);
    f.carried('lateral-plateau', 'tibia', at.lateralPlateau);
    f.edges(['tibial-cortex-medial', 'tibial-cortex-lateral'], 'tibia', leg.tibia.outer, [0, 4, -10]);
    return;
  }
  const { replacement: r, trayAt } = leg.inPlace;
  const inTibia = (p: Point3) => moved(trayAt, p);
  const W = r.trayWidthMm;
  f.carried('tray-medial-edge', 'tibia', inTibia([-W / 2, 0, 0]));
  f.carried('tray-lateral-edge', 'tibia', inTibia([W / 2, 0, 0]));
  const under = (loss: number) => -r.trayThicknessMm - r.cementMm - r.lucentMm - loss;
  f.carried('tibial-bone-medial', 'tibia', inTibia([-0.25 * W, 0, under(r.tibialLossMm.medial)]));
  f.carried('tibial-bone-lateral', 'tibia', inTibia([0.25 * W, 0, under(r.tibialLossMm.lateral)]));
  const level = under(0.65 * Math.max(r.tibialLossMm.medial, r.tibialLossMm.lateral)) - 2.5;
  const d = direction(f.pixel('tibia', inTibia([-W / 2, 0, 0])), f.pixel('tibia', inTibia([W / 2, 0, 0])));
  const bone = leg.solids.find((s) => s.segment === 'tibia')!.mesh;
  const ends = crossings(f.scene.beam, f.mesh('tibia', bone), f.pixel('tibia', inTibia([0, 0, level])), d);
  if (!ends) return;
  f.put('tibial-cortex-medial', [ends[0]], null);
  f.put('tibial-cortex-lateral', [ends[1]], null);
}

/** Straight back from the femoral shaft: across its posterior cortex where two points of it are on the film. */
function behindShaft(f: Finder): Pixel {
  const rough = direction(f.pixel('femur', [0, 20, 20]), f.pixel('femur', [0, -20, 20]));
  const one = (id: LandmarkId) => f.found.find((m) => m.landmark === id)?.points[0];
  const [low, high] = [one('femoral-sagittal-distal-posterior'), one('femoral-sagittal-proximal-posterior')];
  if (!low || !high) return rough;
  const d = direction(low, high);
  const across = { x: -d.y, y: d.x };
  return across.x * rough.x + across.y * rough.y > 0 ? across : { x: d.y, y: -d.x };
}

function sideMarks(f: Finder): void {
  const { leg } = f.s;
  const { at } = leg.tibia;
  const k = leg.patella.scale;
  f.carried('patella-superior-pole', 'patella', [0.85 * k, -1.69 * k, 21.81 * k]);
  f.carried('patella-inferior-pole', 'patella', [3.19 * k, -4.31 * k, -24.57 * k]);
  const c = leg.inPlace?.patellaCutMm;
  f.carried('patella-articular-superior', 'patella', c === undefined ? [0, -7.6 * k, 15 * k] : [0, c, 16.5 * k]);
  f.carried('patella-articular-inferior', 'patella', c === undefined ? [0, -11 * k, -15.5 * k] : [0, c, -16.5 * k]);
  f.carried('tibial-tubercle', 'tibia', at.tubercle);
  const _L = leg.limb.femurMm;
  f.cortexAtFirst(
    ['tibial-sagittal-proximal-posterior', 'tibial-sagittal-proximal-anterior'],
    'tibia',
    [-50],
    'anterior',
  );
  f.cortexAtFirst(
    ['tibial-sagittal-distal-posterior', 'tibial-sagittal-distal-anterior'],
    'tibia',
    steps(-150, -85, 5),
    'anterior',
  );
  f.cortexAtFirst(
    ['femoral-sagittal-proximal-posterior', 'femoral-sagittal-proximal-anterior'],
    'femur',
    steps(170, 105, 5),
    'anterior',
  );
  f.cortexAtFirst(['femoral-sagittal-distal-posterior', 'femoral-sagittal-distal-anterior'], 'femur', [72], 'anterior');
  const backwards = behindShaft(f);
  const condyles = condyleMeshes(leg);
  const both = [condyles.medial, condyles.lateral].flatMap((m) => shadow(f.scene.beam, f.mesh('femur', m)));
  f.put('posterior-condyle', [extreme(both, backwards)], null);
  const reach = (p: Pixel) => p.x * backwards.x + p.y * backwards.y;
  const hindmost = [condyles.medial, condyles.lateral].map((m) =>
    extreme(shadow(f.scene.beam, f.mesh('femur', m)), backwards),
  );
  f.put('posterior-condyle-other', [hindmost.reduce((a, b) => (reach(b) < reach(a) ? b : a))], null);
  if (!leg.inPlace) {
    f.carried('plateau-anterior', 'tibia', at.plateauFront);
    f.carried('plateau-posterior', 'tibia', at.plateauBack);
    return;
  }
  const { replacement: r, trayAt, femur: part, femurAt } = leg.inPlace;
  f.carried('plateau-anterior', 'tibia', moved(trayAt, [0, r.trayApMm / 2, 0]));
  f.carried('plateau-posterior', 'tibia', moved(trayAt, [0.2 * r.trayWidthMm, -r.trayApMm / 2, 0]));
  f.carried('femoral-component-distal-anterior', 'femur', moved(femurAt, part.innerDistal.front));
  f.carried('femoral-component-distal-posterior', 'femur', moved(femurAt, part.innerDistal.back));
  const y = r.femurPosteriorMm + r.posteriorLossMm;
  f.carried('femoral-bone-posterior', 'femur', moved(femurAt, [part.condyleMiddleMm, y, 0.37 * r.femurApMm]));
  f.carried('femoral-flange', 'femur', moved(femurAt, [0, r.femurApMm + 0.3, 0.55 * r.femurApMm]));
  sideEdges(f, leg.inPlace);
}

/** Front and back of the tibia just below the tray, along the tray. */
function sideEdges(f: Finder, { replacement: r, trayAt }: NonNullable<Standing['leg']['inPlace']>): void {
  const inTibia = (p: Point3) => f.pixel('tibia', moved(trayAt, p));
  const deepest = 0.65 * Math.max(r.tibialLossMm.medial, r.tibialLossMm.lateral);
  const level = -r.trayThicknessMm - r.cementMm - r.lucentMm - deepest - 2.5;
  const forward = direction(inTibia([0, -r.trayApMm / 2, 0]), inTibia([0, r.trayApMm / 2, 0]));
  const bone = f.s.leg.solids.find((s) => s.segment === 'tibia')!.mesh;
  const ends = crossings(f.scene.beam, f.mesh('tibia', bone), inTibia([0, 0, level]), forward);
  if (!ends) return;
  f.put('tibial-edge-posterior', [ends[0]], null);
  f.put('tibial-edge-anterior', [ends[1]], null);
}

/** Skyline: fronts of both condyles by their common tangent, the groove between, and the patella's back line and front. */
function skylineMarks(f: Finder): void {
  const { leg } = f.s;
  const back = (at: Point3) => f.pixel('patella', at);
  const up = direction(back([0, -5, 0]), back([0, 5, 0]));
  const lateral = direction(back([-15, 0, 0]), back([15, 0, 0]));
  const condyles = condyleMeshes(leg);
  const [m, l] = [condyles.medial, condyles.lateral].map((c) => shadow(f.scene.beam, f.mesh('femur', c))) as [
    Pixel[],
    Pixel[],
  ];
  const [medial, onLateral] = commonTangent(m, l, up);
  f.put('skyline-condyle-medial', [medial], null);
  f.put('skyline-condyle-lateral', [onLateral], null);
  const groove = leg.inPlace ? movedMesh(leg.inPlace.femur.metal[2]!, leg.inPlace.femurAt) : leg.femur.outer;
  f.put('skyline-groove', [deepestBetween(f, groove, { medial, lateral: onLateral, up })], null);
  const patella = leg.solids.find((s) => s.segment === 'patella')!.mesh;
  const outline = shadow(f.scene.beam, f.mesh('patella', patella));
  // The cut lies in one plane of the patella; a native one is widest a little in front of its articular surface.
  const c = leg.inPlace?.patellaCutMm;
  const rim = c === undefined ? outline : onPlane(f, patella, c);
  f.put('patella-back-medial', [extreme(rim, { x: -lateral.x, y: -lateral.y })], null);
  f.put('patella-back-lateral', [extreme(rim, lateral)], null);
  f.put('patella-front', [extreme(outline, up)], null);
}

/** Where the rim of a cut at y = c of the patella's own frame crosses the middle of its height, on the film. */
function onPlane(f: Finder, mesh: Mesh, c: number): Pixel[] {
  const found: Pixel[] = [];
  const { triangles: t } = mesh;
  for (let k = 0; k < t.length; k++) {
    const a = pointAt(mesh, t[k]!);
    const b = pointAt(mesh, t[k % 3 === 2 ? k - 2 : k + 1]!);
    const onCut = Math.abs(a[1] - c) < 0.05 && Math.abs(b[1] - c) < 0.05;
    if (onCut && a[2] < 0 !== b[2] < 0)
      found.push(f.pixel('patella', add(a, times(minus(b, a), a[2] / (a[2] - b[2])))));
  }
  return found;
}

/** Of the columns between two condyles, the one whose uppermost metal or bone lies lowest. */
function deepestBetween(f: Finder, mesh: Mesh, on: { medial: Pixel; lateral: Pixel; up: Pixel }): Pixel {
  const points = shadow(f.scene.beam, f.mesh('femur', mesh));
  const d = direction(on.medial, on.lateral);
  const length = (on.lateral.x - on.medial.x) * d.x + (on.lateral.y - on.medial.y) * d.y;
  const at = (p: Pixel) => ((p.x - on.medial.x) * d.x + (p.y - on.medial.y) * d.y) / length;
  const height = (p: Pixel) => p.x * on.up.x + p.y * on.up.y;
  const strips = Array.from({ length: 20 }, (_, i) => {
    const inStrip = points.filter((p) => at(p) >= 0.2 + 0.03 * i && at(p) < 0.23 + 0.03 * i);
    return inStrip.length > 0 ? [extreme(inStrip, on.up)] : [];
  }).flat();
  return strips.reduce((a, b) => (height(b) < height(a) ? b : a));
}

/** Every named point that a film shows, as it truly lies: carried by the bone, or found on the projected outline. */
export function trueMarks(scene: Scene): TrueMark[] {
  const all = scene.legs.flatMap((s) => {
    const f = new Finder(scene, s);
    if (scene.view === 'lateral') sideMarks(f);
    else if (scene.view === 'skyline') skylineMarks(f);
    else {
      frontFemur(f);
      frontTibia(f);
    }
    return f.found;
  });
  if (!scene.ball) return all;
  const near = scene.legs.find((s) => s.leg.inPlace) ?? scene.legs[0]!;
  const f = new Finder(scene, near);
  f.put('calibration-ball', sphereOutline(scene, scene.ball.centre, scene.ball.radiusMm), scene.ball.centre);
  return [...all, ...f.found];
}
