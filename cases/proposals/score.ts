/** One thing that was proposed and held against the truth. */
export interface Scored {
  /** Line of the table. */
  readonly what: string;
  readonly px: number;
  readonly mm: number;
  readonly confident: boolean;
  /** Off by more than the line allows. */
  readonly wrong: boolean;
}

/** What became of all attempts at one thing; an attempt without an answer counts as tried. */
export interface Tally {
  readonly what: string;
  readonly scored: Scored[];
  tried: number;
}

/** Keeps the tallies of a study in the order in which they come up. */
export class Tallies {
  readonly all = new Map<string, Tally>();

  tried(what: string): Tally {
    const tally = this.all.get(what) ?? { what, scored: [], tried: 0 };
    this.all.set(what, tally);
    tally.tried += 1;
    return tally;
  }

  /** Takes up tallies that were kept elsewhere. */
  take(others: readonly Tally[]): void {
    for (const { what, scored, tried } of others) {
      const tally = this.all.get(what) ?? { what, scored: [], tried: 0 };
      this.all.set(what, tally);
      tally.tried += tried;
      tally.scored.push(...scored);
    }
  }

  /** Counts an attempt with its answer, or without one. */
  add(what: string, answer: Omit<Scored, 'what'> | null): void {
    const tally = this.tried(what);
    if (answer) tally.scored.push({ what, ...answer });
  }
}

/** Value that a share of sorted numbers does not exceed; 0 of none. */
export const quantile = (values: readonly number[], share: number): number => {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
};

/** Share of confident answers that are wrong, 0 to 1; 0 of none. */
export function confidentWrong(scored: readonly Scored[]): number {
  const sure = scored.filter((s) => s.confident);
  return sure.length > 0 ? sure.filter((s) => s.wrong).length / sure.length : 0;
}
