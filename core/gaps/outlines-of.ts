import type { Catalogue, Cone, Outlines, Polyline, Sleeve } from '../catalogue/catalogue.ts';
import { toRad } from '../measure/angle.ts';
import type { Construct } from './construct.ts';
import { type PartsOfConstruct, partsOf } from './parts-of.ts';

/** One part where it stands. Closed lines; mm. */
export interface PlacedOutline {
  readonly part: 'femur' | 'augment' | 'stem' | 'cone' | 'sleeve' | 'tray' | 'block' | 'insert';
  readonly bone: 'femur' | 'tibia';
  readonly ref: string;
  /**
   * x = lateral of the bone's mechanical axis, y = proximal of the target joint line. Parts are drawn centred on the
   * axis and square to it.
   */
  readonly coronal: readonly Polyline[];
  /**
   * y = proximal of the target joint line. Femur: x = anterior of the target posterior line. Tibia: x = anterior of
   * the middle of the plateau, turned by the slope.
   */
  readonly sagittal: readonly Polyline[];
}

type Pair = readonly [number, number];

const box = (x: Pair, y: Pair): Polyline => [
  [x[0], y[0]],
  [x[1], y[0]],
  [x[1], y[1]],
  [x[0], y[1]],
  [x[0], y[0]],
];

/** A stem from its foot towards its rounded tip, up (+1) or down (-1), leaning by so many mm per mm. */
function rod(foot: Pair, shape: { widthMm: number; lengthMm: number; way: 1 | -1; lean: number }): Polyline {
  const { widthMm, lengthMm, way, lean } = shape;
  const at = (across: number, along: number): Pair => [foot[0] + across + lean * along, foot[1] + way * along];
  const half = widthMm / 2;
  const shoulder = Math.max(0, lengthMm - half);
  const cap = [0.8, 0.5, 0, -0.5, -0.8].map((c) => at(half * c, shoulder + half * Math.sqrt(1 - c * c)));
  return [at(half, 0), at(half, shoulder), ...cap, at(-half, shoulder), at(-half, 0), at(half, 0)];
}

/** The catalogue's outlines, or plain boxes where it has none. */
const orBoxes = (lines: Outlines | undefined, boxes: Outlines): Outlines =>
  lines && (lines.coronal.length > 0 || lines.sagittal.length > 0) ? lines : boxes;

const move = (lines: readonly Polyline[], by: Pair): Polyline[] =>
  lines.map((line) => line.map(([x, y]) => [x + by[0], y + by[1]] as const));

/** Turns about `(0, y0)` so that the posterior side (x < 0) goes down by the slope. */
function sloped(lines: readonly Polyline[], y0: number, slopeDeg: number): Polyline[] {
  const c = Math.cos(toRad(slopeDeg));
  const s = Math.sin(toRad(slopeDeg));
  return lines.map((line) => line.map(([x, y]) => [c * x - s * (y - y0), y0 + s * x + c * (y - y0)] as const));
}

const SIDES = [
  { side: 'medial', way: -1 },
  { side: 'lateral', way: 1 },
] as const;

function femoral(construct: Construct, parts: PartsOfConstruct): PlacedOutline[] {
  const { femur } = parts;
  const place = (part: PlacedOutline['part'], ref: string, lines: Outlines): PlacedOutline => ({
    part,
    bone: 'femur',
    ref,
    coronal: move(lines.coronal, [0, construct.femurProximalMm]),
    sagittal: move(lines.sagittal, [construct.femurAnteriorMm, construct.femurProximalMm]),
  });
  const half = femur.widthMm / 2;
  const high = (usual: number): Pair => [0, parts.femoralSegment ? femur.distalMm : usual * femur.apMm];
  const plain: Outlines = {
    coronal: [box([-half, half], high(0.4))],
    sagittal: [box([0, femur.apMm], high(0.5))],
  };
  const found = [place('femur', femur.ref, orBoxes(femur.outlines, plain))];
  const notch = femur.boxWidthMm / 2;
  for (const { side, way } of SIDES) {
    const across: Pair = [way * notch, way * (half - 2)];
    const distal = parts.distal[side];
    if (distal) {
      const up: Pair = [femur.distalMm, femur.distalMm + distal.thicknessMm];
      const along: Pair = [0.3 * femur.apMm, 0.74 * femur.apMm];
      found.push(place('augment', distal.ref, { coronal: [box(across, up)], sagittal: [box(along, up)] }));
    }
    const posterior = parts.posterior[side];
    if (posterior) {
      const up: Pair = [0.33 * femur.apMm, 0.5 * femur.apMm];
      const along: Pair = [femur.posteriorMm, femur.posteriorMm + posterior.thicknessMm];
      found.push(place('augment', posterior.ref, { coronal: [box(across, up)], sagittal: [box(along, up)] }));
    }
  }
  const roof = Math.max(femur.boxDepthMm, femur.distalMm);
  for (const [part, { ref, widthMm, apMm, heightMm }] of metaphyseal(parts.femoralCone, parts.femoralSleeve)) {
    const up: Pair = [roof, roof + heightMm];
    found.push(place(part, ref, cone([widthMm, apMm], { at: 0.52 * femur.apMm, up, widest: 'low' })));
  }
  if (parts.femoralStem) {
    const { ref, diameterMm, lengthMm } = parts.femoralStem;
    const shape = {
      widthMm: diameterMm,
      lengthMm: lengthMm + (parts.femoralOffset?.addedLengthMm ?? 0),
      way: 1 as const,
    };
    // Valgus: the shaft leans laterally going up from a knee whose joint line is level, seen from the mechanical axis.
    const lean = Math.tan(toRad(femur.stemValgusDeg));
    found.push(
      place('stem', ref, {
        coronal: [rod([0, roof], { ...shape, lean })],
        sagittal: [rod([0.62 * femur.apMm + (parts.femoralOffset?.offsetMm ?? 0), roof], { ...shape, lean: 0 })],
      }),
    );
  }
  return found;
}

