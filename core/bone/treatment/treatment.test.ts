import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BONE_CLASSES } from '../class-worse.ts';
import { type DefectFacts, YOUNG_BELOW } from './defect-facts.ts';
import { EXPERT_CONFLICTS } from './expert-conflicts.ts';
import { REPORTED, TREATMENTS, type TreatmentId } from './options.ts';
import { STEM_RULES } from './stem-rules.ts';
import { treatmentOptions } from './treatment-options.ts';
import { TREATMENT_RULES } from './treatment-rules.ts';

const known: DefectFacts = {
  boneClass: '2A',
  quality: 'good',
  depthMm: 8,
  unsupportedPct: 45,
  containment: 'contained',
  age: 72,
  demand: 'high',
  attachmentLost: false,
  failedBefore: false,
};
const option = (id: TreatmentId, facts: Partial<DefectFacts>) => {
  const found = treatmentOptions({ ...known, ...facts }).find((o) => o.id === id);
  if (!found) throw new Error(id);
  return found;
};
const verdict = (id: TreatmentId, facts: Partial<DefectFacts>) => option(id, facts).verdict;
const rulesOf = (id: TreatmentId, facts: Partial<DefectFacts>) => option(id, facts).why.map((w) => w.rule);

// Thresholds of Rosso 2019 (J Orthop Surg Res), table 2, and of Kang 2019 (J Clin Med 8:384) where the title names no other source.
describe('treatment by defect', () => {
  test('TRE-1 type 1 under 5 mm and half of the surface: cement or morselised graft', () => {
    const minor = { boneClass: '1', depthMm: 4, unsupportedPct: 30 } as const;
    expect([verdict('cement', minor), verdict('morselised-graft', minor)]).toEqual(['offered', 'offered']);
    expect(verdict('cement', { ...minor, unsupportedPct: 50 })).toBe('not-for-this-defect');
    expect(verdict('block-augment', minor)).toBe('not-for-this-defect');
  });

  test('TRE-2 type 1, 5 to 10 mm: cement and screws, or morselised graft', () => {
    for (const depthMm of [6, 10]) {
      const facts = { boneClass: '1', depthMm } as const;
      expect([verdict('cement-screws', facts), verdict('morselised-graft', facts)]).toEqual(['offered', 'offered']);
      expect(verdict('cement', facts)).toBe('not-for-this-defect');
    }
  });

  test('TRE-3 type 2A, 5 to 10 mm: screws only where little is asked of the knee', () => {
    expect(verdict('cement-screws', { demand: 'low' })).toBe('offered');
    expect(verdict('cement-screws', { demand: 'high' })).toBe('advised-against');
    const { demand: _, ...open } = known;
    const screws = treatmentOptions(open).find((o) => o.id === 'cement-screws');
    expect(screws?.verdict).toBe('depends');
    expect(screws?.missing).toEqual([
      {
        fact: 'demand',
        wouldChange: 'offered if little is asked of the knee; advised against if much is asked of the knee',
      },
    ]);
  });

  test('TRE-4 a class 2A that is small is treated as type 1, and says that class and size disagree', () => {
    const small = { depthMm: 4, unsupportedPct: 30 };
    expect(verdict('cement', small)).toBe('offered');
    expect(option('cement', small).why[0]?.text).toContain('disagree');
    expect(verdict('cement', { ...small, unsupportedPct: 45 })).toBe('not-for-this-defect');
  });

  test('TRE-5 over 10 mm neither cement nor loose graft', () => {
    for (const id of ['cement', 'cement-screws', 'morselised-graft'] as const)
      for (const boneClass of BONE_CLASSES) expect(verdict(id, { boneClass, depthMm: 10.5 })).toBe('advised-against');
  });

  test('TRE-6 a block from over 5 mm or over 40 % on', () => {
    expect(verdict('block-augment', { depthMm: 5.5, unsupportedPct: 10 })).toBe('offered');
    expect(verdict('block-augment', { depthMm: 3, unsupportedPct: 41 })).toBe('offered');
    expect(verdict('block-augment', { depthMm: 5, unsupportedPct: 40 })).toBe('not-for-this-defect');
  });

  test('TRE-7 no block over 20 mm, whatever else is known; 20 mm may still be built (Kang 2019)', () => {
    expect(verdict('block-augment', { depthMm: 20.1 })).toBe('refused');
    expect(verdict('block-augment', { depthMm: 20 })).toBe('advised-against');
    for (const boneClass of BONE_CLASSES) expect(verdict('block-augment', { boneClass, depthMm: 22 })).toBe('refused');
    const open = option('block-augment', { depthMm: null });
    expect(open.verdict).toBe('offered');
    expect(open.missing.find((m) => m.fact === 'depthMm')?.wouldChange).toBe(
      'advised against if deeper than 15 mm; refused if deeper than 20 mm',
    );
  });

  test('TRE-8 a block over 15 mm is advised against', () => {
    expect(verdict('block-augment', { depthMm: 15 })).toBe('offered');
    expect(verdict('block-augment', { depthMm: 16 })).toBe('advised-against');
  });

  test('TRE-9 over 10 mm two blocks rather than one', () => {
    expect(rulesOf('block-augment', { depthMm: 12 })).toContain('TRE-9');
    expect(rulesOf('block-augment', { depthMm: 10 })).not.toContain('TRE-9');
  });

  test('TRE-10 grafts in the young; the age is a default of this project', () => {
    for (const id of ['structural-graft', 'impaction-graft'] as const) {
      expect(verdict(id, { age: YOUNG_BELOW - 1 })).toBe('offered');
      expect(verdict(id, { age: YOUNG_BELOW })).toBe('advised-against');
      expect(verdict(id, { age: 50, boneClass: '1', depthMm: 3, unsupportedPct: 10 })).toBe('not-for-this-defect');
    }
  });

  test('TRE-11 the classic place of a structural graft is said and changes no verdict', () => {
    expect(rulesOf('structural-graft', { depthMm: 18 })).toContain('TRE-11');
    expect(verdict('structural-graft', { depthMm: 18 })).toBe(verdict('structural-graft', { depthMm: 12 }));
  });

  test('TRE-12 graft in an open defect needs mesh', () => {
    expect(rulesOf('impaction-graft', { containment: 'uncontained' })).toContain('TRE-12');
    expect(rulesOf('impaction-graft', { containment: 'unknown' })).not.toContain('TRE-12');
  });

  test('TRE-13 cone or sleeve in 2B and 3', () => {
    const cones = BONE_CLASSES.map((boneClass) => [verdict('cone', { boneClass }), verdict('sleeve', { boneClass })]);
    expect(cones).toEqual([
      ['not-for-this-defect', 'not-for-this-defect'],
      ['not-for-this-defect', 'not-for-this-defect'],
      ['offered', 'offered'],
      ['offered', 'offered'],
    ]);
  });

  test('TRE-14 cone or sleeve in 2A of weak bone', () => {
    expect(verdict('cone', { quality: 'osteoporotic' })).toBe('offered');
    expect(verdict('sleeve', { quality: 'sclerotic' })).toBe('offered');
    expect(verdict('cone', { quality: 'unknown' })).toBe('depends');
  });

  test('TRE-15 a small cone may be considered in very sclerotic type 1', () => {
    expect(verdict('cone', { boneClass: '1', quality: 'sclerotic' })).toBe('offered');
    expect(verdict('sleeve', { boneClass: '1', quality: 'sclerotic' })).toBe('not-for-this-defect');
  });

  test('TRE-16 segmental component: type 3, attachments or reconstruction lost, little asked of the knee', () => {
    const lost = { boneClass: '3', attachmentLost: true, demand: 'low' } as const;
    expect(verdict('segmental', lost)).toBe('offered');
    expect(verdict('segmental', { ...lost, attachmentLost: false })).toBe('not-for-this-defect');
    expect(verdict('segmental', { ...lost, attachmentLost: false, failedBefore: true })).toBe('offered');
    expect(verdict('segmental', { ...lost, demand: 'high' })).toBe('advised-against');
    expect(verdict('segmental', { ...lost, boneClass: '2B' })).toBe('not-for-this-defect');
  });

  test('TRE-17 custom component: last resort after failed reconstruction', () => {
    expect(verdict('custom', { boneClass: '3', failedBefore: true })).toBe('offered');
    expect(verdict('custom', { boneClass: '3' })).toBe('not-for-this-defect');
  });

  test('TRE-18 in the young the price of taking a cone or sleeve out is said', () => {
    expect(rulesOf('cone', { boneClass: '2B', age: 55 })).toContain('TRE-18');
    expect(rulesOf('cone', { boneClass: '2B', age: 75 })).not.toContain('TRE-18');
  });

  test('TRE-19 a sleeve is told to follow the canal', () => {
    expect(rulesOf('sleeve', { boneClass: '3' })).toContain('TRE-19');
  });

  test('BONE-6 facts of the trade: a type 1 defect under 10 mm needs no block, graft block or cone', () => {
    for (const depthMm of [0, 3, 5, 7, 9.9])
      for (const id of ['block-augment', 'structural-graft', 'cone', 'sleeve', 'segmental'] as const)
        expect(verdict(id, { boneClass: '1', depthMm, unsupportedPct: 20 })).toBe('not-for-this-defect');
  });
});

