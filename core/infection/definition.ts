import type { Formula } from './formula.ts';

export type DefinitionId =
  | 'msis-2011'
  | 'msis-2011-or'
  | 'icm-2013'
  | 'parvizi-2018'
  | 'icm-2018-proposed'
  | 'idsa-2013'
  | 'waiot-2019'
  | 'ebjis-2021';

/** One of two, shown in parts: a slot such as "CRP or D-dimer" counts once however many of its parts are met. */
export interface LinePart {
  readonly label: string;
  readonly when: Formula;
}

export interface DefinitionLine {
  readonly id: string;
  readonly block: string;
  readonly label: string;
  readonly when: Formula;
  readonly parts?: readonly LinePart[];
  /** What a met line adds to the named tallies. */
  readonly met?: Readonly<Record<string, number>>;
  /** What a line known not to be met adds. */
  readonly notMet?: Readonly<Record<string, number>>;
  /** What a line adds as soon as it is known either way. */
  readonly known?: Readonly<Record<string, number>>;
  /** Id of a line of the same tests: where that line is met, this one adds nothing. */
  readonly yieldsTo?: string;
  readonly note?: string;
}

/** Weighted sum of tallies compared with a number. */
export interface Comparison {
  readonly sum: Readonly<Record<string, number>>;
  readonly atLeast?: number;
  readonly below?: number;
}

export interface ClassRule {
  readonly gives: string;
  /** All must hold; an empty list always holds. Rules are read in order, the first that holds gives the class. */
  readonly when: readonly Comparison[];
}

/** What a class means for going on, the same five words for every definition. */
export type Standing = 'confirmed' | 'open' | 'excluded' | 'not-classifiable' | 'not-assessed';

export interface DefinitionClass {
  readonly id: string;
  readonly label: string;
  readonly standing: Standing;
  /** Order within the definition: more infected is larger. */
  readonly rank: number;
}

/** A published definition as versioned data. The scorer knows nothing of any definition. INF-1. */
export interface Definition {
  readonly id: DefinitionId;
  readonly name: string;
  readonly version: string;
  readonly source: string;
  /** How far the table was verified against the publication. */
  readonly trust: string;
  /** Range of each tally, sums stop at its ends; all ranges together fit 30 bits. */
  readonly tallies: Readonly<Record<string, readonly [from: number, to: number]>>;
  readonly lines: readonly DefinitionLine[];
  readonly classes: readonly DefinitionClass[];
  readonly rules: readonly ClassRule[];
  /** What is counted for the screen, e.g. points. */
  readonly score: {
    readonly label: string;
    readonly sum: Readonly<Record<string, number>>;
    readonly max: number;
  } | null;
  /** `chronic`: derived for chronic infection, marked as outside its range within 90 days of an operation. */
  readonly madeFor: 'any' | 'chronic' | 'has-acute-limits';
  readonly remark: string;
}
