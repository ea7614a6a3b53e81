import type { BoneClass } from '../bone/bone-class.ts';
import type { ConstraintLevel } from '../catalogue/catalogue.ts';

/** What on one bone may call for a stem. */
export interface StemCall {
  readonly augments: number;
  readonly cone: boolean;
  readonly boneClass: BoneClass;
  readonly level: ConstraintLevel;
  readonly offsetCoupler: boolean;
}

/**
 * Why this bone needs a stem (STM-1); empty = it may go without.
 *
 * A stem wherever an augment, a cone, a defect of type 2 or 3, constraint above posterior-stabilised, or an offset
 * coupler (which joins only to a stem) stands on the bone. Sources: consensus (from memory), Rosso 2019.
 */
export function stemDemands(call: StemCall): readonly string[] {
  const why: string[] = [];
  if (call.augments > 0) why.push('augment');
  if (call.cone) why.push('cone');
  if (call.boneClass !== '1') why.push(`bone loss of type ${call.boneClass}`);
  if (call.level !== 'ps') why.push('added constraint');
  if (call.offsetCoupler) why.push('offset coupler');
  return why;
}
