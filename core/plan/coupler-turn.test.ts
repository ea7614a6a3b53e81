import { expect, test } from 'vitest';
import { couplerTurn } from './coupler-turn.ts';
import type { Plan } from './plan.ts';

const planWith = (tibialOffset: string | null, clock: number | null) =>
  ({
    construct: { kind: 'solved', answer: { best: { construct: { tibialOffset } } } },
    stems: { tibia: { chosen: { offset: { clock } } } },
  }) as unknown as Pick<Plan, 'stems' | 'construct'>;

test('STM-11 the turn of a coupler under the tray is told as an hour, halves too; without a coupler or an hour nothing is told', () => {
  expect(couplerTurn(planWith('O6', 6))).toBe("6 o'clock seen from the joint, 12 = anterior");
  expect(couplerTurn(planWith('O6', 7.5))).toBe("7:30 o'clock seen from the joint, 12 = anterior");
  expect(couplerTurn(planWith(null, 6))).toBeNull();
  expect(couplerTurn(planWith('O6', null))).toBeNull();
  expect(couplerTurn({ construct: { kind: 'infeasible' } } as unknown as Pick<Plan, 'construct'>)).toBeNull();
});
