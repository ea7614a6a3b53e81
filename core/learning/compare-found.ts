import type { Found, KeptForecast } from './found.ts';
import { happened } from './happened.ts';
import { KEPT_LENGTHS, type KeptLengthField } from './keep-forecast.ts';

/** One forecast event against what came. */
export interface ComparedEvent {
  readonly event: string;
  /** Share that was forecast, 0 to 1. */
  readonly share: number;
  readonly happened: boolean;
}

/** One forecast length against what was found. */
export interface ComparedLength {
  readonly field: KeptLengthField;
  /** mm, by the symbol of the bone state. */
  readonly foundMm: number;
  /** Percentiles 5, 25, 50, 75, 95 of the forecast, mm. */
  readonly percentiles: readonly number[];
  /** Which of the six cells between the percentiles it fell into, 0 = below the 5th, 5 = above the 95th. */
  readonly cell: number;
}

export interface FoundComparison {
  readonly events: readonly ComparedEvent[];
  readonly lengths: readonly ComparedLength[];
  /** Kept events and lengths of which nothing was noted. */
  readonly notNoted: readonly string[];
}

/**
 * Cell of a value between percentiles (LRN-4): how many of them lie below it; one that it meets exactly counts half, and
 * the sum is rounded down, so that a forecast without spread that came true lies in the middle.
 */
export function cellOf(value: number, percentiles: readonly number[]): number {
  const below = percentiles.filter((p) => p < value).length;
  const met = percentiles.filter((p) => p === value).length;
  return Math.floor(below + met / 2);
}

function lengthFound(found: Found, field: KeptLengthField): number | undefined {
  const [name, side] = field.split('.') as ['femurDistalMm' | 'femurPosteriorMm' | 'tibiaMm', 'medial' | 'lateral'];
  return found[name]?.[side];
}

/**
 * The kept forecast of one case against what was found and used (LRN-2): only what was noted is compared, the rest is
 * named. Shares 0 to 1, lengths mm in the frames of the bone state.
 */
export function compareFound(kept: KeptForecast, found: Found): FoundComparison {
  const events = kept.shares.map(({ event, share }) => ({ event, share, happened: happened(event, kept, found) }));
  const lengths = KEPT_LENGTHS.flatMap((field) => {
    const forecast = kept.lengths.find((l) => l.field === field && l.percentiles.length === 5);
    return forecast ? [{ field, foundMm: lengthFound(found, field), percentiles: forecast.percentiles }] : [];
  });
  return {
    events: events.filter((e): e is ComparedEvent => e.happened !== null),
    lengths: lengths.flatMap(({ field, foundMm, percentiles }) =>
      foundMm === undefined ? [] : [{ field, foundMm, percentiles, cell: cellOf(foundMm, percentiles) }],
    ),
    notNoted: [
      ...events.filter((e) => e.happened === null).map((e) => e.event),
      ...lengths.filter((l) => l.foundMm === undefined).map((l) => l.field),
    ],
  };
}
