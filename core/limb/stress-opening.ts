import { FEMORAL_LINE, tibialLine } from '../landmarks/bony-lines.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import type { View } from '../landmarks/view.ts';
import { combine } from '../measure/combine.ts';
import { ok, type Warning } from '../measure/outcome.ts';
import { type Line, lineThrough, signedDistance } from '../plane/line.ts';
import type { Point } from '../plane/point.ts';
import type { Definition, Variant } from './definition.ts';
import { jointLineConvergence } from './jlca.ts';

/**
 * Opening of one compartment under stress, in the frame's unit: height of its condyle over the tibial line less that of the other condyle, which
 * the stress presses home. The insert's thickness enters both alike and falls out. `tibial` runs from medial to lateral.
 * **+ = the stressed side opens, 0 = both in contact.** Valid while the other compartment is in contact. Derived.
 */
export const stressOpening = (opening: Point<'coronal'>, closed: Point<'coronal'>, tibial: Line<'coronal'>): number =>
  signedDistance(opening, tibial) - signedDistance(closed, tibial);

const OTHER_SIDE: Warning = {
  code: 'other-side-taken-in-contact',
  message:
    'The other compartment is taken to be in contact; force and flexion are those of the film and not known here.',
  mend: 'State force and flexion in the note; 15 Nm in slight flexion is usual.',
};

interface Stress {
  readonly id: 'varus' | 'valgus';
  readonly view: View;
  readonly opens: LandmarkId;
  readonly closed: LandmarkId;
  readonly side: 'lateral' | 'medial';
  readonly normalDeg: string;
}

const STRESSES: readonly Stress[] = [
  {
    id: 'varus',
    view: 'stress-varus',
    opens: 'lateral-condyle-distal',
    closed: 'medial-condyle-distal',
    side: 'lateral',
    normalDeg: '2.8 ± 1.3 at 15 Nm, Heesterbeek 2008; 4.9, Okazaki 2006 (native knees)',
  },
  {
    id: 'valgus',
    view: 'stress-valgus',
    opens: 'medial-condyle-distal',
    closed: 'lateral-condyle-distal',
    side: 'medial',
    normalDeg: '2.3 ± 0.9 at 15 Nm, Heesterbeek 2008; 2.4, Okazaki 2006 (native knees)',
  },
];

const angle = (s: Stress, state: 'native' | 'replaced'): Variant<'coronal'> => {
  const tibia = tibialLine(state);
  const sign = s.side === 'lateral' ? 1 : -1;
  return {
    views: [s.view],
    inputs: [...FEMORAL_LINE.inputs, ...tibia.inputs],
    cautions: [OTHER_SIDE],
    formula: (r) =>
      combine(FEMORAL_LINE.direction(r), tibia.direction(r), (f, t) => ok(sign * jointLineConvergence(f, t))),
  };
};

const length = (s: Stress, state: 'native' | 'replaced'): Variant<'coronal'> => {
  const tibia = tibialLine(state);
  const [medial, lateral] = tibia.inputs as readonly [LandmarkId, LandmarkId];
  return {
    name: 'against the other compartment',
    views: [s.view],
    inputs: [...FEMORAL_LINE.inputs, ...tibia.inputs],
    cautions: [OTHER_SIDE],
    formula: (r) => {
      const line = lineThrough(r.at(medial), r.at(lateral));
      return line.ok ? millimetres(stressOpening(r.at(s.opens), r.at(s.closed), line.value), r) : line;
    },
  };
};

/** Opening of either side on the film that stresses it, as an angle and in mm. */
export const STRESS_OPENINGS: readonly Definition<'coronal'>[] = STRESSES.flatMap((s): Definition<'coronal'>[] => [
  {
    id: `${s.id}-stress-angle`,
    label: `Opening under ${s.id} stress, ${s.side} side`,
    frame: 'coronal',
    unit: 'deg',
    sign: `+ = opens on the ${s.side} side, 0 = parallel`,
    rule: 'LIMB-31',
    source: 'Heesterbeek 2008; repeatability ± 1.2 (95 %) in extension, Kappel 2019',
    normal: s.normalDeg,
    readingSd: 0.8,
    variants: (state) => [angle(s, state)],
  },
  {
    id: `${s.id}-stress-opening`,
    label: `Opening under ${s.id} stress, ${s.side} side, length`,
    frame: 'coronal',
    unit: 'mm',
    sign: `+ = opens on the ${s.side} side, 0 = as much as the other`,
    rule: 'LIMB-31',
    source: 'difference of both compartments (derived); 1 degree opens 0.87 mm at condyles 50 mm apart',
    needsScale: true,
    variants: (state) => [length(s, state)],
  },
]);
