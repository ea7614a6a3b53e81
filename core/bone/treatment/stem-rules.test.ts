import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BONE_CLASSES } from '../class-worse.ts';
import { type StemFacts, stemRules } from './stem-rules.ts';

const plain: StemFacts = {
  bone: 'femur',
  boneClass: '1',
  quality: 'good',
  augment: false,
  graft: false,
  cone: false,
  sleeve: false,
  level: 'ps',
  cemented: true,
  weakSpots: [],
};
const call = (rest: Partial<StemFacts>) => stemRules({ ...plain, ...rest });
const why = (rest: Partial<StemFacts>) => call(rest).why.map((w) => w.id);

describe('rules for stems', () => {
  test('TRE-20 fact of the trade: a metal augment always takes a stem with it, whatever else is known', () => {
    fc.assert(
      fc.property(
        fc.record({
          bone: fc.constantFrom('femur' as const, 'tibia' as const),
          boneClass: fc.constantFrom(null, ...BONE_CLASSES),
          quality: fc.constantFrom('good' as const, 'sclerotic' as const, 'osteoporotic' as const, 'unknown' as const),
          level: fc.constantFrom(null, 'ps' as const, 'vvc' as const, 'hinge' as const),
        }),
        (rest) => {
          const found = call({ ...rest, augment: true });
          expect([found.verdict, found.why[0]?.id, found.open]).toEqual(['mandatory', 'TRE-20', []]);
        },
      ),
      { numRuns: 60, seed: 31 },
    );
  });

  test('TRE-21 bulk graft, cone and sleeve take a stem', () => {
    for (const part of ['graft', 'cone', 'sleeve'] as const) {
      expect(call({ [part]: true }).verdict).toBe('mandatory');
      expect(why({ [part]: true })).toEqual(['TRE-21']);
    }
  });

  test('TRE-22 constraint above posterior-stabilised takes a stem', () => {
    expect([call({ level: 'vvc' }).verdict, call({ level: 'hinge' }).verdict]).toEqual(['mandatory', 'mandatory']);
  });

  test('TRE-23 type 2 and 3, sclerotic and osteoporotic bone take a stem', () => {
    for (const boneClass of ['2A', '2B', '3'] as const) expect(why({ boneClass })).toEqual(['TRE-23']);
    expect(call({ quality: 'sclerotic' }).verdict).toBe('mandatory');
    expect(call({ boneClass: null, quality: 'osteoporotic' }).verdict).toBe('mandatory');
  });

  test('TRE-24 fact of the trade: a posterior-stabilised box in weak femoral bone wants a stem', () => {
    expect(why({ quality: 'osteoporotic' })).toContain('TRE-24');
    expect(why({ quality: 'osteoporotic', bone: 'tibia' })).not.toContain('TRE-24');
    expect(why({})).not.toContain('TRE-24');
  });

  test('TRE-25 weak spots are passed by two outer diameters: far end 80 mm, shaft 28 mm, tip at 136 mm', () => {
    const spot = { kind: 'osteotomy', farEndMm: 80 } as const;
    const found = call({ bone: 'tibia', weakSpots: [spot], outerDiameterMm: 28 });
    expect([found.verdict, found.bypass]).toEqual(['mandatory', [{ spot, tipAtLeastMm: 136 }]]);
    expect(call({ weakSpots: [spot] }).bypass[0]?.tipAtLeastMm).toBeNull();
  });

  test('TRE-26 type 1 in good bone, cemented, not constrained: a stem may be left out', () => {
    expect(call({}).verdict).toBe('may-be-omitted');
    expect(call({ cemented: false }).verdict).toBe('no-rule');
  });

  test('TRE-23 TRE-26 what is not known leaves it open and is named', () => {
    const open = call({ boneClass: null });
    expect(open.verdict).toBe('depends');
    expect(open.open.map((o) => o.id)).toEqual(['TRE-23', 'TRE-26']);
    const { weakSpots: _, ...unseen } = plain;
    expect(stemRules(unseen).verdict).toBe('depends');
    expect(call({ level: null }).open.map((o) => o.id)).toEqual(['TRE-22', 'TRE-26']);
  });
});
