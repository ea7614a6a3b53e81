export interface Tick {
  /** Days since 1970-01-01. */
  readonly day: number;
  readonly text: string;
}

/** A round number at or above the largest value, so that the scale ends on it; 10 where there is nothing. */
export function upperEnd(values: readonly number[]): number {
  const most = Math.max(0, ...values);
  if (most === 0) return 10;
  const power = 10 ** Math.floor(Math.log10(most));
  const step = [1, 2, 5, 10].find((s) => s * power >= most) ?? 10;
  return step * power;
}

const DAY_MS = 86_400_000;
const STEPS_IN_MONTHS = [1, 2, 3, 6, 12, 24, 60, 120];

/** Beginnings of months between two days, at most seven of them, a round number of months apart. */
export function timeTicks(begin: number, end: number): readonly Tick[] {
  const months = (end - begin) / 30.44;
  const step = STEPS_IN_MONTHS.find((s) => months / s <= 6) ?? 240;
  const ticks: Tick[] = [];
  const start = new Date(begin * DAY_MS);
  const origin = start.getUTCFullYear() * 12 + start.getUTCMonth();
  for (let m = Math.ceil(origin / step) * step; ; m += step) {
    const at = Date.UTC(Math.floor(m / 12), m % 12, 1) / DAY_MS;
    if (at > end) return ticks;
    if (at >= begin) ticks.push({ day: at, text: new Date(at * DAY_MS).toISOString().slice(0, step >= 12 ? 4 : 7) });
  }
}
