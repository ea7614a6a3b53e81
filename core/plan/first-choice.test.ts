import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { squareKnee } from '../../cases/square-knee.ts';
import type { Catalogue } from '../catalogue/catalogue.ts';
import type { CaseFile } from './case.ts';
import { makePlan } from './make-plan.ts';
import { planningForSurprise } from './plan-for-surprise.ts';
import type { SurpriseAnswer } from './surprise.ts';
import { missingSpreads } from './uncertain-knee.ts';

const catalogue = JSON.parse(readFileSync(new URL('../../catalogues/demo.json', import.meta.url), 'utf8')) as Catalogue;
const bare = squareKnee();
const held: CaseFile = {
  ...bare,
  examination: { ...bare.examination, openingSdMm: 1 },
  bone: { ...bare.bone, femurFixation: 'loose', tibiaFixation: 'loose' },
};
const spreads = Object.fromEntries(
  missingSpreads(held, makePlan(held, null)).map((m) => [m.field.replace('forecast.spreads.', ''), 0.8]),
);

function answerFor(file: CaseFile): SurpriseAnswer {
  const steps = planningForSurprise({ file, catalogue, setList: null, stock: null, today: '2025-06-01' });
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

describe('the forecast of a case', () => {
  test.each([undefined, 0, 5])(
    'FOR-10 its first choice is the construct of the plan, with a slope of %s asked for',
    (slope) => {
      const file: CaseFile = {
        ...held,
        settings: { ...held.settings, ...(slope === undefined ? {} : { targetSlopeDeg: slope }) },
        forecast: { draws: 10, seed: 3, spreads },
      };
      const { plan, forecast } = answerFor(file);
      if (!forecast.ok || plan.construct.kind !== 'solved') throw new Error('forecast and plan are made');
      expect(forecast.value.first).toEqual(plan.construct.answer.best.construct);
      expect(forecast.value.forecast).toMatchObject({ draws: 10, seed: 3 });
    },
  );
});
