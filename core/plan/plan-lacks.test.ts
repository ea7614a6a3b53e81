import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { squareKnee } from '../../cases/square-knee.ts';
import type { Catalogue } from '../catalogue/catalogue.ts';
import { describeConstruct } from '../gaps/describe-construct.ts';
import type { KitSet } from '../kit/set-list.ts';
import { makePlan } from './make-plan.ts';
import { planLacks } from './plan-lacks.ts';

const catalogue = JSON.parse(readFileSync(new URL('../../catalogues/demo.json', import.meta.url), 'utf8')) as Catalogue;
const plan = makePlan(squareKnee(), catalogue);
if (plan.construct.kind !== 'solved') throw new Error('The square knee has a construct.');
const { construct } = plan.construct.answer.best;
const lines = describeConstruct(construct, catalogue);

const set = (ref: string, parts: KitSet['parts']): KitSet => ({
  ref,
  name: ref,
  parts,
  owner: 'own-shelf',
  trays: 1,
  fee: 0,
  leadDays: 0,
});
const whole = set(
  'WHOLE',
  lines.map(({ ref, amount }) => ({ ref, count: amount })),
);

describe('what the plan needs and the room does not hold', () => {
  test('KIT-15 nothing where every part is there in its number', () => {
    expect(planLacks(construct, { catalogue, sets: [whole], bring: ['WHOLE'] })).toEqual([]);
  });

  test('KIT-15 every part where nothing is brought, with the sets that hold it', () => {
    const lacks = planLacks(construct, { catalogue, sets: [whole], bring: [] });
    expect(lacks.map((l) => l.ref).sort()).toEqual([...new Set(lines.map((l) => l.ref))].sort());
    expect(lacks.every((l) => l.sets.length === 1 && l.name !== '')).toBe(true);
  });

  test('KIT-15 pieces count: one augment where two are planned is a lack, two sets with one each are none', () => {
    const twice = { ...construct, distalAugments: { medial: 'EX-D3-4', lateral: 'EX-D3-4' } };
    const one = set('ONE', [{ ref: 'EX-D3-4', count: 1 }]);
    const other = { ...one, ref: 'OTHER' };
    const lacks = (bring: readonly string[]) =>
      planLacks(twice, { catalogue, sets: [whole, one, other], bring }).map((l) => [l.ref, l.sets]);
    const before = planLacks(twice, { catalogue, sets: [whole], bring: ['WHOLE'] }).length;
    expect(lacks(['WHOLE', 'ONE'])).toContainEqual(['EX-D3-4', ['OTHER']]);
    expect(lacks(['WHOLE', 'ONE', 'OTHER'])).toHaveLength(before - 1);
  });
});
