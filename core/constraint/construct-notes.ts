import type { ConstraintLevel } from '../catalogue/catalogue.ts';
import type { Reason } from '../measure/outcome.ts';
import { levelRank } from './least-constraint.ts';

/** What of a construct bears on its constraint. */
export interface ConstrainedConstruct {
  readonly level: ConstraintLevel;
  /** Least level that the ligaments need. */
  readonly least: ConstraintLevel;
  /** J: femoral joint line proximal of its target, mm, - = distal. */
  readonly femurProximalMm: number;
  /** K: bearing surface proximal of the target, mm. */
  readonly bearingMm: number;
  readonly proximalTibia: boolean;
}

/** Joint line off its target beyond which added constraint is the wrong answer, mm (CON-9). */
export const LINE_FIRST_MM = 5;

/**
 * What to keep in mind about a construct's constraint (CON-9, CON-10); empty = nothing. Notes, never limits.
 *
 * Lengths in mm in the frames of the target joint line. Source: constraint is not balance, rebuild the joint line first
 * (review of instability after revision); 5 mm is a planning default, grade D.
 */
export function constructNotes(construct: ConstrainedConstruct): readonly Reason[] {
  const { level, least, femurProximalMm, bearingMm, proximalTibia } = construct;
  const notes: Reason[] = [];
  const off = Math.max(Math.abs(femurProximalMm), Math.abs(bearingMm));
  if (levelRank(level) > levelRank(least) && off > LINE_FIRST_MM)
    notes.push({
      code: 'CON-9',
      message: `Constraint is raised above what the ligaments need while the joint line stands ${off.toFixed(1)} mm off its target.`,
      mend: 'Bring the joint line back first: constraint is no balance.',
    });
  if (proximalTibia)
    notes.push({
      code: 'CON-10',
      message: 'A proximal tibial component takes the tubercle with it: the patellar tendon has to be attached anew.',
      mend: 'Plan the extensor mechanism with it, and what holds the tendon.',
    });
  return notes;
}
