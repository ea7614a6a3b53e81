import type { Construct } from '@gapline/core/gaps/construct.ts';
import { compareFound } from '@gapline/core/learning/compare-found.ts';
import type { KeptForecast } from '@gapline/core/learning/found.ts';
import { applyEdit } from '@gapline/core/plan/apply-edit.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../../catalogues/make-demo.ts';
import { foundAsPlanned, sameForecast } from './as-planned.ts';
import { cameWords, whatCame } from './event-words.ts';

const file: CaseFile = {
  format: 'gapline-case',
  version: '1.0',
  id: 'c',
  title: 'Knee',
  side: 'right',
  patient: {},
  films: [],
  marks: [],
  bone: { femurClass: '2A' },
  examination: { mcl: 'unknown', lcl: 'intact' },
};
const none = { medial: null, lateral: null };
const construct: Construct = {
  level: 'ps',
  femur: 'EX-F4R',
  distalAugments: none,
  posteriorAugments: none,
  tray: 'EX-T4',
  tibialAugments: { medial: 'EX-B4-5', lateral: null },
  insert: 'EX-I4P12',
  femoralStem: null,
  femoralOffset: null,
  tibialStem: null,
  femurProximalMm: 0,
  femurAnteriorMm: 0,
  posteriorShiftMm: 0,
  trayMm: -16,
  slopeDeg: 0,
};
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
