import { describe, expect, test } from 'vitest';
import { JOINT_LINE, JOINT_LINE_CAUSE, summed } from './shared-spread.ts';

describe('PLAN-20 errors that several values have in common', () => {
  test('one cause adds with its sign: what lifts both ends of a distance does nothing to it', () => {
    expect(summed([1, { mark: 1.5 }], [-1, { mark: 1.5, scale: 0.3 }])).toEqual({ mark: 0, scale: -0.3 });
  });

  test('a target joint line that is too high takes from the femur what it gives to the tibia', () => {
    const sum = summed([-2, JOINT_LINE], [2, JOINT_LINE]);
    expect(sum[JOINT_LINE_CAUSE]).toBe(0);
  });

  test('a number without named causes adds none', () => expect(summed([1, undefined])).toEqual({}));
});
