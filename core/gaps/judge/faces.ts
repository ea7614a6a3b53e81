import { NEVER, out, TOLERANCE, type Trial, weigh } from './trial.ts';

/** Farthest that the joint surface of a segment may stand from its target, mm. */
export const REACH = 20;

export const inside = (x: number, [low, high]: readonly [number, number]) =>
  x >= low - TOLERANCE && x <= high + TOLERANCE;

/** Cost of the space under one side. */
export function spaces(t: Trial): (s: number) => number {
  const { cementMm, cutMm } = t.catalogue.limits;
  const [cement, deep, cut] = [weigh(t, 'cement'), weigh(t, 'cement-deep'), weigh(t, 'bone-cut')] as const;
  return (s) => {
    if (s > cementMm + TOLERANCE || s < -cutMm - TOLERANCE) return NEVER;
    const filled = Math.max(0, s);
    return out(filled, cement) + out(filled, deep) + out(Math.max(0, -s), cut);
  };
}

export function bendsOf(t: Trial, flush: readonly number[], way: 1 | -1): number[] {
  const { cementMm, cutMm } = t.catalogue.limits;
  const deep = [weigh(t, 'cement-deep').hi, weigh(t, 'cement').hi, cementMm, 0];
  return flush.flatMap((f) => [...deep.map((d) => f + way * d), f - way * cutMm, f - way * weigh(t, 'bone-cut').hi]);
}

export function femurWidth(t: Trial, [part, bone]: readonly [number, number]): number {
  const over = (part - bone) / 2;
  if (over > t.catalogue.limits.overhangMm + TOLERANCE) return NEVER;
  return over > 0 ? out(over, weigh(t, 'femur-overhang')) : out(-over, weigh(t, 'femur-underhang'));
}

export function augments(t: Trial, list: readonly number[]): number {
  const used = list.filter((x) => x > 0);
  return (
    weigh(t, 'augment-count').w * used.length +
    weigh(t, 'augment-thickness').w * used.reduce((a, b) => a + b, 0) +
    used.reduce((sum, x) => sum + out(x, weigh(t, 'augment-thick')), 0)
  );
}

export const pairs = (list: readonly number[]): (readonly [number, number])[] =>
  list.flatMap((m) => list.map((l) => [m, l] as const));
