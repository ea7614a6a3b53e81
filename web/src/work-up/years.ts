import { dayNumber } from '@gapline/core/laboratory/day.ts';

/** Whole years from a day of birth to another day, both YYYY-MM-DD; null where either is no day or they stand the wrong way round. */
export function yearsBetween(birth: string, day: string): number | null {
  const [from, to] = [dayNumber(birth), dayNumber(day)];
  if (from === null || to === null || to < from) return null;
  const years = Number(day.slice(0, 4)) - Number(birth.slice(0, 4));
  return day.slice(5) < birth.slice(5) ? years - 1 : years;
}
