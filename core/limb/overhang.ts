import { FEMORAL_LINE, type MarkedLine, TRAY_LINE } from '../landmarks/bony-lines.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import { plateauDirection } from '../landmarks/sagittal-lines.ts';
import type { Outcome } from '../measure/outcome.ts';
import type { Direction } from '../plane/direction.ts';
import { between, dot, type FrameName, midpoint, type Point } from '../plane/point.ts';
import { ANY_AP, type Definition, LATERAL, type Variant } from './definition.ts';

/** Both ends of a component and of the bone under it; `low` is medial (AP) or posterior (lateral film). */
export interface Ends<F extends FrameName> {
  readonly partLow: Point<F>;
  readonly partHigh: Point<F>;
  readonly boneLow: Point<F>;
  readonly boneHigh: Point<F>;
}

/**
 * How far a component stands out beyond its bone at one end, along the component's own line (from low to high), in the frame's unit.
 * **+ = overhang, 0 = flush, - = bone left uncovered.** Source: usual definition of overhang studies (3 mm and more is reported).
 */
export const overhang = <F extends FrameName>(
  { partLow, partHigh, boneLow, boneHigh }: Ends<F>,
  along: Direction<NoInfer<F>>,
  end: 'low' | 'high',
): number =>
  end === 'high'
    ? dot(between(boneHigh, partHigh), along as Point<F>)
    : dot(between(partLow, boneLow), along as Point<F>);

/**
 * Translation of a component: its middle against the middle of the bone under it, along its own line, in the frame's unit.
 * **+ = towards high (lateral or anterior), 0 = centred.**
 */
export const translation = <F extends FrameName>(e: Ends<F>, along: Direction<NoInfer<F>>): number =>
  dot(between(midpoint(e.boneLow, e.boneHigh), midpoint(e.partLow, e.partHigh)), along as Point<F>);

interface Part<F extends 'coronal' | 'sagittal'> {
  readonly marks: readonly [LandmarkId, LandmarkId, LandmarkId, LandmarkId];
  readonly views: Variant<F>['views'];
  readonly lineInputs: readonly LandmarkId[];
  readonly along: (r: Reading<F>) => Outcome<Direction<F>>;
}

const onAp = (line: MarkedLine, marks: Part<'coronal'>['marks']): Part<'coronal'> => ({
  marks,
  views: ANY_AP,
  lineInputs: line.inputs,
  along: line.direction,
});

const FEMUR = onAp(FEMORAL_LINE, [
  'femoral-component-medial-edge',
  'femoral-component-lateral-edge',
  'femoral-bone-medial-edge',
  'femoral-bone-lateral-edge',
]);

const TRAY = onAp(TRAY_LINE, [
  'tray-medial-edge',
  'tray-lateral-edge',
  'tibial-cortex-medial',
  'tibial-cortex-lateral',
]);

const TRAY_FROM_THE_SIDE: Part<'sagittal'> = {
  marks: ['plateau-posterior', 'plateau-anterior', 'tibial-edge-posterior', 'tibial-edge-anterior'],
  views: LATERAL,
  lineInputs: [],
  along: plateauDirection,
};

const LIMIT = '3 and more is reported as overhang (J Knee Surg 2019; 32:499)';

const shared = { unit: 'mm' as const, needsScale: true };

function variant<F extends 'coronal' | 'sagittal'>(
  part: Part<F>,
  of: (ends: Ends<F>, along: Direction<F>) => number,
): (state: 'native' | 'replaced') => readonly Variant<F>[] {
  const [partLow, partHigh, boneLow, boneHigh] = part.marks;
  const one: Variant<F> = {
    views: part.views,
    inputs: [...new Set([...part.marks, ...part.lineInputs])],
    formula: (r) => {
      const along = part.along(r);
      if (!along.ok) return along;
      const ends = {
        partLow: r.at(partLow),
        partHigh: r.at(partHigh),
        boneLow: r.at(boneLow),
        boneHigh: r.at(boneHigh),
      };
      return millimetres(of(ends, along.value), r);
    },
  };
  return (state) => (state === 'replaced' ? [one] : []);
}

const overhangOf = <F extends 'coronal' | 'sagittal'>(
  frame: F,
  part: Part<F>,
  named: { readonly id: string; readonly label: string; readonly end: 'low' | 'high' },
): Definition<F> => ({
  ...shared,
  frame,
  id: named.id,
  label: named.label,
  rule: 'LIMB-26',
  source: 'edges along the component; threshold of overhang studies',
  sign: '+ = beyond the bone, 0 = flush, - = bone left uncovered',
  normal: LIMIT,
  variants: variant(part, (ends, along) => overhang(ends, along, named.end)),
});

const translationOf = <F extends 'coronal' | 'sagittal'>(
  frame: F,
  part: Part<F>,
  named: { readonly id: string; readonly label: string; readonly towards: string },
): Definition<F> => ({
  ...shared,
  frame,
  id: named.id,
  label: named.label,
  rule: 'LIMB-25',
  source: 'middles of component and bone (derived)',
  sign: `+ = towards ${named.towards}, 0 = centred on the bone`,
  variants: variant(part, translation),
});

export const COVERAGE_AP: readonly Definition<'coronal'>[] = [
  translationOf('coronal', FEMUR, {
    id: 'femoral-component-translation',
    label: 'Femoral component against the middle of its bone',
    towards: 'lateral',
  }),
  overhangOf('coronal', FEMUR, { id: 'femoral-overhang-medial', label: 'Femoral overhang, medial', end: 'low' }),
  overhangOf('coronal', FEMUR, { id: 'femoral-overhang-lateral', label: 'Femoral overhang, lateral', end: 'high' }),
  translationOf('coronal', TRAY, {
    id: 'tray-translation',
    label: 'Tray against the middle of its bone',
    towards: 'lateral',
  }),
  overhangOf('coronal', TRAY, { id: 'tray-overhang-medial', label: 'Tray overhang, medial', end: 'low' }),
  overhangOf('coronal', TRAY, { id: 'tray-overhang-lateral', label: 'Tray overhang, lateral', end: 'high' }),
];

export const COVERAGE_LATERAL: readonly Definition<'sagittal'>[] = [
  translationOf('sagittal', TRAY_FROM_THE_SIDE, {
    id: 'tray-translation-sagittal',
    label: 'Tray against the middle of its bone, from the side',
    towards: 'the front',
  }),
  overhangOf('sagittal', TRAY_FROM_THE_SIDE, {
    id: 'tray-overhang-anterior',
    label: 'Tray overhang, front',
    end: 'high',
  }),
  overhangOf('sagittal', TRAY_FROM_THE_SIDE, {
    id: 'tray-overhang-posterior',
    label: 'Tray overhang, back',
    end: 'low',
  }),
];
