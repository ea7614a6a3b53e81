import type { Construct, TrayPlace } from '../gaps/construct.ts';
import type { PartsOfConstruct } from '../gaps/parts-of.ts';
import type { LimbFrame } from '../landmarks/film-to-limb.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import type { MetaphysealPart } from '../metaphysis/metaphyseal-part.ts';
import { canalAt } from '../stems/canal-span.ts';
import { type CanalInView, WALL_WORDS } from '../stems/canal-view.ts';
import type { StemVerdict } from '../stems/judge-stem.ts';
import { type StemInView, stemAxisMm } from '../stems/stem-in-view.ts';
import { BYPASS_DIAMETERS } from '../stems/tip-checks.ts';
import { placeOnStem, type StemOnFilm } from './canal-on-film.ts';
import { layer } from './draw-knee.ts';
import type { DrawnLayer } from './plan.ts';
import { type StemScene, stemOnAp, stemOnSide, tracedCanal } from './stem-plan-canals.ts';

type Bone = 'femur' | 'tibia';
const BONES: readonly Bone[] = ['femur', 'tibia'];

/** What is drawn of stems and metaphyseal parts. */
export interface StemDrawing {
  readonly scene: StemScene;
  readonly construct: Construct;
  readonly parts: PartsOfConstruct;
  /** Where the tray stands over its bone; null = not known, then it is drawn over the middle. */
  readonly trayPlace: TrayPlace | null;
  /** Stems of the construct as judged where they lie; null = none, or its canal is not traced. */
  readonly chosen: Readonly<Record<Bone, StemVerdict | null>>;
}

/** One bone on one film, ready for drawing. */
interface OnFilm<F extends LimbFrame> {
  readonly bone: Bone;
  readonly on: StemOnFilm<F>;
  readonly film: LimbFilm<F>;
}

/** Canals as they are traced on one film, in its own pixels: nothing needs to be known besides. */
export const tracedWalls = (film: LimbFilm<LimbFrame>, { file }: Pick<StemScene, 'file'>): readonly DrawnLayer[] =>
  (file.canals ?? [])
    .filter((trace) => trace.film === film.film.id)
    .flatMap((trace) =>
      (['innerA', 'innerB'] as const).map((wall) => ({
        kind: 'canal' as const,
        id: `canal:${trace.bone}:${wall === 'innerA' ? 'a' : 'b'}`,
        ...(wall === 'innerA' ? { label: trace.bone === 'femur' ? 'Canal of the femur' : 'Canal of the tibia' } : {}),
        side: film.side,
        belongs: 'present' as const,
        closed: false,
        points: trace.levels.map((level) => ({ x: level[wall].x, y: level[wall].y })),
      })),
    );

/** Stems, contacts, cones and weak spots on an AP film. */
export const stemsOnAp = (film: LimbFilm<'coronal'>, drawing: StemDrawing): readonly DrawnLayer[] =>
  BONES.flatMap((bone) => {
    const on = stemOnAp(film, bone, drawing.scene);
    return on ? drawn({ bone, on, film }, drawing) : [];
  });

/** The same on a lateral film. */
export const stemsOnSide = (film: LimbFilm<'sagittal'>, drawing: StemDrawing): readonly DrawnLayer[] =>
  BONES.flatMap((bone) => {
    const on = stemOnSide(film, bone, drawing.scene);
    return on ? drawn({ bone, on, film }, drawing) : [];
  });

function drawn<F extends LimbFrame>(where: OnFilm<F>, drawing: StemDrawing): readonly DrawnLayer[] {
  const view = where.film.toLimb.frame === 'sagittal' ? 'lateral' : 'ap';
  const verdict = drawing.chosen[where.bone];
  const found = verdict?.[view] ?? null;
  return [
    ...metaphyseal(where, drawing),
    ...(verdict && found ? stemLayers(where, { verdict, found, drawing }) : []),
    ...weakSpots(where, drawing),
  ];
}

