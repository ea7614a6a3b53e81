import type { KitStep } from '@gapline/core/kit/kit-answer.ts';

/** Shares that get a tick, where they lie within the curve. */
const TICKS = [0, 0.5, 0.8, 0.9, 0.95, 0.98, 0.99, 0.995, 0.998, 1];
/** Share without an answer that stands at the right edge: 100 % itself lies there too. */
const LEAST_LEFT = 0.001;

export interface CurveScale {
  readonly x: (share: number) => number;
  readonly y: (cost: number) => number;
  readonly shareTicks: readonly number[];
  readonly costTicks: readonly number[];
}

export interface CurveBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * Scale of the curve in screen pixels. Coverage runs to the right, stretched towards 100 % by the logarithm of the
 * share left without an answer, for that is where the choice lies; cost runs up from zero.
 */
export function curveScale(curve: readonly Pick<KitStep, 'share' | 'cost'>[], box: CurveBox): CurveScale {
  const from = stretched(Math.min(0.95, ...curve.map((s) => s.share)));
  const to = stretched(1);
  const most = Math.max(1, ...curve.map((s) => s.cost)) * 1.06;
  const x = (share: number): number =>
    box.left + ((Math.max(stretched(share), from) - from) / (to - from)) * (box.right - box.left);
  const y = (cost: number): number => box.bottom - (cost / most) * (box.bottom - box.top);
  return {
    x,
    y,
    shareTicks: apart(
      TICKS.filter((t) => stretched(t) >= from),
      x,
    ),
    costTicks: costTicks(most),
  };
}

const stretched = (share: number): number => -Math.log(Math.max(1 - share, LEAST_LEFT));

/** Ticks whose words would touch are left out, from the right. */
function apart(ticks: readonly number[], x: (share: number) => number): readonly number[] {
  const kept: number[] = [];
  for (const tick of ticks.toReversed()) {
    const last = kept.at(-1);
    if (last === undefined || x(last) - x(tick) >= 46) kept.push(tick);
  }
  return kept.toReversed();
}

/** Three to six round amounts from zero. */
function costTicks(most: number): readonly number[] {
  const rough = most / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((m) => m * power >= rough) ?? 10) * power;
  return Array.from({ length: Math.floor(most / step) + 1 }, (_, i) => i * step);
}
