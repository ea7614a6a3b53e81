import { constructNotes } from '../constraint/construct-notes.ts';
import { leastConstraint } from '../constraint/least-constraint.ts';
import type { Reason } from '../measure/outcome.ts';
import type { BoneState } from './bone-state.ts';
import type { Construct, ConstructEffect } from './construct.ts';

/** What to keep in mind about a construct in this knee: of the ligaments, then of the construct (CON-3 to CON-10). */
export function notesOn(construct: Construct, effect: ConstructEffect, state: BoneState): readonly Reason[] {
  const { level: least, notes } = leastConstraint(state);
  const { level, femurProximalMm } = construct;
  const proximalTibia = typeof construct.tibialSegmentMm === 'number';
  return [...notes, ...constructNotes({ level, least, femurProximalMm, bearingMm: effect.bearingMm, proximalTibia })];
}
