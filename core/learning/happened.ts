import { NO_PART } from '../forecast/choices.ts';
import type { ForecastChoice } from '../forecast/forecast-types.ts';
import type { Found, KeptForecast, PartsUsed } from './found.ts';
import { isChoice, OTHER, partsOfEvent } from './kept-events.ts';

type Used = string | null | undefined;

/** A cone or a sleeve, whichever was used; none only where both were noted as none. */
const either = (a: Used, b: Used): Used => a ?? b ?? (a === null && b === null ? null : undefined);

const USED: Readonly<Record<ForecastChoice, (u: PartsUsed) => Used>> = {
  level: (u) => u.level,
  femur: (u) => u.femur,
  'distal-medial': (u) => u.distalAugments?.medial,
  'distal-lateral': (u) => u.distalAugments?.lateral,
  'posterior-medial': (u) => u.posteriorAugments?.medial,
  'posterior-lateral': (u) => u.posteriorAugments?.lateral,
  tray: (u) => u.tray,
  'block-medial': (u) => u.tibialAugments?.medial,
  'block-lateral': (u) => u.tibialAugments?.lateral,
  insert: (u) => u.insert,
  'femoral-stem': (u) => u.femoralStem,
  'tibial-stem': (u) => u.tibialStem,
  'femoral-offset': (u) => u.femoralOffset,
  'tibial-offset': (u) => u.tibialOffset,
  'femoral-zone-2': (u) => either(u.femoralCone, u.femoralSleeve),
  'tibial-zone-2': (u) => either(u.tibialCone, u.tibialSleeve),
};

/** What was used for a choice: a ref, `none`, or undefined = not noted. */
export function usedFor(used: PartsUsed | undefined, choice: ForecastChoice): string | undefined {
  const part = used && USED[choice](used);
  return part === null ? NO_PART : part;
}

/** What was found for a field of the forecast, by the word of the event; undefined = not noted. */
export function foundValue(found: Found, field: string): string | undefined {
  if (isChoice(field)) return usedFor(found.used, field);
  const yes = (v: boolean | undefined): string | undefined => (v === undefined ? undefined : v ? 'yes' : 'no');
  switch (field) {
    case 'femurClass':
    case 'tibiaClass':
      return found[field];
    case 'mcl':
    case 'lcl':
      return found[field] === 'unknown' ? undefined : found[field];
    case 'fracture':
    case 'infection':
      return yes(found[field]);
    case 'kit':
      return found.kitSufficed === undefined ? undefined : found.kitSufficed ? 'sufficed' : 'missed';
    default:
      return undefined;
  }
}

/**
 * Whether a kept event came true (LRN-2): null = not noted, then it counts nowhere. `other` of a choice came true when
 * something was used that the forecast does not name. A ligament kept as not examined cannot be held against anything.
 */
export function happened(event: string, kept: KeptForecast, found: Found): boolean | null {
  const { field, value } = partsOfEvent(event);
  const was = foundValue(found, field);
  if (was === undefined || value === 'unknown') return null;
  if (value !== OTHER || !isChoice(field)) return was === value;
  return !kept.shares.some((s) => s.event === `${field}=${was}`);
}
