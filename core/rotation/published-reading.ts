import { Z95 } from '../measure/quantity.ts';
import { BANDS_SOURCE, COMBINED_BANDS, NO_CUT_OFF } from './published-rotation.ts';

/**
 * What was published for a combined rotation (ROT-6). Input: combined excess, deg, internal negative, with its standard
 * deviation (null = not known). Result: words; overlapping ranges are all named, ranges that the 95 % interval reaches are
 * told apart from those that the value lies in, and the lack of a cut-off always stands beside.
 */
export function publishedReading(excessDeg: number, sdDeg: number | null): string {
  const internal = -excessDeg;
  const within = COMBINED_BANDS.filter((b) => internal >= b.from && internal <= b.to);
  const reach = sdDeg === null ? 0 : Z95 * sdDeg;
  const reached = COMBINED_BANDS.filter(
    (b) => !within.includes(b) && internal + reach >= b.from && internal - reach <= b.to,
  );
  const largest = Math.max(...COMBINED_BANDS.map((b) => b.to));
  const value =
    within.length > 0
      ? `${inWords(excessDeg)} of combined excess, the range published with ${told(within)} (${BANDS_SOURCE}).`
      : internal > largest
        ? `${inWords(excessDeg)} of combined excess, more than in any published knee (up to ${largest}; ${BANDS_SOURCE}).`
        : `${inWords(excessDeg)} of combined excess: in no range published with trouble of the patella; knees without it had 0 to 10 degrees external (${BANDS_SOURCE}).`;
  const spread = reached.length > 0 ? ` Its spread reaches the range of ${told(reached)}.` : '';
  return `${value}${spread} ${NO_CUT_OFF}`;
}

const told = (bands: typeof COMBINED_BANDS): string =>
  bands.map((b) => `${b.found}, ${b.from} to ${b.to}`).join('; and ');

/** An angle as the papers write it: the amount, and internal or external in words. */
export const inWords = (deg: number): string => {
  const amount = Math.abs(deg).toFixed(1);
  return Number(amount) === 0 ? '0.0 degrees' : `${amount} degrees ${deg < 0 ? 'internal' : 'external'}`;
};
