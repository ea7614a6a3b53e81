import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { Mark } from '../landmarks/mark.ts';
import type { Side } from '../landmarks/side.ts';
import type { PatientVector, SliceStack } from '../landmarks/slice-stack.ts';
import { toRad } from '../measure/angle.ts';
import type { RotationFilm } from './rotation-evidence.ts';

/** A known knee on CT: what is chosen, from which stack and marks are worked out the other way round. For worked examples and tests. */
export interface KnownStack {
  readonly side: Side;
  /** Rotation of the components, deg, internal negative. */
  readonly femoralDeg: number;
  readonly tibialDeg: number;
  /** How the whole leg lies turned on the table, deg, external +. */
  readonly legDeg?: number;
  /** Rows run towards the patient's right. */
  readonly mirrored?: boolean;
  /** In-plane shift from one slice to the next, mm, as with a tilted gantry. */
  readonly shiftMm?: number;
  /** Lean of the slices about the left-right axis, deg. */
  readonly leanDeg?: number;
}

/** Places in the limb, mm: lateral, anterior, slice. The epicondylar axis runs along lateral; the tubercle line 0 = anterior. */
const FEMUR: Readonly<Partial<Record<LandmarkId, readonly [number, number, number]>>> = {
  'ct-lateral-epicondyle': [42, 0, 12],
  'ct-medial-epicondyle-sulcus': [-40, 0, 11],
};
const SPACING = 0.5;
const THICKNESS = 3;

const turned = ([x, y]: readonly [number, number], externalDeg: number): readonly [number, number] => {
  // External is clockwise where x is lateral and y anterior.
  const [c, s] = [Math.cos(toRad(-externalDeg)), Math.sin(toRad(-externalDeg))];
  return [c * x - s * y, s * x + c * y];
};

/** Film and marks of a known knee, 20 slices of 512 x 512 pixels. */
export function knownStack(known: KnownStack): { readonly film: RotationFilm; readonly marks: readonly Mark[] } {
  const { side, femoralDeg, tibialDeg, legDeg = 0, mirrored = false, shiftMm = 0, leanDeg = 0 } = known;
  const [c, s] = [Math.cos(toRad(leanDeg)), Math.sin(toRad(leanDeg))];
  const along: PatientVector = [mirrored ? -1 : 1, 0, 0];
  const down: PatientVector = [0, c, s];
  const up: PatientVector = [0, -s, c];
  const start = mirrored ? 128 : -128;
  const origin = (k: number): PatientVector => [
    start + 30,
    -128 * c + shiftMm * k * c + up[1] * THICKNESS * k,
    -128 * s + shiftMm * k * s + up[2] * THICKNESS * k,
  ];
  const each = Array.from({ length: 20 }, (_, k) => ({
    sha256: String(k).padStart(64, '0'),
    file: `ct-${k}.dcm`,
    originMm: origin(k),
  }));
  const stack: SliceStack = { along, down, each };
  const pixel = ([lateral, anterior]: readonly [number, number], slice: number) => {
    const [x, y] = turned([lateral, anterior], legDeg);
    const left = (side === 'left' ? x : -x) + 30;
    const o = each[slice]?.originMm ?? [0, 0, 0];
    // Both lie in the plane of the slice: what is left of the patient, and what is back.
    return {
      x: ((left - o[0]) * along[0]) / SPACING,
      y: (-y + 128 - shiftMm * slice) / SPACING,
    };
  };
  const mark = (landmark: LandmarkId, at: readonly (readonly [number, number])[], slice: number): Mark => ({
    landmark,
    side,
    film: 'ct',
    slice,
    points: at.map((p) => pixel(p, slice)),
    how: 'model-truth',
  });
  const condyle = (x: number) => turned([x, -32], femoralDeg);
  const tray = (x: number) => turned([x, -22], tibialDeg);
  const ring = Array.from({ length: 10 }, (_, i) => {
    const a = toRad(36 * i + 7);
    return [36 * Math.cos(a), 24 * Math.sin(a)] as const;
  });
  const marks = [
    ...Object.entries(FEMUR).map(([id, [x, y, k]]) => mark(id as LandmarkId, [[x, y]], k)),
    mark('ct-femoral-posterior-medial', [condyle(-24)], 9),
    mark('ct-femoral-posterior-lateral', [condyle(23)], 8),
    mark('ct-tray-posterior-medial', [tray(-20)], 5),
    mark('ct-tray-posterior-lateral', [tray(20)], 5),
    mark('ct-plateau-outline', ring, 4),
    mark('ct-tubercle-tip', [[0, 40]], 1),
  ];
  const film: RotationFilm = {
    id: 'ct',
    view: 'ct',
    side,
    role: 'present',
    scaleFacts: { volumetric: true, rows: 512, columns: 512, pixelSpacing: [SPACING, SPACING], derived: false },
    slices: stack,
  };
  return { film, marks };
}
