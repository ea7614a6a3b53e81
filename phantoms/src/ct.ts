import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import { type CtSlice, writeCtSlice } from '@gapline/film/write/ct.ts';
import { uidOf } from '@gapline/film/write/uid.ts';
import { chance } from './chance.ts';
import { CONDYLES_MM, condyleBacks, EPICONDYLES, EPICONDYLES_MM, femurAt } from './ct-femur.ts';
import { PLATEAU_MM, plateauOutline, TRAY_MM, TUBERCLE_MM, TUBERCLE_TIP, tibiaAt, trayBacks } from './ct-tibia.ts';
import { AIR, type Place, SOFT } from './ct-tissue.ts';
import { rad } from './space.ts';

/** What is chosen of a knee on CT. Degrees: internal negative. */
export interface CtRequest {
  readonly seed: number;
  readonly side: Side;
  /** Femoral component against the surgical epicondylar axis; tray against the line to the tip of the tubercle. */
  readonly femoralDeg: number;
  readonly tibialDeg: number;
  /** How the leg lies turned on the table, external +. */
  readonly legDeg?: number;
  /** Rows and columns. */
  readonly size?: number;
  /** Field of view, mm. */
  readonly fieldMm?: number;
  /** From slice to slice, mm. */
  readonly thicknessMm?: number;
  /** Standard deviation of the noise, Hounsfield units. */
  readonly noise?: number;
}

/** A landmark where the model has it. */
export interface CtMark {
  readonly landmark: LandmarkId;
  readonly slice: number;
  readonly points: readonly { readonly x: number; readonly y: number }[];
}

export interface CtPhantom {
  /** From the feet upwards. */
  readonly slices: readonly CtSlice[];
  readonly truth: {
    readonly side: Side;
    readonly femoralDeg: number;
    readonly tibialDeg: number;
    readonly marks: readonly CtMark[];
  };
}

/** Lowest and highest level, mm from the joint line. */
const FROM_MM = -50;
const TO_MM = 46;
/** Parts that each pixel is divided into, either way: what lies partly in a pixel darkens it partly. */
const PARTS = 2;

/** Knee on the table: where the limb's places lie in the patient, and in the pixels. */
interface Lie {
  readonly side: Side;
  readonly leg: number;
  readonly pxMm: number;
  readonly size: number;
}

/** Middle of the knee in the patient, mm left of and behind the middle of the table. */
const KNEE_LEFT_MM = 90;
const KNEE_BACK_MM = 4;

/** Pixel of a place of the limb. The pixels' middle shows the knee. */
function pixelOf([lateral, anterior]: Place, { side, leg, pxMm, size }: Lie) {
  // External is clockwise where x is lateral and y anterior.
  const [c, s] = [Math.cos(leg), Math.sin(leg)];
  const [x, y] = [c * lateral + s * anterior, -s * lateral + c * anterior];
  return { x: (side === 'left' ? x : -x) / pxMm + (size - 1) / 2, y: -y / pxMm + (size - 1) / 2 };
}

/** Place of the limb at a pixel: the same the other way round. */
function placeAt(px: number, py: number, { side, leg, pxMm, size }: Lie): Place {
  const [u, v] = [(px - (size - 1) / 2) * pxMm, -(py - (size - 1) / 2) * pxMm];
  const x = side === 'left' ? u : -u;
  const [c, s] = [Math.cos(leg), Math.sin(leg)];
  return [c * x - s * v, s * x + c * v];
}

/** Tissue at a place of the limb, Hounsfield units. */
function tissueAt([x, y]: Place, z: number, { femoralDeg, tibialDeg }: CtRequest): number {
  if (x * x + (y + 2) ** 2 > 66 ** 2) return AIR;
  const bone = z > 2 ? femurAt(x, y, z, femoralDeg) : tibiaAt(x, y, z, tibialDeg);
  return bone ?? SOFT;
}

