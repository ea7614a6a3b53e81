import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../../catalogues/make-demo.ts';
import { plainConstruct } from '../easy-knee.ts';
import { choicesByHand, nextAugment, nextByHand } from './next-by-hand.ts';
import { NO_STEM } from './pinned.ts';

const catalogue = demoCatalogue();
const knee = { construct: plainConstruct, catalogue, side: 'right' as const };

describe('one step by hand', () => {
  test('GAP-40 the next size, insert, slope and stem of the catalogue, each way, and nothing beyond its ends', () => {
    expect(nextByHand('femurSize', 1, knee)).toEqual({ femurSize: 5 });
    expect(nextByHand('traySize', -1, knee)).toEqual({ traySize: 3 });
    expect(nextByHand('insertMm', 1, knee)).toEqual({ insertMm: 13 });
    expect(nextByHand('level', 1, knee)).toEqual({ level: 'vvc' });
    expect(nextByHand('level', -1, knee)).toBeNull();
    expect(nextByHand('slopeDeg', -1, knee)).toBeNull();
    expect(nextByHand('femoralStem', -1, knee)).toBeNull();
    const first = choicesByHand('femoralStem', knee)[1];
    expect(nextByHand('femoralStem', 1, knee)).toEqual({ femoralStem: first });
    expect(choicesByHand('tibialStem', knee)[0]).toBe(NO_STEM);
  });

  test('GAP-40 an augment is changed on one side, the other stays', () => {
    expect(nextAugment('distalAugmentsMm', { side: 'medial', way: 1 }, knee)).toEqual({
      distalAugmentsMm: { medial: 4, lateral: 0 },
    });
    expect(nextAugment('tibialAugmentsMm', { side: 'lateral', way: -1 }, knee)).toBeNull();
  });
});
