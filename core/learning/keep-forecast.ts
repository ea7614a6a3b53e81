import type { Forecast } from '../forecast/forecast-types.ts';
import type { KeptForecast } from './found.ts';
import { keptShares } from './kept-events.ts';

/** What of a forecast is kept. */
export type KeepableForecast = Pick<Forecast, 'seed' | 'draws' | 'choices' | 'events' | 'lengths' | 'notStated'>;

/** When and with what a forecast is kept. */
export interface KeepingOf {
  /** Day, YYYY-MM-DD. */
  readonly on: string;
  readonly coreVersion: string;
  /** Share of the drawn knees that the sets to be brought answer, 0 to 1; absent = no kit was chosen. */
  readonly kitShare?: number;
}

/** Lengths that are measured again in theatre: the six supports. */
export const KEPT_LENGTHS = [
  'femurDistalMm.medial',
  'femurDistalMm.lateral',
  'femurPosteriorMm.medial',
  'femurPosteriorMm.lateral',
  'tibiaMm.medial',
  'tibiaMm.lateral',
] as const;
export type KeptLengthField = (typeof KEPT_LENGTHS)[number];

/** The forecast as it stands on a day, small enough to stay with the case for ever (LRN-1). */
export function keepForecast(forecast: KeepableForecast, { on, coreVersion, kitShare }: KeepingOf): KeptForecast {
  const kept = new Set<string>(KEPT_LENGTHS);
  return {
    on,
    seed: forecast.seed,
    draws: forecast.draws,
    coreVersion,
    shares: keptShares(forecast, kitShare),
    lengths: forecast.lengths
      .filter(({ field }) => kept.has(field))
      .map(({ field, percentiles }) => ({ field, percentiles: [...percentiles] })),
  };
}
