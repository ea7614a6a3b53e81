/**
 * Dates of labels. All take the year of reading from outside, because two-digit years are read within a window
 * around it; none of them reads a clock.
 */

const pad = (n: number) => String(n).padStart(2, '0');

/** Days of a month, 1 to 12, of the Gregorian calendar. */
export function daysIn(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}

/** ISO date, or null where there is no such day. */
export function isoDate(year: number, month: number, day: number): string | null {
  if (!(month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month))) return null;
  return `${year}-${pad(month)}-${pad(day)}`;
}

/** ISO date of the n-th day of a year, 1 to 366, or null. */
export function dayOfYear(year: number, n: number): string | null {
  const days = daysIn(year, 2) === 29 ? 366 : 365;
  if (!(n >= 1 && n <= days)) return null;
  return new Date(Date.UTC(year, 0, n)).toISOString().slice(0, 10);
}

/**
 * Four-digit year of two digits: at most 49 years back and 50 ahead of the year of reading
 * (GS1 General Specifications 7.12; arithmetic from memory).
 */
export function fullYear(two: number, readIn: number): number {
  const century = readIn - (readIn % 100);
  const gap = two - (readIn % 100);
  if (gap >= 51) return century - 100 + two;
  if (gap <= -50) return century + 100 + two;
  return century + two;
}
