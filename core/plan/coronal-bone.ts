import type { Compartment, PerCompartment } from '../landmarks/side.ts';
import type { Definition } from '../limb/definition.ts';
import type { Measurement } from '../limb/measurement.ts';
import { type BoneInputs, coronally } from './bone-inputs.ts';
import { mapsOf } from './bone-stock.ts';
import { femoralPlaneLevel, tibialPlaneLevel } from './bone-stock-level.ts';
import { type MarkedSurface, supportFromMap } from './bone-stock-support.ts';
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
 * `T = t + h` below the target. Where the bone map says deeper than the mark, its level stands for `b` or `t` (PLAN-21). Bone lost at
 * removal is added to both; where no loss is stated the plan is made for the bone as marked, and says so.
 */
export function coronalBone(book: FindingsBook, inputs: BoneInputs): CoronalBone {
  const loss = inputs.file.bone?.removalLossMm;
  if (loss?.femurDistal === undefined) goWithout(book, UNKNOWN_LOSS('femurDistal', 'distal femur'));
  if (loss?.tibia === undefined) goWithout(book, UNKNOWN_LOSS('tibia', 'tibia'));
  const { heightMm: h, sdMm } = inputs.jointLine;
  const way = `target joint line at ${mm(h)}`;
  const femur = (b: Known | null) => b && shifted(b, { by: -h, sd: sdMm, moves: -sdMm, lost: loss?.femurDistal, way });
  const tibia = (t: Known | null) => t && shifted(t, { by: h, sd: sdMm, moves: sdMm, lost: loss?.tibia, way });
  const femoral = supportFromMap(book, femoralSurface(book, inputs));
  const tibial = supportFromMap(book, tibialSurface(book, inputs));
  const width = (id: string, why: string) => {
    const m = inputs.measurements.find((x) => x.id === id && x.side === inputs.file.side);
    return m ? measuredFor(book, m, why) : null;
  };
  return {
    femurDistal: { medial: femur(femoral.medial), lateral: femur(femoral.lateral) },
    tibia: { medial: tibia(tibial.medial), lateral: tibia(tibial.lateral) },
    femurWidth: width('femoral-bone-width', 'Size of the femoral component and its overhang.'),
    tibiaWidth: width('tibial-bone-width', 'Size of the tray and its overhang.'),
  };
}

function femoralSurface(book: FindingsBook, inputs: BoneInputs): MarkedSurface {
  const mark = (side: Compartment) =>
    measuredFor(book, coronally(inputs, femoralSupport(side, inputs.tilt)), WHY.femur);
  const thicknessMm = inputs.file.implants?.femurDistalMm;
  const losses = mapsOf(inputs.stock).femur.distal;
  return {
    label: 'distal femur',
    field: 'bone.femurMap.distal',
    marks: { medial: mark('medial'), lateral: mark('lateral') },
    losses,
    plane:
      losses && thicknessMm !== undefined
        ? levelOf(inputs, [femoralPlaneLevel({ tilt: inputs.tilt, thicknessMm })])
        : null,
  };
}

function tibialSurface(book: FindingsBook, inputs: BoneInputs): MarkedSurface {
  const mark = (side: Compartment) => measuredFor(book, tibialDepth(inputs, side), WHY.tibia);
  const thicknessMm = inputs.file.implants?.trayThicknessMm;
  const losses = mapsOf(inputs.stock).tibia.plateau;
  const levels = (thickness: number) =>
    (['insert', 'contact'] as const).map((by) => tibialPlaneLevel({ tilt: inputs.tilt, thicknessMm: thickness }, by));
  return {
    label: 'plateau',
    field: 'bone.tibiaMap.plateau',
    marks: { medial: mark('medial'), lateral: mark('lateral') },
    losses,
    plane: losses && thicknessMm !== undefined ? levelOf(inputs, levels(thicknessMm)) : null,
  };
}

/** The first way in which the plane's level can be measured; null where none can, then a bone mark stands in for it. */
function levelOf(inputs: BoneInputs, ways: readonly Definition<'coronal'>[]): Known | null {
  for (const way of ways) {
    const m = coronally(inputs, way);
    if (m.value === null) continue;
    const from = `bone face of the present component, film ${m.film}`;
    return { value: m.value, sd: m.sd, from, ...(m.causes ? { shared: m.causes } : {}) };
  }
  return null;
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
