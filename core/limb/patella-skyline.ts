import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import { wrap180 } from '../measure/angle.ts';
import { combine } from '../measure/combine.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { angleFromTo, type Direction, direction } from '../plane/direction.ts';
import { type Line, lineThrough, signedDistance } from '../plane/line.ts';
import { between, dot, midpoint, type Point } from '../plane/point.ts';
import { type Definition, SKYLINE } from './definition.ts';

type P = Point<'axial'>;

/**
 * Patellar tilt on a skyline film: between the line of both condyles' fronts and the patella's back line, both from medial to lateral.
 * `front` is the patella's front cortex; it tells which way forward is, so that a film shown upside down gives the same. Deg, **+ = lateral tilt (the
 * lateral end turned towards the femur), 0 = parallel, - = medial tilt**. Source: Gomes 1988 (from memory).
 * Refuses a front that lies on the condyles' line.
 */
export function patellarTilt(condyles: Line<'axial'>, back: Direction<'axial'>, front: P): Outcome<number> {
  const forward = Math.sign(signedDistance(front, condyles));
  return forward === 0 ? cannot(NO_FORWARD) : ok(wrap180(-forward * angleFromTo(condyles.along, back)));
}

const NO_FORWARD = {
  code: 'patella-on-condyles',
  message: 'The front of the patella lies on the line of the condyles: it cannot be told which way forward is.',
  field: 'marks[patella-front]',
  mend: 'Place the mark on the front cortex of the patella.',
} as const;

/**
 * Patellar shift: middle of the back line against the groove, along the condyles' line, in the frame's unit. **+ = lateral, 0 = over the groove.**
 * Source: Gomes 1988 (from memory).
 */
export const patellarShift = (middle: P, groove: P, condyles: Direction<'axial'>): number =>
  dot(between(groove, middle), condyles as P);

/** Thickness of the bone between the back line and the front cortex, in the frame's unit, always positive. */
export const residualThickness = (back: Line<'axial'>, front: P): number => Math.abs(signedDistance(front, back));

const CONDYLES = ['skyline-condyle-medial', 'skyline-condyle-lateral'] as const;
const BACK = ['patella-back-medial', 'patella-back-lateral'] as const;
const GROOVE: LandmarkId = 'skyline-groove';
const FRONT: LandmarkId = 'patella-front';

const spanned = ([a, b]: readonly [LandmarkId, LandmarkId], r: Reading<'axial'>) => lineThrough(r.at(a), r.at(b));

const shared = { frame: 'axial' as const };

/** Everything that is measured on skyline films. */
export const AXIAL_MEASUREMENTS: readonly Definition<'axial'>[] = [
  {
    ...shared,
    id: 'patellar-tilt',
    label: 'Patellar tilt on the skyline',
    unit: 'deg',
    sign: '+ = lateral tilt, 0 = parallel to the condyles, - = medial tilt',
    rule: 'LIMB-28',
    source: 'Gomes 1988 (from memory)',
    normal: 'within 5; above 10 lateral in 6 of 147 retained buttons (Shield 2019)',
    readingSd: 2,
    variants: () => [
      {
        views: SKYLINE,
        inputs: [...CONDYLES, ...BACK, FRONT],
        formula: (r) =>
          combine(spanned(CONDYLES, r), direction(r.at(BACK[0]), r.at(BACK[1])), (condyles, back) =>
            patellarTilt(condyles, back, r.at(FRONT)),
          ),
      },
    ],
  },
  {
    ...shared,
    id: 'patellar-shift',
    label: 'Patellar shift on the skyline',
    unit: 'mm',
    sign: '+ = lateral, 0 = over the groove, - = medial',
    rule: 'LIMB-29',
    source: 'Gomes 1988 (from memory)',
    normal: 'within 5 (from memory)',
    needsScale: true,
    variants: () => [
      {
        views: SKYLINE,
        inputs: [...CONDYLES, GROOVE, ...BACK],
        formula: (r) => {
          const line = spanned(CONDYLES, r);
          if (!line.ok) return line;
          const middle = midpoint(r.at(BACK[0]), r.at(BACK[1]));
          return millimetres(patellarShift(middle, r.at(GROOVE), line.value.along), r);
        },
      },
    ],
  },
  {
    ...shared,
    id: 'patellar-thickness',
    label: 'Patella, thickness of the bone left',
    unit: 'mm',
    sign: 'thickness, always positive',
    rule: 'LIMB-30',
    source: 'bone between back line and front cortex',
    normal: 'at least 12 commonly believed necessary for another button; below 10 none of the usual kind',
    needsScale: true,
    variants: () => [
      {
        views: SKYLINE,
        inputs: [...BACK, FRONT],
        formula: (r) => {
          const back = spanned(BACK, r);
          return back.ok ? millimetres(residualThickness(back.value, r.at(FRONT)), r) : back;
        },
      },
    ],
  },
];
