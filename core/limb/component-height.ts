import { FEMORAL_LINE, FEMORAL_SHAFT, type MarkedLine, TIBIAL_SHAFT, TRAY_LINE } from '../landmarks/bony-lines.ts';
import { type LandmarkId, landmark } from '../landmarks/landmark-table.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import type { Reading } from '../landmarks/reading.ts';
import type { Direction } from '../plane/direction.ts';
import { between, dot, midpoint, type Point } from '../plane/point.ts';
import { ANY_AP, type Definition, type Variant } from './definition.ts';

/**
 * Height of a point of a component over a point of its bone, along the bone's axis (pointing proximally), in the frame's unit.
 * **+ = proximal of the bony point.** One film says nothing of movement; the change between two films does (CMP rules).
 */
export const heightAlong = (part: Point<'coronal'>, bone: Point<'coronal'>, axis: Direction<'coronal'>): number =>
  dot(between(bone, part), axis);

type Place = 'middle' | 'medial' | 'lateral';

interface Level {
  readonly shaft: MarkedLine;
  readonly line: MarkedLine;
  /** Bony points that stay where they are, most telling first. */
  readonly bony: readonly LandmarkId[];
}

const TIBIA: Level = { shaft: TIBIAL_SHAFT, line: TRAY_LINE, bony: ['fibular-tip'] };
const FEMUR: Level = {
  shaft: FEMORAL_SHAFT,
  line: FEMORAL_LINE,
  bony: ['adductor-tubercle', 'lateral-epicondyle', 'medial-epicondyle'],
};

const placeOf = (at: Place, line: MarkedLine, r: Reading<'coronal'>): Point<'coronal'> => {
  const [medial, lateral] = line.inputs as readonly [LandmarkId, LandmarkId];
  if (at === 'middle') return midpoint(r.at(medial), r.at(lateral));
  return r.at(at === 'medial' ? medial : lateral);
};

const height = (level: Level, at: Place): readonly Variant<'coronal'>[] =>
  level.bony.map((bony) => ({
    name: `over: ${landmark(bony).label.toLowerCase()}`,
    views: ANY_AP,
    inputs: [...level.shaft.inputs, ...level.line.inputs, bony],
    formula: (r) => {
      const axis = level.shaft.direction(r);
      return axis.ok ? millimetres(heightAlong(placeOf(at, level.line, r), r.at(bony), axis.value), r) : axis;
    },
  }));

const defined = (id: string, label: string, variants: readonly Variant<'coronal'>[]): Definition<'coronal'> => ({
  id,
  label,
  frame: 'coronal',
  unit: 'mm',
  sign: '+ = proximal of the named bony point, along the shaft',
  rule: 'LIMB-27',
  source: 'subsidence against bony points, Ewald 1989 (from memory)',
  needsScale: true,
  variants: (state) => (state === 'replaced' ? variants : []),
});

/** Where each component stands along its bone: what subsidence between two dates is read from. */
export const COMPONENT_HEIGHTS: readonly Definition<'coronal'>[] = [
  defined('femoral-component-height', 'Femoral component along the femur', height(FEMUR, 'middle')),
  defined('tray-height', 'Tray along the tibia, middle', height(TIBIA, 'middle')),
  defined('tray-height-medial', 'Tray along the tibia, medial edge', height(TIBIA, 'medial')),
  defined('tray-height-lateral', 'Tray along the tibia, lateral edge', height(TIBIA, 'lateral')),
];
