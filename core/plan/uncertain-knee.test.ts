import { describe, expect, test } from 'vitest';
import { squareKnee } from '../../cases/square-knee.ts';
import { drawKnees } from '../forecast/draw-knees.ts';
import { fieldOf, measuredFields } from '../forecast/field.ts';
import type { UncertainKnee } from '../forecast/uncertain-knee.ts';
import { meanAndSd } from '../measure/normal-draws.ts';
import type { CaseFile } from './case.ts';
import { makePlan } from './make-plan.ts';
import { JOINT_LINE_CAUSE } from './shared-spread.ts';
import { missingSpreads, uncertainKnee } from './uncertain-knee.ts';

const bare = squareKnee();

/** The square knee with what a forecast asks for: openings with a spread, fixations, and whatever else carries none. */
function complete(more: Partial<CaseFile> = {}): CaseFile {
  const file: CaseFile = {
    ...bare,
    examination: { ...bare.examination, openingSdMm: 1 },
    bone: { ...bare.bone, femurFixation: 'cemented', tibiaFixation: 'loose' },
    ...more,
  };
  const stated = missingSpreads(file, makePlan(file, null)).map((m): [string, number] => [
    m.field.replace('forecast.spreads.', ''),
    0.8,
  ]);
  return {
    ...file,
    forecast: { ...file.forecast, spreads: { ...Object.fromEntries(stated), ...file.forecast?.spreads } },
  };
}

const plain = complete();
const plan = makePlan(plain, null);

function known(file: CaseFile): UncertainKnee {
  const knee = uncertainKnee(file, makePlan(file, null));
  if (!knee.ok) throw new Error(`${knee.reason.message} ${knee.reason.field}`);
  return knee.value;
}

describe('FOR-8 what a forecast asks for', () => {
  test('a missing spread refuses it and is named with its field; nothing is taken as zero', () => {
    const asked = missingSpreads(bare, makePlan(bare, null));
    const fields = asked.map((m) => m.field);
    expect(fields).toContain('bone.femurFixation');
    expect(fields).toContain('bone.tibiaFixation');
    const refused = uncertainKnee(bare, makePlan(bare, null));
    expect(refused).toMatchObject({ ok: false, reason: { code: 'spread-missing', field: asked[0]?.field } });
    if (!refused.ok) expect(refused.reason.message).toContain(`${asked.length} spreads are`);
  });

  test('each named spread, once stated, is missed no more; the last one opens the forecast', () => {
    expect(missingSpreads(plain, plan)).toEqual([]);
    for (const field of Object.keys(plain.forecast?.spreads ?? {})) {
      const { [field]: _, ...rest } = plain.forecast?.spreads ?? {};
      const file = { ...plain, forecast: { spreads: rest } };
      expect(missingSpreads(file, plan).map((m) => m.field)).toEqual([`forecast.spreads.${field}`]);
      expect(uncertainKnee(file, plan).ok).toBe(false);
    }
    expect(uncertainKnee(plain, plan).ok).toBe(true);
  });

  test('a measured spread goes before one stated by hand', () => {
    const file = { ...plain, forecast: { spreads: { ...plain.forecast?.spreads, 'tibiaMm.medial': 50 } } };
    expect(known(file).spreads['tibiaMm.medial']).toBeLessThan(5);
  });

  test('a chance that is not stated stays not stated; one beyond 0 to 1 and a spread below 0 are refused', () => {
    expect(known(plain).chances.fracture.chance).toBeNull();
    expect(known({ ...plain, forecast: { ...plain.forecast, fractureChance: 0.1 } }).chances.fracture.chance).toBe(0.1);
    for (const bad of [-0.1, 1.2, Number.NaN])
      expect(uncertainKnee({ ...plain, forecast: { ...plain.forecast, mclWorseChance: bad } }, plan)).toMatchObject({
        ok: false,
        reason: { code: 'chance-out-of-range', field: 'forecast.mclWorseChance' },
      });
    const spreads = { ...plain.forecast?.spreads, femurWidthMm: -1 };
    expect(uncertainKnee({ ...plain, forecast: { spreads } }, plan)).toMatchObject({
      ok: false,
      reason: { code: 'spread-out-of-range', field: 'forecast.spreads.femurWidthMm' },
    });
  });

  test('without a bone state there is nothing to draw from: the reason is that of the plan', () => {
    const file = { ...bare, marks: [] };
    expect(uncertainKnee(file, makePlan(file, null))).toMatchObject({ ok: false });
  });
});

