import type { TestId } from './tests.ts';

/** Tests of one group read the same inflammation, or the same organism: only one of them may move a probability. */
export type DependenceGroup = 'serum' | 'synovial' | 'culture' | 'histology' | 'imaging';

export interface Accuracy {
  readonly test: TestId;
  readonly method: string | null;
  readonly group: DependenceGroup;
  /** Likelihood ratio of a positive and of a negative result. */
  readonly positive: number;
  readonly negative: number;
  /** 95 % interval of each; null where none was published or can be derived. */
  readonly positiveInterval: readonly [number, number] | null;
  readonly negativeInterval: readonly [number, number] | null;
  /** How the interval was had. */
  readonly interval: 'published' | 'from the ends of sensitivity and specificity' | 'none';
  readonly source: string;
}

/** Pooled sensitivity and specificity with their intervals, in percent. */
interface Pooled {
  readonly sens: readonly [number, number, number];
  readonly spec: readonly [number, number, number];
}

/** Widest pair of ratios that the intervals of sensitivity and specificity allow. */
const fromPooled = ({ sens, spec }: Pooled) => ({
  positiveInterval: [sens[1] / (100 - spec[1]), sens[2] / (100 - spec[2])] as const,
  negativeInterval: [(100 - sens[2]) / spec[2], (100 - sens[1]) / spec[1]] as const,
  interval: 'from the ends of sensitivity and specificity' as const,
});
const NO_INTERVAL = { positiveInterval: null, negativeInterval: null, interval: 'none' } as const;

/**
 * INF-14: published likelihood ratios. White cells and their share are not here: their meta-analysis gives odds ratios and
 * areas only. Within a group the first row whose test is known is used, so the order is a rule of its own.
 */
export const ACCURACY: readonly Accuracy[] = [
  {
    test: 'crp',
    method: null,
    group: 'serum',
    positive: 3.6,
    negative: 0.27,
    ...fromPooled({ sens: [79.4, 78.5, 80.3], spec: [77.7, 77.1, 78.3] }),
    source: 'J Bone Jt Infect 2025;10:363, 84 studies, 22,351 patients; ratios derived',
  },
  {
    test: 'il-6',
    method: null,
    group: 'serum',
    positive: 5.4,
    negative: 0.28,
    ...NO_INTERVAL,
    source: 'J Bone Jt Infect 2025;10:363, 20 studies, 2,318 patients; ratios derived',
  },
  {
    test: 'd-dimer',
    method: null,
    group: 'serum',
    positive: 2.7,
    negative: 0.26,
    ...fromPooled({ sens: [82, 70, 89], spec: [70, 55, 82] }),
    source: 'Meta-analysis of 8 studies, 2020',
  },
  {
    test: 'alpha-defensin',
    method: 'laboratory',
    group: 'synovial',
    positive: 35,
    negative: 0.04,
    ...fromPooled({ sens: [96, 90, 98], spec: [97, 95, 99] }),
    source: 'J Orthop Surg Res 2019;14:309, 11 studies',
  },
  {
    test: 'alpha-defensin',
    method: 'lateral-flow',
    group: 'synovial',
    positive: 21.2,
    negative: 0.14,
    ...fromPooled({ sens: [86, 81, 91], spec: [96, 93, 98] }),
    source: 'J Orthop Surg Res 2019;14:309, 10 studies',
  },
  {
    test: 'synovial-crp',
    method: null,
    group: 'synovial',
    positive: 9.2,
    negative: 0.09,
    ...fromPooled({ sens: [92, 86, 96], spec: [90, 87, 93] }),
    source: 'Meta-analysis of 6 studies, 456 patients; ratios derived',
  },
  {
    test: 'leukocyte-esterase',
    method: null,
    group: 'synovial',
    positive: 11.8,
    negative: 0.11,
    ...NO_INTERVAL,
    source: 'Meta-analysis of 26 studies, 4,206 joints, 2025: centrifuged, ++; ratios derived',
  },
  {
    test: 'histology',
    method: null,
    group: 'histology',
    positive: 12,
    negative: 0.23,
    positiveInterval: [8.4, 17.2],
    negativeInterval: [0.15, 0.35],
    interval: 'published',
    source: 'J Bone Joint Surg Am 2012, frozen section, 26 studies, 3,269 patients',
  },
  {
    test: 'sonication',
    method: null,
    group: 'culture',
    positive: 18.7,
    negative: 0.24,
    ...fromPooled({ sens: [77, 76, 79], spec: [96, 95, 96] }),
    source: 'J Orthop Surg Res 2023, 38 studies, 6,302 patients',
  },
  {
    test: 'tissue-culture',
    method: null,
    group: 'culture',
    positive: 76,
    negative: 0.4,
    ...NO_INTERVAL,
    source: 'Trampuz, N Engl J Med 2007;357:654, 331 patients (from memory); ratios derived',
  },
  {
    test: 'leukocyte-scan',
    method: null,
    group: 'imaging',
    positive: 1.75,
    negative: 0.31,
    ...NO_INTERVAL,
    source: 'Labelled leukocyte scan of loosened implants, 168 patients, knees; ratios derived',
  },
];
