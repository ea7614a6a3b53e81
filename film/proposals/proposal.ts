import type { FilmPoint } from './grey-film.ts';

/** One thing that speaks for a proposal, and how well it holds: 0 = not at all, 1 = fully. */
export interface Ground {
  readonly says: string;
  readonly holds: number;
}

/** How far a proposal may be trusted (PRO-1). */
export interface Trust {
  /** 0 to 1: the weakest of its grounds. */
  readonly confidence: number;
  /** At or over `CONFIDENT`. */
  readonly confident: boolean;
  /** What the confidence rests on, in words, weakest first. */
  readonly restsOn: readonly Ground[];
}

/** Something found on a film and offered: never a mark until a person takes it. */
export interface Proposal extends Trust {
  /** What is offered, film pixels, sub-pixel. */
  readonly points: readonly FilmPoint[];
}

/** From here on a proposal is called confident; on phantoms fewer than 1 in 100 of these are wrong (docs/proposals.md). */
export const CONFIDENT = 0.8;

/** A proposal is as sure as the weakest thing that it rests on (PRO-1). Without grounds: no confidence. */
export function weighed(grounds: readonly Ground[]): Trust {
  const restsOn = grounds.toSorted((a, b) => a.holds - b.holds);
  const confidence = restsOn[0]?.holds ?? 0;
  return { confidence, confident: confidence >= CONFIDENT, restsOn };
}

/** Straight from 0 at `none` to 1 at `full`; either may be the larger. */
export const ramp = (value: number, none: number, full: number): number =>
  Number.isFinite(value) ? Math.min(1, Math.max(0, (value - none) / (full - none))) : 0;

/** A share in words: 0.934 becomes "93 %". */
export const percent = (share: number): string => `${Math.round(100 * share)} %`;
