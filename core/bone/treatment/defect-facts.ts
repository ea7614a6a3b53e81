import type { BoneClass, BoneQuality } from '../bone-class.ts';

/** What the choice of treatment for one bone asks. Null, `unknown` or absent = not known, never read as no. */
export interface DefectFacts {
  /** The surgeon's class; null = not stated. */
  readonly boneClass: BoneClass | null;
  readonly quality: BoneQuality | 'unknown';
  /** Deepest loss beyond the resection plane, mm. */
  readonly depthMm: number | null;
  /** Largest share of one side without support, %. */
  readonly unsupportedPct: number | null;
  readonly containment: 'contained' | 'uncontained' | 'unknown';
  readonly bone?: 'femur' | 'tibia';
  /** Years. */
  readonly age?: number;
  /** What the patient asks of the knee. */
  readonly demand?: 'low' | 'high';
  /** An origin or insertion of a collateral, or of the patellar tendon, is lost. */
  readonly attachmentLost?: boolean;
  /** Reconstruction with augments, cones or grafts has failed before. */
  readonly failedBefore?: boolean;
}

export type FactName = Exclude<keyof DefectFacts, 'bone'>;
export type Truth = 'yes' | 'no' | 'unknown';

/** A condition on a defect, with the facts that it asks. */
export interface Condition {
  readonly asks: readonly FactName[];
  readonly holds: (f: DefectFacts) => Truth;
}

const truth = (known: boolean, holds: () => boolean): Truth => (known ? (holds() ? 'yes' : 'no') : 'unknown');

export const classIs = (...classes: readonly BoneClass[]): Condition => ({
  asks: ['boneClass'],
  holds: ({ boneClass }) => truth(boneClass !== null, () => classes.some((c) => c === boneClass)),
});

export const qualityIs = (...qualities: readonly BoneQuality[]): Condition => ({
  asks: ['quality'],
  holds: ({ quality }) => truth(quality !== 'unknown', () => qualities.some((q) => q === quality)),
});

/** Deeper than `over` and no deeper than `upTo`, mm. */
export const deep = (over: number, upTo = Number.POSITIVE_INFINITY): Condition => ({
  asks: ['depthMm'],
  holds: ({ depthMm: d }) => truth(d !== null, () => d !== null && d > over && d <= upTo),
});

/** At most `upTo` mm deep. */
export const shallow = (upTo: number): Condition => deep(Number.NEGATIVE_INFINITY, upTo);

/** More than `over` % of a side unsupported. */
export const unsupported = (over: number): Condition => ({
  asks: ['unsupportedPct'],
  holds: ({ unsupportedPct: a }) => truth(a !== null, () => a !== null && a > over),
});

/** Less than `under` % of each side unsupported. */
export const supported = (under: number): Condition => ({
  asks: ['unsupportedPct'],
  holds: ({ unsupportedPct: a }) => truth(a !== null, () => a !== null && a < under),
});

export const containmentIs = (which: 'contained' | 'uncontained'): Condition => ({
  asks: ['containment'],
  holds: ({ containment: c }) => truth(c !== 'unknown', () => c === which),
});

/** Planning default, grade D: the sources say "young" and give no age. Years. */
export const YOUNG_BELOW = 65;

export const young: Condition = {
  asks: ['age'],
  holds: ({ age }) => truth(age !== undefined, () => age !== undefined && age < YOUNG_BELOW),
};

export const demandIs = (which: 'low' | 'high'): Condition => ({
  asks: ['demand'],
  holds: ({ demand }) => truth(demand !== undefined, () => demand === which),
});

export const isTrue = (fact: 'attachmentLost' | 'failedBefore'): Condition => ({
  asks: [fact],
  holds: (f) => truth(f[fact] !== undefined, () => f[fact] === true),
});

const asked = (conditions: readonly Condition[]) => [...new Set(conditions.flatMap((c) => c.asks))];

/** All of them: one no settles it, whatever is not known of the others. */
export const all = (...conditions: readonly Condition[]): Condition => ({
  asks: asked(conditions),
  holds: (f) => {
    const truths = conditions.map((c) => c.holds(f));
    return truths.includes('no') ? 'no' : truths.includes('unknown') ? 'unknown' : 'yes';
  },
});

/** One of them: one yes settles it. */
export const any = (...conditions: readonly Condition[]): Condition => ({
  asks: asked(conditions),
  holds: (f) => {
    const truths = conditions.map((c) => c.holds(f));
    return truths.includes('yes') ? 'yes' : truths.includes('unknown') ? 'unknown' : 'no';
  },
});

export const not = (condition: Condition): Condition => ({
  asks: condition.asks,
  holds: (f) => {
    const t = condition.holds(f);
    return t === 'unknown' ? t : t === 'yes' ? 'no' : 'yes';
  },
});
