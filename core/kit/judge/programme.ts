import type { CoverGroup } from '../cover/cover.ts';
import { indicesOf } from '../set-mask.ts';

/** A choice of sets as it is asked. */
export interface ChoiceAsked {
  readonly costs: readonly number[];
  readonly groups: readonly CoverGroup[];
  /** Weight that is to be covered. */
  readonly need: number;
}

/**
 * The choice of sets as a mixed-integer programme in the LP text format, written down from the definition: x a set in
 * the room or not, y an option that is used (no more than its sets), u a group that is covered (no more than its options).
 * Options and groups may be fractions: with whole x they gain nothing by it.
 */
export function kitProgramme({ costs, groups, need }: ChoiceAsked): string {
  const rows: string[] = [];
  const bounds: string[] = [];
  const term = (factor: number, name: string) => `${factor < 0 ? '-' : '+'} ${Math.abs(factor)} ${name}`;
  let y = 0;
  groups.forEach(({ options }, g) => {
    const used = options.map((option) => {
      const name = `y${y++}`;
      bounds.push(`0 <= ${name} <= 1`);
      for (const set of indicesOf(option)) rows.push(`${name} - x${set} <= 0`);
      return name;
    });
    bounds.push(`0 <= u${g} <= 1`);
    rows.push(`u${g} ${used.map((name) => `- ${name}`).join(' ')} <= 0`);
  });
  const covered = groups.map(({ weight }, g) => term(weight, `u${g}`)).join('\n ');
  return [
    'Minimize',
    ` cost: ${costs.map((cost, set) => term(cost, `x${set}`)).join('\n ')}`,
    'Subject To',
    ...rows.map((row, i) => ` r${i}: ${row}`),
    ` share: ${covered} >= ${need}`,
    'Bounds',
    ...bounds.map((bound) => ` ${bound}`),
    'Binary',
    ` ${costs.map((_, set) => `x${set}`).join(' ')}`,
    'End',
    '',
  ].join('\n');
}
