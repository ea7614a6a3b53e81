import { combine } from '../measure/combine.ts';
import { type Outcome, ok } from '../measure/outcome.ts';
import { type Direction, direction, normalOf } from '../plane/direction.ts';
import { type Line, lineThrough } from '../plane/line.ts';
import { midpoint, plus } from '../plane/point.ts';
import type { LandmarkId } from './landmark-table.ts';
import { insertThickness } from './millimetres.ts';
import type { Reading } from './reading.ts';

type R = Reading<'sagittal'>;

/** The axes that a shaft gives on a lateral film. Each has its own bias: a value without its axis means nothing. */
export type ShaftAxis = 'both' | 'anterior' | 'posterior';

export const shaftMarks = (bone: 'femoral' | 'tibial', axis: ShaftAxis): readonly LandmarkId[] => {
  const cortices = axis === 'both' ? (['anterior', 'posterior'] as const) : ([axis] as const);
  return cortices.flatMap((c) => [`${bone}-sagittal-proximal-${c}`, `${bone}-sagittal-distal-${c}`] as const);
};

/** Axis of a shaft on a lateral film, from distal to proximal. */
export function shaftLine(bone: 'femoral' | 'tibial', axis: ShaftAxis, r: R): Outcome<Line<'sagittal'>> {
  const level = (at: 'proximal' | 'distal') =>
    axis === 'both'
      ? midpoint(r.at(`${bone}-sagittal-${at}-anterior`), r.at(`${bone}-sagittal-${at}-posterior`))
      : r.at(`${bone}-sagittal-${at}-${axis}`);
  return lineThrough(level('distal'), level('proximal'));
}

export const PLATEAU: readonly LandmarkId[] = ['plateau-anterior', 'plateau-posterior'];

/** The plateau or the tray's metal line, from back to front. */
export const plateauDirection = (r: R): Outcome<Direction<'sagittal'>> =>
  direction(r.at('plateau-posterior'), r.at('plateau-anterior'));

/**
 * The bearing surface as a line from back to front through its front corner: the plateau itself or, over a tray, the
 * tray's metal line moved by the insert's thickness along its normal.
 */
export function bearingLine(over: 'plateau' | 'tray', r: R): Outcome<Line<'sagittal'>> {
  if (over === 'plateau') return lineThrough(r.at('plateau-anterior'), plus(r.at('plateau-anterior'), forward(r)));
  return combine(plateauDirection(r), insertThickness(r), (along, thickness) =>
    ok({ through: plus(r.at('plateau-anterior'), normalOf(along), thickness), along }),
  );
}

const forward = (r: R) => {
  const [a, p] = [r.at('plateau-anterior'), r.at('plateau-posterior')];
  return { frame: a.frame, x: a.x - p.x, y: a.y - p.y };
};
