import type { Compartment, PerCompartment } from '../landmarks/side.ts';
import type { Measurement } from '../limb/measurement.ts';
import { type BoneInputs, coronally } from './bone-inputs.ts';
import { femoralSupport, tibialSupport, tibialSupportByContact } from './bone-supports.ts';
import { type FindingsBook, goWithout, type Known, measuredFor, together } from './findings-book.ts';
import { JOINT_LINE, summed } from './shared-spread.ts';

export interface CoronalBone {
  readonly femurDistal: PerCompartment<Known | null>;
  readonly tibia: PerCompartment<Known | null>;
  readonly femurWidth: Known | null;
  readonly tibiaWidth: Known | null;
}

/**
 * D_x, T_x and the widths of spec section 3 from AP films. With `h` the height of the target over the present joint line
 * (proximal +), bone at `b` above the present line stands `D = b - h` above the target; bone at `t` below it stands
 * `T = t + h` below the target. Bone lost at removal is added to both; where no loss is stated the plan is made for the
 * bone as marked, and says so.
 */
export function coronalBone(book: FindingsBook, inputs: BoneInputs): CoronalBone {
  const loss = inputs.file.bone?.removalLossMm;
  if (loss?.femurDistal === undefined) goWithout(book, UNKNOWN_LOSS('femurDistal', 'distal femur'));
  if (loss?.tibia === undefined) goWithout(book, UNKNOWN_LOSS('tibia', 'tibia'));
  const { heightMm: h, sdMm } = inputs.jointLine;
  const femur = (side: Compartment) => {
    const b = measuredFor(book, coronally(inputs, femoralSupport(side, inputs.tilt)), WHY.femur);
    return (
      b && shifted(b, { by: -h, sd: sdMm, moves: -sdMm, lost: loss?.femurDistal, way: `target joint line at ${mm(h)}` })
    );
  };
  const tibia = (side: Compartment) => {
    const t = measuredFor(book, tibialDepth(inputs, side), WHY.tibia);
    return t && shifted(t, { by: h, sd: sdMm, moves: sdMm, lost: loss?.tibia, way: `target joint line at ${mm(h)}` });
  };
  const width = (id: string, why: string) => {
    const m = inputs.measurements.find((x) => x.id === id && x.side === inputs.file.side);
    return m ? measuredFor(book, m, why) : null;
  };
  return {
    femurDistal: { medial: femur('medial'), lateral: femur('lateral') },
    tibia: { medial: tibia('medial'), lateral: tibia('lateral') },
    femurWidth: width('femoral-bone-width', 'Size of the femoral component and its overhang.'),
    tibiaWidth: width('tibial-bone-width', 'Size of the tray and its overhang.'),
  };
}

/** With the insert's thickness where it is known; else by contact of the loaded surfaces. */
function tibialDepth(inputs: BoneInputs, side: Compartment): Measurement {
  const measured = coronally(inputs, tibialSupport(side, inputs.tilt));
  const insertUnknown = inputs.file.implants?.insertMm === undefined;
  return measured.value === null && insertUnknown
    ? coronally(inputs, tibialSupportByContact(side, inputs.tilt))
    : measured;
}

interface Shift {
  readonly by: number;
  readonly sd: number;
  /** How a target one standard deviation higher moves the support, mm. */
  readonly moves: number;
  readonly lost: number | undefined;
  readonly way: string;
}

const shifted = (known: Known, { by, sd, moves, lost, way }: Shift): Known => ({
  value: known.value + by + (lost ?? 0),
  sd: together(known.sd, sd),
  shared: summed([1, known.shared], [moves, JOINT_LINE]),
  from: `${known.from}: bone at ${mm(known.value)}; ${way}; ${lost === undefined ? 'loss at removal not stated' : `loss at removal ${mm(lost)}`}`,
});

const mm = (v: number) => `${v.toFixed(1)} mm`;

const WHY = {
  femur: 'Distal femoral augments and where the femoral component can stand.',
  tibia: 'Tibial blocks, insert and where the tray can stand.',
} as const;

const UNKNOWN_LOSS = (field: 'femurDistal' | 'tibia', where: string) => ({
  what: `Bone lost at removal, ${where}`,
  field: `bone.removalLossMm.${field}`,
  wouldChange:
    'The plan is for the bone as marked; each millimetre lost asks for as much augment, block or cement more.',
});
