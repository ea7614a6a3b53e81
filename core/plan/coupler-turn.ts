import type { Plan } from './plan.ts';

/**
 * How the coupler under the tray of the proposed construct is turned (STM-11), in words such as "6 o'clock seen from the
 * joint, 12 = anterior"; null without such a coupler, or where one view is missing and so no hour is known.
 */
export function couplerTurn({ stems, construct }: Pick<Plan, 'stems' | 'construct'>): string | null {
  const clock = stems?.tibia.chosen?.offset?.clock;
  if (construct.kind !== 'solved' || !construct.answer.best.construct.tibialOffset || typeof clock !== 'number')
    return null;
  const hour = Math.floor(clock);
  return `${clock === hour ? hour : `${hour}:30`} o'clock seen from the joint, 12 = anterior`;
}
