import { dayNumber } from '../laboratory/day.ts';

/** Days of the calendar, YYYY-MM-DD, on which nothing is sent or received besides weekends. */
export type Holidays = readonly string[];

const DAY_MS = 86_400_000;

const isoOf = (day: number): string => new Date(day * DAY_MS).toISOString().slice(0, 10);

/** 1970-01-01 was a Thursday: day 3 of the week when Monday is 0. */
const isWorkingDay = (day: number, off: ReadonlySet<number>): boolean => (day + 3) % 7 < 5 && !off.has(day);

function workingDaysBefore(day: number, days: number, off: ReadonlySet<number>): number {
  let at = day;
  for (let left = days; left > 0; ) {
    at--;
    if (isWorkingDay(at, off)) left--;
  }
  return at;
}

/**
 * Last day on which a set must be ordered so that it stands on the shelf, to be sterilised, by the last working day
 * before surgery (KIT-8).
 *
 * @param surgeryOn day of surgery, YYYY-MM-DD. @param leadDays working days from order to shelf, >= 0.
 * @param holidays none by default: weekends alone are free; whoever shows the date says so.
 * @returns YYYY-MM-DD, always a working day; null where the day of surgery names no day of the calendar.
 * Example: surgery on Monday 2026-12-14, 3 working days: on the shelf on Friday 11, so ordered by Tuesday 2026-12-08.
 */
export function orderBy(surgeryOn: string, leadDays: number, holidays: Holidays = []): string | null {
  const surgery = dayNumber(surgeryOn);
  if (surgery === null) return null;
  const off = new Set(holidays.flatMap((day) => dayNumber(day) ?? []));
  const onShelf = workingDaysBefore(surgery, 1, off);
  return isoOf(workingDaysBefore(onShelf, Math.ceil(leadDays), off));
}
