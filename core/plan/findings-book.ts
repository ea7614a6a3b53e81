import { landmark } from '../landmarks/landmark-table.ts';
import type { Measurement } from '../limb/measurement.ts';
import type { Warning } from '../measure/outcome.ts';
import type { Missing, Origin, SharedSpread } from './plan.ts';

/** A number that the bone state rests on, with its spread; null = not known. */
export interface Known {
  readonly value: number;
  readonly sd: number | null;
  readonly from: string;
  /** The part of the spread whose causes may move other numbers too. */
  readonly shared?: SharedSpread;
}

/**
 * Keeps the books while a bone state is put together: where each number came from, what the plan cannot do
 * without, and what it does without for now.
 */
export interface FindingsBook {
  readonly origins: Origin[];
  /** Without these no construct is proposed. */
  readonly needed: Missing[];
  /** The plan is made without these, and says so. */
  readonly without: Missing[];
  /** Two readings of one thing that lie apart. */
  readonly apart: Warning[];
}

export const newBook = (): FindingsBook => ({ origins: [], needed: [], without: [], apart: [] });

/** The value of a measurement, or null with what is missing for it noted as needed, each mark once. */
export function measuredFor(book: FindingsBook, m: Measurement, wouldChange: string): Known | null {
  if (m.value !== null) {
    const from = `film ${m.film}${m.variant ? `, ${m.variant}` : ''}`;
    return { value: m.value, sd: m.sd, from, ...(m.causes ? { shared: m.causes } : {}) };
  }
  for (const id of m.missing ?? []) {
    need(book, { what: `Mark: ${landmark(id).label}`, field: `marks[${id}]`, wouldChange });
  }
  if (m.refused) {
    need(book, { what: `${m.label}: ${m.refused.message}`, field: m.refused.field ?? 'films', wouldChange });
  }
  return null;
}

export function need(book: FindingsBook, missing: Missing): null {
  if (!book.needed.some((m) => m.field === missing.field && m.what === missing.what)) book.needed.push(missing);
  return null;
}

export const goWithout = (book: FindingsBook, missing: Missing): void => {
  book.without.push(missing);
};

/** Spread of a sum of independent terms; unknown where one of them is unknown. */
export function together(...sds: readonly (number | null)[]): number | null {
  let variance = 0;
  for (const sd of sds) {
    if (sd === null) return null;
    variance += sd * sd;
  }
  return Math.sqrt(variance);
}