/** Radius of the ring that marks a contact, mm. */
const RING_MM = 1.6;

interface Judged {
  readonly verdict: StemVerdict;
  readonly found: StemInView;
  readonly drawing: StemDrawing;
}

/** The stem where it would lie, with its forced tilt and its bow, and where the walls hold or stop it. */
function stemLayers<F extends LimbFrame>(where: OnFilm<F>, { verdict, found, drawing }: Judged): readonly DrawnLayer[] {
  const stem = where.bone === 'femur' ? drawing.parts.femoralStem : drawing.parts.tibialStem;
  if (!stem) return [];
  const { film, on, bone } = where;
  const layers: DrawnLayer[] = [];
  if (found.atSeatMm) {
    const asked = { stem, seat: verdict };
    const axis = (z: number) => stemAxisMm(found, asked, z);
    const outline = rod(verdict, axis, stem.diameterMm / 2);
    const head = { kind: 'stem', id: `${stem.ref}:${bone}`, label: stem.name, belongs: 'plan', closed: true } as const;
    layers.push(
      layer(
        film,
        head,
        outline.map(([z, y]) => placeOnStem(on, z, y)),
      ),
    );
    layers.push(...couplerLayer(where, { drawing, view: found.view, z: verdict.seatMm, y: axis(verdict.seatMm) }));
  }
  const canal = tracedCanal(bone, drawing.scene).canal[found.view];
  for (const [i, contact] of found.contacts.entries()) {
    const at = canal && wallPlace(canal, contact);
    if (!at) continue;
    const wall = `${WALL_WORDS[found.view][contact.wall]} cortex, ${contact.zMm.toFixed(0)} mm from the joint line`;
    const words = found.standing === 'stopped' ? `Stem is stopped: ${wall}` : `Stem touches: ${wall}`;
    const head = { kind: 'contact', id: `contact:${bone}:${i}`, label: words, belongs: 'plan', closed: true } as const;
    layers.push(
      layer(
        film,
        head,
        ring(at).map(([z, y]) => placeOnStem(on, z, y)),
      ),
    );
  }
  return layers;
}

/** The coupler between a tray and its stem: from where the tray holds it to where the stem begins. */
function couplerLayer<F extends LimbFrame>(
  { bone, on, film }: OnFilm<F>,
  at: { readonly drawing: StemDrawing; readonly view: StemInView['view']; readonly z: number; readonly y: number },
): readonly DrawnLayer[] {
  const { parts, trayPlace } = at.drawing;
  const { tibialOffset: coupler, tibialStem: stem } = parts;
  if (bone !== 'tibia' || !coupler || !stem) return [];
  const boss = at.view === 'ap' ? (trayPlace?.lateralMm ?? 0) : (trayPlace?.anteriorMm ?? 0);
  const [from, r] = [at.z - coupler.addedLengthMm, stem.diameterMm / 2];
  const corners: readonly ZY[] = [
    [from, boss - r],
    [from, boss + r],
    [at.z, at.y + r],
    [at.z, at.y - r],
  ];
  const head = {
    kind: 'stem',
    id: `${coupler.ref}:tibia`,
    label: coupler.name,
    belongs: 'plan',
    closed: true,
  } as const;
  return [
    layer(
      film,
      head,
      corners.map(([z, y]) => placeOnStem(on, z, y)),
    ),
  ];
}

type ZY = readonly [number, number];

/** Outline of a stem about its axis, its tip rounded, in steps fine enough for a bow. */
function rod(
  { seatMm, tipMm }: { readonly seatMm: number; readonly tipMm: number },
  axis: (z: number) => number,
  r: number,
): readonly ZY[] {
  const shoulder = Math.max(seatMm, tipMm - r);
  const steps = Array.from({ length: 13 }, (_, i) => seatMm + ((shoulder - seatMm) * i) / 12);
  const cap = [0.8, 0.4, 0, -0.4, -0.8].map((c): ZY => {
    const z = shoulder + (tipMm - shoulder) * Math.sqrt(1 - c * c);
    return [z, axis(z) + c * r];
  });
  return [...steps.map((z): ZY => [z, axis(z) + r]), ...cap, ...steps.toReversed().map((z): ZY => [z, axis(z) - r])];
}

