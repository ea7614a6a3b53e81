import { chiSquareP } from '../measure/chi-square.ts';
import type { ComparedEvent, ComparedLength, FoundComparison } from './compare-found.ts';
import { type ShareInterval, wilsonInterval } from './wilson.ts';

/** One column of the calibration chart: what was forecast with about this share, and how often it came. */
export interface CalibrationBin {
  /** Shares of this bin: above `from` (the first bin: from 0 on) up to `to`. */
  readonly from: number;
  readonly to: number;
  readonly n: number;
  readonly came: number;
  /** Mean of the forecast shares in the bin, 0 to 1. */
  readonly forecast: number;
  readonly observed: ShareInterval;
}

/** How well the forecasts of a practice held. */
export interface Calibration {
  readonly cases: number;
  readonly events: number;
  /** Bins that hold events, from small shares to large. */
  readonly bins: readonly CalibrationBin[];
  readonly brier: BrierScore | null;
  readonly lengths: LengthCalibration;
}

/** Mean squared distance of forecast and outcome: 0 = always right, 0.25 = a coin's. */
export interface BrierScore {
  readonly score: number;
  /** Score of always forecasting the observed share of all events. */
  readonly constant: number;
  /** 1 - score / constant: 1 = always right, 0 = no better than the constant, negative = worse; null where the constant is always right. */
  readonly skill: number | null;
}

export interface LengthCalibration {
  readonly n: number;
  /** Counts of the six cells from below the 5th to above the 95th percentile. */
  readonly cells: readonly number[];
  /** Expected counts, n times 5, 20, 25, 25, 20, 5 %. */
  readonly expected: readonly number[];
  /** Share between the 5th and the 95th percentile: 0.9 is right. */
  readonly inside: ShareInterval | null;
  /** Chance of quarters so uneven if the forecast is right; null below 20 lengths. */
  readonly p: number | null;
}

/** Widths of the bins: ten, of a tenth each (LRN-3). */
const BINS = 10;
const CELL_SHARES = [0.05, 0.2, 0.25, 0.25, 0.2, 0.05] as const;
/** Lengths from which the quarters are tested: five expected in each (Cochran 1954, Biometrics 10:417). */
export const LEAST_LENGTHS = 20;

const binOf = (share: number): number => Math.min(BINS - 1, Math.max(0, Math.ceil(share * BINS - 1e-9) - 1));

/**
 * Forecast against observed frequency in ten bins (LRN-3), with Wilson intervals. Events of one knee hang together, so the
 * intervals are somewhat too narrow: said wherever they are shown.
 */
export function calibrationBins(events: readonly ComparedEvent[]): readonly CalibrationBin[] {
  return Array.from({ length: BINS }, (_, bin) => events.filter((e) => binOf(e.share) === bin)).flatMap(
    (inBin, bin) => {
      const came = inBin.filter((e) => e.happened).length;
      const observed = wilsonInterval(came, inBin.length);
      if (!observed) return [];
      const forecast = inBin.reduce((sum, e) => sum + e.share, 0) / inBin.length;
      return [{ from: bin / BINS, to: (bin + 1) / BINS, n: inBin.length, came, forecast, observed }];
    },
  );
}

/** Brier score (Brier 1950, Mon Weather Rev 78:1) of forecast events, in the half form for yes and no; null without events. */
export function brierScore(events: readonly ComparedEvent[]): BrierScore | null {
  const n = events.length;
  if (n === 0) return null;
  const outcome = (e: ComparedEvent): number => (e.happened ? 1 : 0);
  const score = events.reduce((sum, e) => sum + (e.share - outcome(e)) ** 2, 0) / n;
  const base = events.reduce((sum, e) => sum + outcome(e), 0) / n;
  const constant = base * (1 - base);
  return { score, constant, skill: constant === 0 ? null : 1 - score / constant };
}

/**
 * Where found lengths fell within their forecasts (LRN-4): the probability integral transform (Dawid 1984, J R Stat Soc A 147:278),
 * in the six cells that the kept percentiles leave. Flat = right; heaped in the middle = spread too wide; at both ends =
 * too narrow; to one side = biased.
 */
export function lengthCalibration(lengths: readonly ComparedLength[]): LengthCalibration {
  const n = lengths.length;
  const cells = CELL_SHARES.map((_, cell) => lengths.filter((l) => l.cell === cell).length);
  const at = (cell: number): number => cells[cell] ?? 0;
  const quarters = [at(0) + at(1), at(2), at(3), at(4) + at(5)];
  const q = quarters.reduce((sum, count) => sum + (count - n / 4) ** 2 / (n / 4 || 1), 0);
  const p = n < LEAST_LENGTHS ? null : chiSquareP(q, 3);
  return {
    n,
    cells,
    expected: CELL_SHARES.map((share) => share * n),
    inside: wilsonInterval(n - at(0) - at(5), n),
    p: p?.ok ? p.value : null,
  };
}

/** How well the forecasts of a series of cases held (LRN-3, LRN-4); everything that was noted counts alike. */
export function calibrationOf(series: readonly FoundComparison[]): Calibration {
  const events = series.flatMap((c) => c.events);
  return {
    cases: series.length,
    events: events.length,
    bins: calibrationBins(events),
    brier: brierScore(events),
    lengths: lengthCalibration(series.flatMap((c) => c.lengths)),
  };
}