/** Cone or sleeve, whichever there is. */
const metaphyseal = (ofCone: Cone | null, sleeve: Sleeve | null): (readonly ['cone' | 'sleeve', Cone | Sleeve])[] => [
  ...(ofCone ? [['cone', ofCone] as const] : []),
  ...(sleeve ? [['sleeve', sleeve] as const] : []),
];

/** Width and depth; where the depth is not stated three quarters of the width are drawn. */
function cone(
  [widthMm, apMm]: readonly [number, number | undefined],
  { at, up, widest }: { at: number; up: Pair; widest: 'low' | 'high' },
): Outlines {
  const wide = widthMm / 2;
  const low = widest === 'low' ? wide : wide * 0.6;
  const high = widest === 'low' ? wide * 0.6 : wide;
  const shape = (x: number, by: number): Polyline => [
    [x - low * by, up[0]],
    [x + low * by, up[0]],
    [x + high * by, up[1]],
    [x - high * by, up[1]],
    [x - low * by, up[0]],
  ];
  return { coronal: [shape(0, 1)], sagittal: [shape(at, (apMm ?? 0.75 * widthMm) / widthMm)] };
}

function tibial(construct: Construct, parts: PartsOfConstruct): PlacedOutline[] {
  const { tray, insert } = parts;
  const face = construct.trayMm + tray.thicknessMm;
  const place = (part: PlacedOutline['part'], ref: string, lines: Outlines): PlacedOutline => ({
    part,
    bone: 'tibia',
    ref,
    coronal: move(lines.coronal, [0, face]),
    sagittal: sloped(move(lines.sagittal, [0, face]), face, construct.slopeDeg),
  });
  const plate: Outlines = {
    coronal: [box([-tray.widthMm / 2, tray.widthMm / 2], [-tray.thicknessMm, 0])],
    sagittal: [box([-tray.apMm / 2, tray.apMm / 2], [-tray.thicknessMm, 0])],
  };
  const found = [place('tray', tray.ref, orBoxes(tray.outlines, plate))];
  const slab: Outlines = {
    coronal: [box([1 - tray.widthMm / 2, tray.widthMm / 2 - 1], [0, insert.heightMm])],
    sagittal: [box([1 - tray.apMm / 2, tray.apMm / 2 - 1], [0, insert.heightMm])],
  };
  found.push(place('insert', insert.ref, orBoxes(insert.outlines, slab)));
  for (const { side, way } of SIDES) {
    const block = parts.blocks[side];
    if (!block) continue;
    const down: Pair = [-tray.thicknessMm - block.thicknessMm, -tray.thicknessMm];
    found.push(
      place('block', block.ref, {
        coronal: [box([way * 9, way * (tray.widthMm / 2 - 1)], down)],
        sagittal: [box([1 - tray.apMm / 2, tray.apMm / 2 - 1], down)],
      }),
    );
  }
  for (const [part, { ref, widthMm, apMm, heightMm }] of metaphyseal(parts.tibialCone, parts.tibialSleeve)) {
    const up: Pair = [-tray.thicknessMm - heightMm, -tray.thicknessMm];
    found.push(place(part, ref, cone([widthMm, apMm], { at: 0, up, widest: 'high' })));
  }
  if (parts.tibialStem) {
    const { ref, diameterMm, lengthMm } = parts.tibialStem;
    const shape = { widthMm: diameterMm, lengthMm, way: -1 as const, lean: 0 };
    const foot = -tray.thicknessMm - tray.keelMm;
    found.push(place('stem', ref, { coronal: [rod([0, foot], shape)], sagittal: [rod([1, foot], shape)] }));
  }
  return found;
}

/**
 * Outlines of every part of a construct where it stands, to draw over the films: femoral parts in the femoral frame,
 * tibial parts in the tibial frame of spec section 1. Components, blocks and stems are drawn to scale from the
 * catalogue's outlines and dimensions; place of the stem along the component and shape of augments are schematic.
 */
export function outlinesOf(construct: Construct, catalogue: Catalogue): readonly PlacedOutline[] {
  const parts = partsOf(construct, catalogue);
  return [...tibial(construct, parts), ...femoral(construct, parts)];
}