const wallPlace = (canal: CanalInView, contact: StemInView['contacts'][number]): ZY | null => {
  const section = canalAt(canal.sections, contact.zMm);
  return section && [contact.zMm, contact.wall === 'low' ? section.lowMm : section.highMm];
};

const ring = ([z, y]: ZY): readonly ZY[] =>
  Array.from({ length: 16 }, (_, i) => {
    const turn = (Math.PI * i) / 8;
    return [z + RING_MM * Math.sin(turn), y + RING_MM * Math.cos(turn)];
  });

/** A cone or sleeve under its component, narrowing into the bone to what its stem needs. */
function metaphyseal<F extends LimbFrame>(
  { bone, on, film }: OnFilm<F>,
  { parts, construct, scene }: StemDrawing,
): readonly DrawnLayer[] {
  const cone = bone === 'femur' ? parts.femoralCone : parts.tibialCone;
  const sleeve = bone === 'femur' ? parts.femoralSleeve : parts.tibialSleeve;
  const part: MetaphysealPart['part'] | null = cone ?? sleeve;
  if (!part) return [];
  const width = film.toLimb.frame === 'sagittal' ? (part.apMm ?? part.widthMm) : part.widthMm;
  const faceMm = bone === 'femur' ? construct.femurProximalMm + parts.femur.distalMm : -construct.trayMm;
  const behind = scene.seats.femur.behindFlangeMm ?? 0;
  const middle = bone === 'femur' && film.toLimb.frame === 'sagittal' ? -behind : 0;
  const end = faceMm + part.heightMm;
  const [mouth, far] = [width / 2, 0.3 * width];
  const corners: readonly ZY[] = [
    [faceMm, middle - mouth],
    [faceMm, middle + mouth],
    [end, middle + far],
    [end, middle - far],
  ];
  const head = { kind: 'cone', id: `${part.ref}:${bone}`, label: part.name, belongs: 'plan', closed: true } as const;
  return [
    layer(
      film,
      head,
      corners.map(([z, y]) => placeOnStem(on, z, y)),
    ),
  ];
}

/** Half the length of a mark across the shaft, mm. */
const HALF_MARK_MM = 18;

/** Each weak spot of the shaft, and where a stem must reach to pass it by two diameters. */
function weakSpots<F extends LimbFrame>({ bone, on, film }: OnFilm<F>, { scene }: StemDrawing): readonly DrawnLayer[] {
  const shaft = scene.maps[bone].diaphysis;
  const outer = shaft?.outerDiameterMm;
  const middle = bone === 'femur' && film.toLimb.frame === 'sagittal' ? -(scene.seats.femur.behindFlangeMm ?? 0) : 0;
  const across = (id: string, label: string, zMm: number): DrawnLayer =>
    layer(film, { kind: 'weak-spot', id, label, belongs: 'present' }, [
      placeOnStem(on, zMm, middle - HALF_MARK_MM),
      placeOnStem(on, zMm, middle + HALF_MARK_MM),
    ]);
  return (shaft?.weakSpots ?? []).flatMap((spot, i) => {
    const name = spot.kind.replace('-', ' ');
    const mark = across(`weak-spot:${bone}:${i}`, `Far end of the ${name}`, spot.farEndMm);
    if (outer === undefined) return [mark];
    const past = spot.farEndMm + BYPASS_DIAMETERS * outer;
    return [mark, across(`bypass:${bone}:${i}`, `A stem must reach here past the ${name}`, past)];
  });
}