const facts: fc.Arbitrary<DefectFacts> = fc.record(
  {
    boneClass: fc.constantFrom(null, ...BONE_CLASSES),
    quality: fc.constantFrom('good', 'sclerotic', 'osteoporotic', 'unknown'),
    depthMm: fc.constantFrom(null, 0, 4, 5, 8, 10, 12, 15, 18, 20, 25),
    unsupportedPct: fc.constantFrom(null, 0, 20, 40, 45, 50, 60, 100),
    containment: fc.constantFrom('contained', 'uncontained', 'unknown'),
    age: fc.constantFrom(50, 80),
    demand: fc.constantFrom('low', 'high'),
    attachmentLost: fc.boolean(),
    failedBefore: fc.boolean(),
  },
  { requiredKeys: ['boneClass', 'quality', 'depthMm', 'unsupportedPct', 'containment'] },
) as fc.Arbitrary<DefectFacts>;

describe('treatment and what is not known', () => {
  test('TRE-7 with everything known nothing depends and nothing is missing', () => {
    fc.assert(
      fc.property(facts, (f) => {
        const full: DefectFacts = {
          ...f,
          boneClass: f.boneClass ?? '2A',
          quality: f.quality === 'unknown' ? 'good' : f.quality,
          depthMm: f.depthMm ?? 8,
          unsupportedPct: f.unsupportedPct ?? 45,
          containment: f.containment === 'unknown' ? 'contained' : f.containment,
          age: f.age ?? 70,
          demand: f.demand ?? 'low',
          attachmentLost: f.attachmentLost ?? false,
          failedBefore: f.failedBefore ?? false,
        };
        for (const o of treatmentOptions(full)) {
          expect(o.verdict).not.toBe('depends');
          expect(o.missing).toEqual([]);
        }
      }),
      { seed: 21 },
    );
  });

  test('TRE-7 a refusal stays whatever else becomes known, and an offer names what could take it away', () => {
    fc.assert(
      fc.property(
        facts,
        fc.constantFrom(50, 80),
        fc.constantFrom('low' as const, 'high' as const),
        (f, age, demand) => {
          const [before, after] = [treatmentOptions(f), treatmentOptions({ age, demand, ...f })];
          before.forEach((o, i) => {
            const then = after[i]?.verdict;
            if (o.verdict === 'refused') expect(then).toBe('refused');
            if (then === o.verdict || then === 'depends') return;
            const named = o.missing.map((m) => m.fact);
            expect(named.includes('age') || named.includes('demand')).toBe(true);
          });
        },
      ),
      { seed: 22 },
    );
  });

  test('TRE-6 every option has a verdict in the order of the trade, and every offer its rule with source and grade', () => {
    fc.assert(
      fc.property(facts, (f) => {
        const options = treatmentOptions(Object.freeze(f));
        expect(options.map((o) => o.id)).toEqual(TREATMENTS.map((t) => t.id));
        for (const o of options) {
          if (o.verdict === 'offered') expect(o.why.some((w) => w.effect === 'offer')).toBe(true);
          if (o.verdict === 'depends') expect(o.missing.length).toBeGreaterThan(0);
          for (const w of o.why) expect(w.source.length).toBeGreaterThan(5);
        }
      }),
      { seed: 23 },
    );
  });
});

