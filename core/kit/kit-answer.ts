import type { Reason } from '../measure/outcome.ts';

/** One step of the curve of cost against coverage: the cheapest room that covers this share. */
export interface KitStep {
  readonly bring: readonly string[];
  readonly cost: number;
  /** Share of the drawn knees covered, 0 to 1. */
  readonly share: number;
  /** No cheaper room covers as much: proven. */
  readonly proven: boolean;
}

/** What one set is worth at the room chosen. */
export interface KitWorth {
  readonly ref: string;
  readonly name: string;
  readonly brought: boolean;
  readonly owner: 'own-shelf' | 'loan';
  readonly trays: number;
  readonly cost: number;
  /** Share that it adds: lost if a brought set were left, gained if a left one were brought, 0 to 1. */
  readonly adds: number;
  readonly leadDays: number;
  readonly orderBy: string | null;
  readonly late: boolean;
  /** Chance that it does not arrive whole; null = not known. */
  readonly failShare: number | null;
}

/** Drawn knees that the room does not cover, by why. */
export interface Uncovered {
  readonly share: number;
  readonly knees: number;
  /** The whole in plain words: "medial tibia more than 20 mm down: ...". */
  readonly words: string;
  /** What the knees have in common, such as "medial tibia more than 20 mm down"; empty = nothing that tells them apart. */
  readonly when: string;
  /** What is lacking. */
  readonly lack: string;
  /** Cheapest sets that would cover them if brought; empty = no set of the list would. */
  readonly wouldTake: readonly string[];
  /** Smallest addition to the list or the catalogue, where no set of the list would do. */
  readonly addition: string | null;
}

/** One room and what it does. */
export interface KitRoom {
  readonly bring: readonly string[];
  readonly cost: number;
  readonly share: number;
  readonly sets: readonly KitWorth[];
  readonly uncovered: readonly Uncovered[];
}

/** The choice of sets. */
export interface KitAnswer extends KitRoom {
  /** Share asked for, 0 to 1. */
  readonly asked: number;
  /** False: no room reaches the share asked; this one reaches the most, and `notes` says why. */
  readonly reached: boolean;
  /** No cheaper room reaches the share: proven. */
  readonly proven: boolean;
  /** Proven least cost of any room that reaches the share; equals `cost` once proven. */
  readonly leastCost: number;
  /** Steps from the cheapest room to the fullest, cost and share ascending. */
  readonly curve: readonly KitStep[];
  readonly notes: readonly Reason[];
}

/** What is told while the choice is being made: the best room so far is usable at any time. */
export interface KitProgress {
  readonly phase: 'search' | 'proof' | 'curve';
  readonly bring: readonly string[];
  readonly cost: number;
  readonly share: number;
  /** Least cost proven so far. */
  readonly leastCost: number;
  /** Part of the phase that is done, 0 to 1. */
  readonly done: number;
}

/** What remains when one set does not arrive, and the best way round it. */
export interface KitWithout {
  readonly ref: string;
  readonly name: string;
  /** Chance that it does not arrive whole; null = not known. */
  readonly failShare: number | null;
  /** Share covered by what is left of the room. */
  readonly share: number;
  /** Cheapest sets to bring besides; `reached` false = the most that can be reached. Null = nothing helps. */
  readonly replacement: {
    readonly bring: readonly string[];
    readonly extraCost: number;
    readonly share: number;
    readonly reached: boolean;
  } | null;
  readonly words: string;
}
