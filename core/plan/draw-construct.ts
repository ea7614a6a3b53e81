import type { Outlines } from '../catalogue/catalogue.ts';
import type { Construct } from '../gaps/construct.ts';
import type { PartsOfConstruct } from '../gaps/parts-of.ts';
import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import { toRad } from '../measure/angle.ts';
import { type BoneOnFilm, spot } from './bones-on-film.ts';
import { layer } from './draw-knee.ts';
import type { DrawnLayer } from './plan.ts';

/** A bone with the place of its component on it: where x = 0 lies across, and where the target joint line lies, mm. */
export interface Seat<F extends LimbFrame> {
  readonly bone: BoneOnFilm<F>;
  /** Middle of the bone (AP), target posterior line (femur, lateral) or middle of the tray (tibia, lateral). */
  readonly acrossMm: number;
  /** Height of the target joint line over the present one. */
  readonly targetMm: number;
}

type XY = readonly [number, number];

/** A shape in mm of the seat (x across, y over the target joint line), turned and moved, as one layer. */
const shape = <F extends LimbFrame>(
  { bone, acrossMm, targetMm }: Seat<F>,
  head: { readonly kind: DrawnLayer['kind']; readonly id: string; readonly label: string },
  points: readonly XY[],
): DrawnLayer =>
  layer(
    bone.film,
    { ...head, belongs: 'plan', closed: true },
    points.map(([x, y]) => spot(bone, acrossMm + x, targetMm + y)),
  );

const box = (left: number, right: number, [low, high]: XY): readonly XY[] => [
  [left, low],
  [right, low],
  [right, high],
  [left, high],
];

const moved = (points: readonly XY[], [dx, dy]: XY): readonly XY[] => points.map(([x, y]) => [x + dx, y + dy]);

const turnedBy = (points: readonly XY[], deg: number): readonly XY[] => {
  const [c, s] = [Math.cos(toRad(deg)), Math.sin(toRad(deg))];
  return points.map(([x, y]) => [x * c - y * s, x * s + y * c]);
};

const outline = <F extends LimbFrame>(
  seat: Seat<F>,
  [ref, name]: readonly [string, string],
  lines: readonly (readonly XY[])[],
) => lines.map((line, i) => shape(seat, { kind: 'component', id: i === 0 ? ref : `${ref}:${i}`, label: name }, line));

/** The catalogue's outlines, or a plain box where it has none. */
const orBox = (lines: readonly (readonly XY[])[], plain: readonly XY[]): readonly (readonly XY[])[] =>
  lines.length > 0 ? lines : [plain];

/** Height of a femur drawn as a box: a segment's length, else a share of its depth. */
const boxHeight = ({ femur, femoralSegment }: PartsOfConstruct): number =>
  femoralSegment ? femur.distalMm : 0.45 * femur.apMm;

const SIDES = ['medial', 'lateral'] as const;

/** Femoral component, augments and stem on an AP film; J from the construct. */
export function femurOnAp(seat: Seat<'coronal'>, construct: Construct, parts: PartsOfConstruct): DrawnLayer[] {
  const { femur, distal, femoralStem: stem, femoralOffset: coupler } = parts;
  const j = construct.femurProximalMm;
  const layers = outline(
    seat,
    [femur.ref, femur.name],
    orBox(femur.outlines.coronal, box(-femur.widthMm / 2, femur.widthMm / 2, [0, boxHeight(parts)])).map((l) =>
      moved(l, [0, j]),
    ),
  );
  for (const side of SIDES) {
    const augment = distal[side];
    if (!augment) continue;
    const [inner, outer] = [femur.boxWidthMm / 2, femur.widthMm / 2];
    const [left, right] = side === 'medial' ? [-outer, -inner] : [inner, outer];
    const heights: XY = [j + femur.distalMm, j + femur.distalMm + augment.thicknessMm];
    const head = { kind: 'augment', id: `${augment.ref}:${side}`, label: `${augment.name}, ${side}` } as const;
    layers.push(shape(seat, head, box(left, right, heights)));
  }
  if (stem) {
    const from = femur.boxDepthMm;
    const rod = box(-stem.diameterMm / 2, stem.diameterMm / 2, [0, stem.lengthMm + (coupler?.addedLengthMm ?? 0)]);
    // Proximally the stem leans laterally by its valgus: clockwise with x lateral, y proximal.
    const leaning = moved(turnedBy(rod, -femur.stemValgusDeg), [0, j + from]);
    layers.push(shape(seat, { kind: 'stem', id: `${stem.ref}:femur`, label: stem.name }, leaning));
  }
  return layers;
}

