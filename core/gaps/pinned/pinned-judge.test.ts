import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { DEFAULT_WEIGHTS } from '../default-weights.ts';
import { dice, randomSurprise, randomWeights, someOfEveryKind } from '../judge/random-cases.ts';
import { tryEverything } from '../judge/try-everything.ts';
import { DEFAULT_SETTINGS, solve } from '../solve.ts';
import { pinsOfConstruct } from './pin-of-construct.ts';
import { isLengthPin, type PinId, pinsIn } from './pinned.ts';
import { randomPins } from './random-pins.ts';
import { leastCost } from './solve-pinned.ts';

const CASES = 200;
const ALONE = { ...DEFAULT_SETTINGS, alternatives: 0 };
const { leastPolyethyleneMm } = DEFAULT_SETTINGS;
const whole = demoCatalogue();

/** One random knee that has a construct, with a few things fixed by hand, as the solver and as the judge see it. */
function put(seed: number) {
  const d = dice(seed);
  const catalogue = someOfEveryKind(whole, d);
  const state = randomSurprise(d, catalogue);
  const question = { state, catalogue, weights: randomWeights(d, DEFAULT_WEIGHTS), settings: ALONE };
  const freeCost = leastCost(question);
  if (freeCost === null) return null;
  const free = solve(question);
  if (free.kind !== 'solved') throw new Error(`seed ${seed}: no construct`);
  const pinned = randomPins(d, catalogue, free.answer.best.construct);
  const least = leastCost({ ...question, pinned });
  const verdict = tryEverything({ ...question, leastPolyethyleneMm, pinned });
  return { question, freeCost, pinned, least, verdict };
}

describe('trying everything judges what is fixed by hand', () => {
  test(`GAP-40 the same least cost with the same pins, or none for both, on ${CASES} random knees`, {
    timeout: 600_000,
  }, () => {
    const differ: string[] = [];
    const met = { put: 0, solved: 0, clashing: 0, dearer: 0 };
    const pins = new Map<PinId, number>();
    for (let seed = 5001; met.put < CASES; seed++) {
      const knee = put(seed);
      if (!knee) continue;
      met.put++;
      const { question, freeCost, pinned, least, verdict } = knee;
      const judged = verdict?.cost ?? null;
      const same = least === null || judged === null ? least === judged : Math.abs(least - judged) < 1e-9;
      if (!same) differ.push(`${seed}: solver ${least}, judge ${judged}, ${JSON.stringify(pinned)}`);
      if (least === null) {
        met.clashing++;
        continue;
      }
      met.solved++;
      expect(least, `seed ${seed}`).toBeGreaterThan(freeCost - 1e-9);
      if (least > freeCost + 1e-6) met.dearer++;
      // The construct that is given has what was fixed.
      const answer = solve({ ...question, pinned });
      if (answer.kind !== 'solved') throw new Error(`seed ${seed}: no construct`);
      expect(answer.answer.best.cost, `seed ${seed}`).toBeCloseTo(least, 8);
      const has = pinsOfConstruct(answer.answer.best.construct, question.catalogue);
      for (const id of pinsIn(pinned)) {
        pins.set(id, (pins.get(id) ?? 0) + 1);
        if (isLengthPin(id)) expect(has[id], `seed ${seed} ${id}`).toBeCloseTo(pinned[id] ?? Number.NaN, 7);
        else expect(has[id], `seed ${seed} ${id}`).toEqual(pinned[id]);
      }
    }
    expect(differ).toEqual([]);
    // Every kind was really put to the test.
    expect(met.solved).toBeGreaterThan(CASES / 3);
    expect(met.clashing).toBeGreaterThan(20);
    expect(met.dearer).toBeGreaterThan(25);
    expect(Math.min(...pins.values())).toBeGreaterThan(3);
    expect(pins.size).toBe(14);
  });
});
