import type { ConstraintLevel, Outlines } from '../../core/catalogue/catalogue.ts';
import { arc, closed, mirrored, type Point } from './curve.ts';

export interface InsertShape {
  readonly widthMm: number;
  readonly apMm: number;
  readonly heightMm: number;
  readonly level: ConstraintLevel;
}

/** Height and half-width of the post above the low point, mm: taller and wider with constraint. */
const POST: Readonly<Record<ConstraintLevel, { readonly heightMm: number; readonly halfMm: number }>> = {
  ps: { heightMm: 13, halfMm: 6 },
  vvc: { heightMm: 17, halfMm: 7.5 },
  hinge: { heightMm: 22, halfMm: 7 },
};

/** From the front: two dished bearing surfaces and the post between them. */
function coronal({ widthMm, heightMm: h, level }: InsertShape) {
  const half = widthMm / 2 - 1;
  const post = POST[level];
  const foot = post.halfMm + 2.5;
  const middle = (half + foot) / 2;
  const right: Point[] = [
    [0, 0],
    [half - 1, 0],
    [half, 1],
    [half, h + 2.6],
    ...arc([middle, h + 2.6], [(half - foot) / 2, 2.6], { from: 0, to: -180, steps: 10 }),
    [post.halfMm, h + 5],
    [post.halfMm - 0.8, h + post.heightMm - 2],
    [post.halfMm - 2.5, h + post.heightMm],
    [0, h + post.heightMm],
  ];
  return [closed([...right, ...mirrored(right)])];
}

/** From the side: dish with a higher front, and the post. */
function sagittal({ apMm, heightMm: h, level }: InsertShape) {
  const half = apMm / 2 - 1;
  const post = POST[level];
  const dish = closed([
    [-half, 0],
    [half, 0],
    [half, h + 4.2],
    [half - 2, h + 5],
    ...arc([-0.06 * apMm, h + 4.2], [half + 0.06 * apMm - 3, 4.2], { from: 0, to: -90, steps: 8 }),
    ...arc([-0.06 * apMm, h + 3], [half - 0.06 * apMm - 1, 3], { from: -90, to: -180, steps: 6 }).slice(1),
    [-half, h + 2.4],
  ]);
  const front = 0.12 * apMm;
  const column = closed([
    [front, h],
    [front, h + post.heightMm - 3],
    [front - 3, h + post.heightMm],
    [front - 8, h + post.heightMm - 1],
    [front - 11, h + 2],
    [front - 11, h],
  ]);
  return [dish, column];
}

/** Outlines of an invented insert; its height is the low point of the dish above the lower face. */
export const insertOutlines = (shape: InsertShape): Outlines => ({ coronal: coronal(shape), sagittal: sagittal(shape) });
