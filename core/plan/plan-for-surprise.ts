import { DEFAULT_DRAWING, drawKnees } from '../forecast/draw-knees.ts';
import { forecasting } from '../forecast/forecast.ts';
import { notStatedOf } from '../forecast/not-stated.ts';
import { DEFAULT_WEIGHTS } from '../gaps/default-weights.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { retold } from '../measure/steps.ts';
import { canonicalJson } from './canonical-json.ts';
import { kitForSurprise, type MadeForecast } from './kit-for-surprise.ts';
import { makePlan } from './make-plan.ts';
import type { Missing, Plan } from './plan.ts';
import { withSlope } from './solve-for.ts';
import type { SurpriseAnswer, SurpriseInput, SurpriseProgress } from './surprise.ts';
import { SurpriseMemory } from './surprise-memory.ts';
import { missingSpreads, uncertainKnee } from './uncertain-knee.ts';

/**
 * The plan for the bone that may be found: the plan itself, the forecast over knees drawn from everything that is
 * uncertain, and the sets that must be in the room, in steps that tell how far they are.
 *
 * Pure: the same input gives the same answer, byte for byte; the seed is the case's. What cannot be made is named with
 * what is missing for it; the plan is given in any case. Never throws for what a case may hold.
 */
export function* planningForSurprise(
  input: SurpriseInput,
  memory: SurpriseMemory = new SurpriseMemory(),
): Generator<SurpriseProgress, SurpriseAnswer, unknown> {
  const { file, catalogue } = input;
  const key = forecastKey(input);
  const plan = memory.recall<Plan>('plan', key) ?? memory.keep('plan', key, makePlan(file, catalogue));
  const made = yield* forecastFor(input, { plan, key }, memory);
  const kit = yield* kitForSurprise(input, made, memory);
  return {
    plan,
    forecast: made.ok ? ok({ forecast: made.value.forecast, first: made.value.first }, made.warnings) : made,
    kit,
    missing: missingFor(input, plan),
  };
}

/** What plan and forecast read of a case. The rest may change without its being made anew. */
function forecastKey({ file, catalogue }: SurpriseInput): string {
  const { kit: _kit, found: _found, keptForecast: _kept, workUp: _workUp, ...read } = file;
  return canonicalJson([read, catalogue]);
}

function* forecastFor(
  input: SurpriseInput,
  { plan, key }: { readonly plan: Plan; readonly key: string },
  memory: SurpriseMemory,
): Generator<SurpriseProgress, Outcome<MadeForecast>, unknown> {
  const { file, catalogue } = input;
  const { forecast: settings } = file;
  if (!catalogue) return cannot(NO_CATALOGUE);
  if (!plan.bone.ok) return plan.bone;
  const knee = uncertainKnee(file, plan);
  if (!knee.ok) return knee;
  const known = memory.recall<MadeForecast>('forecast', key);
  if (known) return ok(known);
  const draws = settings?.draws ?? DEFAULT_DRAWING.draws;
  const seed = settings?.seed ?? DEFAULT_DRAWING.seed;
  const steps = forecasting({
    knees: drawKnees(knee.value, { draws, seed }),
    expected: plan.bone.value.state,
    catalogue: withSlope(catalogue, file.settings?.targetSlopeDeg),
    weights: file.settings?.weights ?? DEFAULT_WEIGHTS,
    seed,
    notStated: notStatedOf(knee.value),
  });
  const answer = yield* retold(
    steps,
    ({ part, done, of }): SurpriseProgress => ({
      part: 'forecast',
      done: of === 0 ? 1 : done / of,
      words: part === 'knees' ? `${done} of ${of} knees` : `${done} of ${of} bail-outs tried`,
    }),
  );
  return ok(memory.keep('forecast', key, { ...answer, key }));
}

const NO_CATALOGUE = {
  code: 'no-catalogue',
  message: 'No catalogue of implants is chosen.',
  field: 'catalogue',
  mend: 'Choose a catalogue.',
};

function missingFor({ file, catalogue, setList }: SurpriseInput, plan: Plan): readonly Missing[] {
  const missing: Missing[] = plan.construct.kind === 'not-attempted' ? [...plan.construct.because] : [];
  if (catalogue) missing.push(...missingSpreads(file, plan));
  if (!setList)
    missing.push({
      what: 'The sets that the hospital can have',
      field: 'kit.setList',
      wouldChange: 'What must be in the room, and what it costs.',
    });
  return missing;
}