describe('FOR-2 spreads of a case, each counted once', () => {
  const knee = { ...known(plain), removal: { femurDistal: null, femurPosterior: null, tibia: null } };
  const N = 3000;
  const drawn = drawKnees(knee, { draws: N, seed: 1 }).map((k) => k.state);
  const origins = new Map(plan.bone.ok ? plan.bone.value.origins.map((o) => [o.field, o]) : []);

  test('every field scatters by just the spread of its origin, whatever it shares', () => {
    let shared = 0;
    for (const field of measuredFields(knee.expected)) {
      const { sd } = meanAndSd(drawn.map((state) => fieldOf(state, field) ?? Number.NaN));
      const stated = origins.get(field)?.sd ?? plain.forecast?.spreads?.[field] ?? Number.NaN;
      // The flexion contact may not come before the extension contact: a little of its spread is cut off.
      const tolerance = field === 'flexionContactBehindMm' ? 0.1 : 4 / Math.sqrt(2 * N);
      expect([field, Math.abs(sd / stated - 1) < tolerance]).toEqual([field, true]);
      if (origins.get(field)?.shared) shared++;
    }
    expect(shared).toBeGreaterThanOrEqual(8);
  });

  test('the joint line is one of the causes, so the extension gap scatters less than its parts would alone', () => {
    expect(knee.jointLineSdMm).toBeGreaterThan(0);
    expect(origins.get('tibiaMm.medial')?.shared?.[JOINT_LINE_CAUSE]).toBeGreaterThan(0);
    const gap = meanAndSd(drawn.map((s) => s.femurDistalMm.medial + s.tibiaMm.medial + s.extensionLaxityMm.medial)).sd;
    const parts = (['femurDistalMm.medial', 'tibiaMm.medial', 'extensionLaxityMm.medial'] as const).map(
      (field) => origins.get(field)?.sd ?? 0,
    );
    expect(gap).toBeLessThan(0.9 * Math.hypot(...parts));
  });

  test('the posterior target moves size, support and flexion laxity together: their sum stays nearly as it was', () => {
    const size = drawn.map((s) => s.anteriorToPosteriorMm);
    const sum = drawn.map((s) => s.anteriorToPosteriorMm + s.flexionLaxityMm.medial);
    expect(meanAndSd(sum).sd).toBeLessThan(meanAndSd(size).sd);
  });
});

describe('FOR-4 loss at removal of a case', () => {
  test('by fixation; a loss stated for this knee is the likely one and is taken off the expected bone', () => {
    expect(known(plain).removal.femurDistal).toMatchObject({ leastMm: 0, likelyMm: 1, mostMm: 3 });
    const stated = complete({
      bone: { ...plain.bone, removalLossMm: { femurDistal: 2.5, femurPosterior: 0.5, tibia: 4 } },
    });
    const knee = known(stated);
    expect(knee.removal.femurDistal).toMatchObject({ leastMm: 1.5, likelyMm: 2.5, mostMm: 4.5 });
    expect(knee.removal.femurPosterior).toMatchObject({ leastMm: 0, likelyMm: 0.5, mostMm: 2.5 });
    for (const field of measuredFields(knee.expected))
      expect(fieldOf(knee.expected, field)).toBeCloseTo(fieldOf(known(plain).expected, field) ?? Number.NaN, 9);
    const planned = makePlan(stated, null).bone;
    if (planned.ok) expect(planned.value.state.tibiaMm.medial - knee.expected.tibiaMm.medial).toBeCloseTo(4, 9);
  });

  test("the practice's own estimate goes before the default, and says so", () => {
    const own = { fixation: 'cemented', surface: 'femur-distal', leastMm: 0, likelyMm: 4, mostMm: 9 } as const;
    const { femurDistal } = known(complete({ bone: { ...plain.bone, removalEstimates: [own] } })).removal;
    expect(femurDistal).toMatchObject({ likelyMm: 4, mostMm: 9, from: "the practice's own estimate" });
  });

  test('without a fixation a stated loss needs a stated spread', () => {
    const { femurFixation: _, ...bone } = plain.bone ?? {};
    const loss = { ...bone, removalLossMm: { femurDistal: 2, femurPosterior: 2, tibia: 2 } };
    const file: CaseFile = { ...plain, bone: loss };
    expect(missingSpreads(file, makePlan(file, null)).map((m) => m.field)).toEqual([
      'bone.femurFixation',
      'bone.femurFixation',
    ]);
    const spreads = { ...plain.forecast?.spreads, 'removalLossMm.femurDistal': 0.5, 'removalLossMm.femurPosterior': 1 };
    const { removal } = known({ ...file, forecast: { spreads } });
    expect(removal.femurDistal?.mostMm).toBeCloseTo(2 + 0.5 * Math.sqrt(6), 9);
    expect(removal.femurPosterior?.leastMm).toBe(0);
  });
});