/** A knee replacement on axial CT slices, from a chosen rotation of both components: forward from the model to the pixels. */
export function ctPhantom(request: CtRequest): CtPhantom {
  const { seed, side, size = 256, fieldMm = 160, thicknessMm = 2, noise = 12 } = request;
  const lie: Lie = { side, leg: rad(request.legDeg ?? 0), pxMm: fieldMm / size, size };
  const count = Math.floor((TO_MM - FROM_MM) / thicknessMm) + 1;
  const draw = chance(seed, 'ct noise');
  const slices = Array.from({ length: count }, (_, k) => {
    const z = FROM_MM + k * thicknessMm;
    const pixels = new Uint16Array(size * size);
    for (let row = 0; row < size; row++)
      for (let column = 0; column < size; column++) {
        let sum = 0;
        for (let i = 0; i < PARTS * PARTS; i++) {
          const dx = ((i % PARTS) + 0.5) / PARTS - 0.5;
          const dy = (Math.floor(i / PARTS) + 0.5) / PARTS - 0.5;
          sum += tissueAt(placeAt(column + dx, row + dy, lie), z, request);
        }
        const value =
          sum / (PARTS * PARTS) + (noise > 0 ? noise * (draw.uniform() + draw.uniform() - 1) * Math.sqrt(6) : 0);
        pixels[row * size + column] = Math.min(Math.max(Math.round(value + 1024), 0), 65535);
      }
    return sliceOf(request, { pixels, z, number: k + 1, lie, thicknessMm });
  });
  const nearest = (z: number): number => Math.round((z - FROM_MM) / thicknessMm);
  return {
    slices,
    truth: {
      side,
      femoralDeg: request.femoralDeg,
      tibialDeg: request.tibialDeg,
      marks: trueMarks(request, lie, nearest),
    },
  };
}

function trueMarks({ femoralDeg, tibialDeg }: CtRequest, lie: Lie, nearest: (z: number) => number): CtMark[] {
  const condyles = condyleBacks(femoralDeg);
  const tray = trayBacks(tibialDeg);
  const mark = (landmark: LandmarkId, z: number, ...at: readonly Place[]): CtMark => ({
    landmark,
    slice: nearest(z),
    points: at.map((p) => pixelOf(p, lie)),
  });
  return [
    mark('ct-lateral-epicondyle', EPICONDYLES_MM, EPICONDYLES.lateral),
    mark('ct-medial-epicondyle-sulcus', EPICONDYLES_MM, EPICONDYLES.sulcus),
    mark('ct-medial-epicondyle-peak', EPICONDYLES_MM, EPICONDYLES.peak),
    mark('ct-femoral-posterior-medial', CONDYLES_MM, condyles.medial),
    mark('ct-femoral-posterior-lateral', CONDYLES_MM, condyles.lateral),
    mark('ct-tray-posterior-medial', TRAY_MM, tray.medial),
    mark('ct-tray-posterior-lateral', TRAY_MM, tray.lateral),
    mark('ct-plateau-outline', PLATEAU_MM, ...plateauOutline(10)),
    mark('ct-tubercle-tip', TUBERCLE_MM, TUBERCLE_TIP),
  ];
}

interface Taken {
  readonly pixels: Uint16Array;
  readonly z: number;
  readonly number: number;
  readonly lie: Lie;
  readonly thicknessMm: number;
}

function sliceOf({ seed, side }: CtRequest, { pixels, z, number, lie, thicknessMm }: Taken): CtSlice {
  const half = ((lie.size - 1) / 2) * lie.pxMm;
  const name = `ct-phantom/${seed}/${side}`;
  return {
    patient: { name: 'Phantom^Slices', id: `PHANTOM-CT-${seed}`, sex: 'F', birthDate: '19510203' },
    study: {
      uid: uidOf(`${name}/study`),
      date: '20250311',
      time: '091500',
      id: `C${seed}`,
      description: 'Knee CT (phantom)',
    },
    series: { uid: uidOf(`${name}/series`), number: 2, description: 'Axial' },
    instance: { uid: uidOf(`${name}/slice/${number}`), number },
    frameOfReference: uidOf(`${name}/frame`),
    rows: lie.size,
    columns: lie.size,
    pixels,
    spacingMm: [lie.pxMm, lie.pxMm],
    thicknessMm,
    originMm: [(side === 'left' ? KNEE_LEFT_MM : -KNEE_LEFT_MM) - half, KNEE_BACK_MM - half, 600 + z],
    along: [1, 0, 0],
    down: [0, 1, 0],
    laterality: side === 'left' ? 'L' : 'R',
    window: { centre: 500, width: 2000 },
    comment: 'Computed phantom; shows no person',
  };
}

/** The files of a CT phantom, in the order of its slices. */
export const writeCt = ({ slices }: CtPhantom): readonly { readonly file: string; readonly bytes: Uint8Array }[] =>
  slices.map((slice, i) => ({ file: `ct-${String(i + 1).padStart(3, '0')}.dcm`, bytes: writeCtSlice(slice) }));
