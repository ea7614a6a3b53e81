import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import { shaftLine, shaftMarks } from '../landmarks/sagittal-lines.ts';
import { type Definition, LATERAL } from '../limb/definition.ts';
import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { signedDistance } from '../plane/line.ts';

type R = Reading<'sagittal'>;

/**
 * Where the posterior condyles belong (PLAN-14): an offset behind the posterior cortex, from the ratio of published knees or from
 * a film of this knee before its first replacement or of the other knee.
 *
 * Ratio r = PCO / (PCO + d) with d the depth of the shaft between its extended anterior and posterior cortex (Johal 2012:
 * 0.47 +- 0.02 with cartilage or a component). Solved for the offset: PCO = d r / (1 - r). Its spread from
 * that of r alone: d / (1 - r)^2 times 0.02.
 */
export type OffsetTarget =
  | { readonly kind: 'ratio'; readonly ratio: number; readonly ratioSd: number; readonly from: string }
  | { readonly kind: 'length'; readonly mm: number; readonly sdMm: number; readonly from: string };

export const PUBLISHED_RATIO: OffsetTarget = {
  kind: 'ratio',
  ratio: 0.47,
  ratioSd: 0.02,
  from: 'ratio 0.47 ± 0.02 of knees with cartilage or component (Johal 2012)',
};

const SHAFT: readonly LandmarkId[] = [...shaftMarks('femoral', 'posterior'), ...shaftMarks('femoral', 'anterior')];

/** Depth of the shaft at the condyle and the present offset there, in the frame's unit. */
const atCondyle = (r: R): Outcome<{ depth: number; offset: number }> =>
  combine(shaftLine('femoral', 'posterior', r), shaftLine('femoral', 'anterior', r), (posterior, anterior) => {
    const offset = signedDistance(r.at('posterior-condyle'), posterior);
    return ok({ offset, depth: signedDistance(r.at('posterior-condyle'), anterior) - offset });
  });

const targetOffset = (target: OffsetTarget, depth: number, mmPerUnit: number): number =>
  target.kind === 'ratio' ? (depth * target.ratio) / (1 - target.ratio) : target.mm / mmPerUnit;

const line = (
  id: string,
  label: string,
  rest: { sign: string; inputs: readonly LandmarkId[]; length: (r: R) => Outcome<number> },
): Definition<'sagittal'> => ({
  id,
  label,
  frame: 'sagittal',
  unit: 'mm',
  sign: rest.sign,
  rule: 'PLAN-14',
  source: 'Johal 2012',
  needsScale: true,
  keepsCauses: true,
  variants: () => [
    {
      views: LATERAL,
      inputs: [...new Set(['posterior-condyle' as const, ...SHAFT, ...rest.inputs])],
      formula: (r) => {
        const l = rest.length(r);
        return l.ok ? millimetres(l.value, r) : l;
      },
    },
  ],
});

/** Depth of the femoral shaft, cortex to cortex, level with the condyle, mm. */
export const shaftDepth: Definition<'sagittal'> = line('shaft-depth', 'Depth of the femoral shaft', {
  sign: 'depth, always positive',
  inputs: [],
  length: (r) => {
    const at = atCondyle(r);
    return at.ok ? ok(at.value.depth) : at;
  },
});

/** A0: anterior cortex to the target posterior line, mm. */
export const anteriorToTarget = (target: OffsetTarget): Definition<'sagittal'> =>
  line('anterior-to-target', 'Anterior cortex to target posterior line (A0)', {
    sign: 'distance, always positive',
    inputs: [],
    length: (r) => {
      const at = atCondyle(r);
      return at.ok ? ok(at.value.depth + targetOffset(target, at.value.depth, r.mmPerUnit ?? 1)) : at;
    },
  });

/** q of the present component: its posterior surface against the target posterior line, mm, **+ = anterior (offset lost)**. */
export const presentAnterior = (target: OffsetTarget): Definition<'sagittal'> =>
  line('present-anterior', 'Present posterior surface against target (q)', {
    sign: '+ = anterior of the target: offset was lost',
    inputs: [],
    length: (r) => {
      const at = atCondyle(r);
      return at.ok ? ok(targetOffset(target, at.value.depth, r.mmPerUnit ?? 1) - at.value.offset) : at;
    },
  });

/** P: posterior bone support against the target posterior line, mm, **+ = anterior of it**. */
export const posteriorSupport = (target: OffsetTarget): Definition<'sagittal'> =>
  line('posterior-support', 'Posterior bone against target posterior line (P)', {
    sign: '+ = anterior of the target line',
    inputs: ['femoral-bone-posterior'],
    length: (r) =>
      combine(atCondyle(r), shaftLine('femoral', 'posterior', r), ({ depth }, cortex) => {
        const bone = signedDistance(r.at('femoral-bone-posterior'), cortex);
        return ok(targetOffset(target, depth, r.mmPerUnit ?? 1) - bone);
      }),
  });

/** Spread that the target itself brings into A0, q and P, mm: the ratio's through the depth, or that of the length. */
export const targetSdMm = (target: OffsetTarget, depthMm: number): number =>
  target.kind === 'ratio' ? (depthMm / (1 - target.ratio) ** 2) * target.ratioSd : target.sdMm;
