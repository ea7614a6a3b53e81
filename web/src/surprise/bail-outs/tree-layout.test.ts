import type { BailOut } from '@gapline/core/forecast/forecast-types.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { depthOf, layTree, leavesOf, letterOf, wrapped } from './tree-layout.ts';

const leaf = (differs: string, share: number): BailOut => ({ kind: 'do', construct: null, differs, share, pure: 1 });
const ask = (yes: BailOut, no: BailOut, question = 'the medial tibia is more than 12 mm down'): BailOut => ({
  kind: 'ask',
  field: 'tibiaMm.medial',
  question,
  above: 12,
  share: yes.share + no.share,
  yes,
  no,
});

const words = fc
  .array(fc.string({ minLength: 1, maxLength: 9 }), { minLength: 1, maxLength: 14 })
  .map((w) => w.join(' '));
const trees: fc.Arbitrary<BailOut> = fc.letrec<{ tree: BailOut }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    fc.tuple(words, fc.double({ min: 0, max: 0.1, noNaN: true })).map(([w, share]) => leaf(w, share)),
    fc.tuple(tie('tree'), tie('tree'), words).map(([yes, no, q]) => ask(yes, no, q)),
  ),
})).tree;

const overlap = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

describe('picture of the bail-outs', () => {
  test('every leaf has its place, none lies over another, and all lie within the picture', () => {
    fc.assert(
      fc.property(trees, fc.integer({ min: 320, max: 900 }), (tree, width) => {
        const { leaves, questions, ...whole } = layTree(tree, width);
        expect(leaves.map((l) => l.leaf)).toEqual(leavesOf(tree));
        for (const box of [...leaves, ...questions]) {
          expect(box.x).toBeGreaterThanOrEqual(0);
          expect(box.y).toBeGreaterThanOrEqual(0);
          expect(box.x + box.width).toBeLessThanOrEqual(whole.width);
          expect(box.y + box.height).toBeLessThanOrEqual(whole.height + 1e-9);
        }
        for (const [i, a] of leaves.entries()) for (const b of leaves.slice(i + 1)) expect(overlap(a, b)).toBe(false);
        for (const a of leaves) for (const b of questions) expect(overlap(a, b)).toBe(false);
      }),
    );
  });

  test('the yes stands above the no, and a way is the thicker the more knees take it', () => {
    const tree = ask(leaf('block 10', 0.3), leaf('', 0.7));
    const { leaves, ways } = layTree(tree, 600);
    expect(leaves.map((l) => l.letter)).toEqual(['A', 'B']);
    expect(leaves[0]!.y).toBeLessThan(leaves[1]!.y);
    expect(leaves[1]!.lines).toEqual(['no construct']);
    expect(ways.find((w) => w.answer === 'no')!.thick).toBeGreaterThan(ways.find((w) => w.answer === 'yes')!.thick);
    expect(depthOf(tree)).toBe(1);
  });

  test('a single leaf is a picture too', () => {
    const { leaves, questions, ways } = layTree(leaf('as planned', 1), 600);
    expect([leaves.length, questions.length, ways.length]).toEqual([1, 0, 0]);
  });

  test('words are broken between words, and what is too long says so', () => {
    expect(wrapped('block 10 instead of 5, stem 100', 16)).toEqual(['block 10 instead', 'of 5, stem 100']);
    expect(wrapped('a b c defg', 7, 1)).toEqual(['a b c …']);
    expect(wrapped('one two three four', 7, 2)).toEqual(['one two', 'three …']);
    expect(letterOf(0)).toBe('A');
    expect(letterOf(26)).toBe('AA');
  });
});
