import { NO_PART } from '../forecast/choices.ts';
import { FORECAST_CHOICES, type Forecast, type ForecastChoice } from '../forecast/forecast-types.ts';
import type { KeptShare } from './found.ts';

/** Shares of a choice below which its values are kept together as `other` (LRN-1). */
export const LEAST_SHARE = 0.01;

/** The value of a choice under which everything rare is kept, no construct included. */
export const OTHER = 'other';

/** Fields of which every value is kept, however rare: the best of them is the state entered before surgery. */
export const STATE_FIELDS = ['femurClass', 'tibiaClass', 'mcl', 'lcl'] as const;
export type StateField = (typeof STATE_FIELDS)[number];

/** Event that nothing was missing in the room. */
export const KIT_EVENT = 'kit=sufficed';

export const eventOf = (field: string, value: string): string => `${field}=${value}`;

/** Field and value of an event by its first `=`. */
export function partsOfEvent(event: string): { readonly field: string; readonly value: string } {
  const at = event.indexOf('=');
  return at < 0 ? { field: event, value: '' } : { field: event.slice(0, at), value: event.slice(at + 1) };
}

export const isChoice = (field: string): field is ForecastChoice =>
  (FORECAST_CHOICES as readonly string[]).includes(field);

function choiceEvents({ choices }: Pick<Forecast, 'choices'>, choice: ForecastChoice): readonly KeptShare[] {
  const frequent = choices.filter((c) => c.choice === choice && c.share > LEAST_SHARE);
  if (frequent.length === 0) return [];
  const rest = 1 - frequent.reduce((sum, c) => sum + c.share, 0);
  const kept = frequent.map(({ value, share }) => ({ event: eventOf(choice, value), share }));
  return rest > 1e-9 ? [...kept, { event: eventOf(choice, OTHER), share: rest }] : kept;
}

/** Chances without which these events say nothing: nobody stated them. */
const UNSTATED: Readonly<Record<string, string>> = {
  'fracture=yes': 'forecast.fractureChance',
  'infection=yes': 'forecast.infectionChance',
};

/**
 * What of a forecast is kept to be held against what is found (LRN-1): every value of every choice above 1 %, the rest of
 * a choice together as `other`; classes and ligaments as they may turn out; fracture and infection where a chance was
 * stated; that the kit suffices, where a kit was chosen. Shares 0 to 1 of all draws.
 */
export function keptShares(
  forecast: Pick<Forecast, 'choices' | 'events' | 'notStated'>,
  kitShare?: number,
): readonly KeptShare[] {
  const unstated = new Set(forecast.notStated.map((n) => n.field));
  const found = forecast.events.filter(({ event }) => !unstated.has(UNSTATED[event] ?? NO_PART));
  return [
    ...FORECAST_CHOICES.flatMap((choice) => choiceEvents(forecast, choice)),
    ...found.map(({ event, share }) => ({ event, share })),
    ...(kitShare === undefined ? [] : [{ event: KIT_EVENT, share: kitShare }]),
  ];
}