describe('figures and disagreements', () => {
  test('TRE-13 published figures stand with n or years and source; those from memory are grade D', () => {
    for (const r of REPORTED) {
      expect(r.source.length).toBeGreaterThan(8);
      if (r.source.includes('from memory')) expect(r.grade).toBe('D');
      else expect(r.n ?? r.years ?? r.what).toBeTruthy();
    }
    // Fischer and others, KSSTA 2022, as read: sleeves 0.4, cones 4.1 % aseptic loosening.
    expect(option('sleeve', {}).reported[0]?.value).toBe('0.4 %');
    expect(option('cone', {}).reported.map((r) => r.value)).toContain('4.1 %');
  });

  test('TRE-13 what experts answer differently stands at each option that it bears on', () => {
    expect(option('cone', {}).conflicts.map((c) => c.id)).toEqual([
      'cone-or-sleeve',
      'stem-with-cone',
      'graft-or-cone',
      'cemented-or-hybrid',
    ]);
    for (const c of EXPERT_CONFLICTS) expect([c.one !== c.other, c.bearsOn.length > 0]).toEqual([true, true]);
  });

  test('TRE-1 docs/rules/treatment.md says the same as the data, word for word', () => {
    const text = readFileSync(new URL('../../../docs/rules/treatment.md', import.meta.url), 'utf8');
    const rows = [...text.matchAll(/^\| (TRE-\d+) \| (.+?) \| (.+?) \| ([A-D]) \|$/gm)].map((m) => m.slice(1, 5));
    expect(rows).toEqual([...TREATMENT_RULES, ...STEM_RULES].map((r) => [r.id, r.text, r.source, r.grade]));
  });
});
