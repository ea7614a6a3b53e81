/**
 * Calendar day as a count of days since 1970-01-01, from `YYYY-MM-DD`; null where the text names no day of the
 * calendar (30 February, month 13). Differences of two counts are days. Gregorian calendar, no clock, no time zone.
 */
export function dayNumber(iso: string): number | null {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso);
  if (!parts) return null;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const at = Date.UTC(year, month - 1, day);
  const back = isoOf(at);
  return back === iso ? Math.round(at / DAY_MS) : null;
}

/** Days from one day to another, + when `to` is later; null where either names no day. */
export function daysBetween(from: string, to: string): number | null {
  const [a, b] = [dayNumber(from), dayNumber(to)];
  return a === null || b === null ? null : b - a;
}

const DAY_MS = 86_400_000;

/** The text of a count of milliseconds, so that a rolled-over date (30 February) no longer reads as typed. */
const isoOf = (ms: number): string => new Date(ms).toISOString().slice(0, 10);