/** Tray, blocks, insert and stem on an AP film; U from the construct. */
export function tibiaOnAp(seat: Seat<'coronal'>, construct: Construct, parts: PartsOfConstruct): DrawnLayer[] {
  const { tray, blocks } = parts;
  const u = construct.trayMm;
  const layers = [...trayAndInsert(seat, u, { parts, view: 'coronal', widthMm: tray.widthMm })];
  for (const side of SIDES) {
    const block = blocks[side];
    if (!block) continue;
    const [left, right] = side === 'medial' ? [-tray.widthMm / 2, -4] : [4, tray.widthMm / 2];
    const head = { kind: 'augment', id: `${block.ref}:${side}`, label: `${block.name}, ${side}` } as const;
    layers.push(shape(seat, head, box(left, right, [u - block.thicknessMm, u])));
  }
  return [...layers, ...tibialStem(seat, u, parts)];
}

/** Femoral component, augments and stem on a lateral film; J and q from the construct, the stem in the middle of the shaft. */
export function femurOnSide(
  seat: Seat<'sagittal'>,
  construct: Construct,
  { parts, shaftMiddleMm }: { readonly parts: PartsOfConstruct; readonly shaftMiddleMm: number },
): DrawnLayer[] {
  const { femur, distal, posterior, femoralStem: stem, femoralOffset: coupler } = parts;
  const [q, j] = [construct.femurAnteriorMm, construct.femurProximalMm];
  const layers = outline(
    seat,
    [femur.ref, femur.name],
    orBox(femur.outlines.sagittal, box(0, femur.apMm, [0, boxHeight(parts)])).map((l) => moved(l, [q, j])),
  );
  const thickest = (pair: typeof distal) =>
    [pair.medial, pair.lateral].reduce((a, b) => ((b?.thicknessMm ?? 0) > (a?.thicknessMm ?? 0) ? b : a), null);
  const [under, behind] = [thickest(distal), thickest(posterior)];
  if (under) {
    const heights: XY = [j + femur.distalMm, j + femur.distalMm + under.thicknessMm];
    const face = box(q + femur.apMm * 0.28, q + femur.apMm * 0.72, heights);
    layers.push(shape(seat, { kind: 'augment', id: `${under.ref}:side`, label: under.name }, face));
  }
  if (behind) {
    const from = q + femur.posteriorMm;
    const face = box(from, from + behind.thicknessMm, [j + femur.apMm * 0.28, j + femur.apMm * 0.5]);
    layers.push(shape(seat, { kind: 'augment', id: `${behind.ref}:side`, label: behind.name }, face));
  }
  if (stem) {
    const [r, from] = [stem.diameterMm / 2, j + femur.boxDepthMm];
    const rod = box(shaftMiddleMm - r, shaftMiddleMm + r, [from, from + stem.lengthMm + (coupler?.addedLengthMm ?? 0)]);
    layers.push(shape(seat, { kind: 'stem', id: `${stem.ref}:femur`, label: stem.name }, rod));
  }
  return layers;
}

/** Tray, insert and stem on a lateral film, the tray sloped posteriorly about the middle of its upper face. */
export function tibiaOnSide(seat: Seat<'sagittal'>, construct: Construct, parts: PartsOfConstruct): DrawnLayer[] {
  const { tray } = parts;
  const drawn = { parts, view: 'sagittal', widthMm: tray.apMm, slopeDeg: construct.slopeDeg } as const;
  return [...trayAndInsert(seat, construct.trayMm, drawn), ...tibialStem(seat, construct.trayMm, parts)];
}

interface TrayDrawn {
  readonly parts: PartsOfConstruct;
  readonly view: keyof Outlines;
  readonly widthMm: number;
  readonly slopeDeg?: number;
}

function trayAndInsert<F extends LimbFrame>(seat: Seat<F>, u: number, drawn: TrayDrawn): DrawnLayer[] {
  const { tray, insert } = drawn.parts;
  const face = u + tray.thicknessMm;
  // Front up: counter-clockwise with x anterior, y proximal.
  const place = (points: readonly XY[]) => moved(turnedBy(points, drawn.slopeDeg ?? 0), [0, face]);
  const plate = box(-drawn.widthMm / 2, drawn.widthMm / 2, [-tray.thicknessMm, 0]);
  const slab: readonly (readonly XY[])[] = [box(-drawn.widthMm / 2, drawn.widthMm / 2, [0, insert.heightMm])];
  return [
    ...outline(seat, [tray.ref, tray.name], orBox(tray.outlines[drawn.view], plate).map(place)),
    ...outline(seat, [insert.ref, insert.name], (insert.outlines?.[drawn.view] ?? slab).map(place)),
  ];
}

function tibialStem<F extends LimbFrame>(seat: Seat<F>, u: number, parts: PartsOfConstruct): DrawnLayer[] {
  const { tray, tibialStem: stem } = parts;
  if (!stem) return [];
  const [r, from] = [stem.diameterMm / 2, u - tray.keelMm];
  const rod = box(-r, r, [from - stem.lengthMm, from]);
  return [shape(seat, { kind: 'stem', id: `${stem.ref}:tibia`, label: stem.name }, rod)];
}
