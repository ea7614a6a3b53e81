import type { Construct } from '@gapline/core/gaps/construct.ts';
import { plainConstruct } from '@gapline/core/gaps/easy-knee.ts';
import { compareFound } from '@gapline/core/learning/compare-found.ts';
import type { KeptForecast } from '@gapline/core/learning/found.ts';
import { applyEdit } from '@gapline/core/plan/apply-edit.ts';
import { bareCase } from '@gapline/core/plan/bare-case.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../../catalogues/make-demo.ts';
import { foundAsPlanned, sameForecast } from './as-planned.ts';
import { cameWords, whatCame } from './event-words.ts';
import { offerEdit } from './offer-edit.ts';

const file: CaseFile = {
  ...bareCase,
  bone: { femurClass: '2A' },
  examination: { mcl: 'unknown', lcl: 'intact' },
};
const construct: Construct = { ...plainConstruct, tibialAugments: { medial: 'EX-B4-5', lateral: null } };
const kept: KeptForecast = {
  on: '2026-01-01',
  seed: 1,
  draws: 2000,
  coreVersion: 'x',
  shares: [
    { event: 'insert=EX-I4P12', share: 0.6 },
    { event: 'insert=EX-I4P14', share: 0.4 },
    { event: 'fracture=yes', share: 0.02 },
    { event: 'tray=EX-T3', share: 1 },
  ],
  lengths: [],
};

describe('what was found', () => {
  test('all as planned is accepted by the case as it stands; what nobody knew before is left open', () => {
    const found = foundAsPlanned(file, construct, '2026-02-03');
    const taken = applyEdit(file, { kind: 'set', field: '/found', value: found });
    expect(taken.ok && taken.value.found).toEqual(found);
    expect(found).toMatchObject({ femurClass: '2A', lcl: 'intact', fracture: false, kitSufficed: true });
    expect(found.used).toMatchObject({ insert: 'EX-I4P12', femoralStem: null, femoralCone: null });
    expect(found).not.toHaveProperty('mcl');
    expect(found).not.toHaveProperty('tibiaClass');
    expect(found).not.toHaveProperty('tibiaMm');
  });

  test('a kept forecast is the plan’s own until a share changes; another day does not make it old', () => {
    expect(sameForecast(kept, { ...kept, on: '2026-01-09' })).toBe(true);
    expect(sameForecast(kept, { ...kept, shares: kept.shares.slice(1) })).toBe(false);
    expect(sameForecast(kept, { ...kept, seed: 2 })).toBe(false);
  });

  test('each field tells what came with its share; what did not come has the rest of it', () => {
    const came = whatCame(compareFound(kept, foundAsPlanned(file, construct, '2026-02-03')).events);
    expect(came).toEqual([
      { field: 'insert', value: 'EX-I4P12', share: 0.6 },
      { field: 'fracture', value: 'no', share: 0.98 },
      { field: 'tray', value: null, share: 0 },
    ]);
    const catalogue = demoCatalogue();
    const name = catalogue.inserts.find((i) => i.ref === 'EX-I4P12')!.name;
    expect(came.map((c) => cameWords(c, catalogue))).toEqual([name, 'no', 'something that was not forecast']);
  });
});

describe('an offer that is accepted', () => {
  const loss = {
    kind: 'loss',
    surface: 'tibia',
    label: 'Tibia',
    n: 6,
    meanMm: 2,
    offeredMm: 1.1,
    sdMm: 0.4,
    spreadFactor: 1.2,
    priorCases: 5,
  } as const;

  test('sets the chance in this case, and the case takes it', () => {
    const chance = { kind: 'chance', field: 'fractureChance', label: 'Fracture', n: 6, came: 2 } as const;
    const edit = offerEdit({ ...chance, stated: 0.02, offered: 0.13751, sd: 0.08, priorCases: 10 }, file);
    const taken = edit && applyEdit(file, edit);
    expect(taken?.ok && taken.value.forecast?.fractureChance).toBe(0.138);
  });

  test('shifts the estimate of just this fixation and surface, and leaves the others', () => {
    const other = { fixation: 'ingrown', surface: 'tibia', leastMm: 0, likelyMm: 2, mostMm: 5 } as const;
    const held: CaseFile = { ...file, bone: { tibiaFixation: 'cemented', removalEstimates: [other] } };
    const edit = offerEdit(loss, held);
    const taken = edit && applyEdit(held, edit);
    const after = taken?.ok ? (taken.value.bone?.removalEstimates ?? []) : [];
    expect(after[0]).toEqual(other);
    expect(after[1]).toMatchObject({ fixation: 'cemented', surface: 'tibia' });
    expect(after[1]!.likelyMm).toBeCloseTo(1 + 1.1, 9);
    expect(after).toHaveLength(2);
  });

  test('is not possible while nobody says how the present component is held', () => {
    expect(offerEdit(loss, file)).toBeNull();
  });
});
