/** What the early limits are about; values in the standard units of the laboratory. */
export type EarlyTest = 'crp' | 'esr' | 'synovial-wbc' | 'synovial-pmn';

export interface EarlyLimit {
  readonly test: EarlyTest;
  readonly over: number;
  /** The series covers joints up to this many days after the operation. */
  readonly withinDays: number;
  readonly accuracy: string;
  readonly source: string;
}

const BEDAIR = 'Bedair, Clin Orthop Relat Res 2011;469:34: 146 aspirates, 19 infected, knees';
const KIM = 'Kim 2017: 185 knees, 12 infected';
const MULTICENTRE = 'Multicentre series, J Bone Joint Surg Am 2020: 123 and 74 joints';

/**
 * INF-16: published limits for the first weeks, none of them universal. They belong to no definition; those of ICM 2013 and
 * of the proposed table stand in the definitions themselves.
 */
export const EARLY_LIMITS: readonly EarlyLimit[] = [
  {
    test: 'synovial-wbc',
    over: 11_200,
    withinDays: 21,
    accuracy: 'sensitivity 100 %, specificity 98.9 %',
    source: KIM,
  },
  { test: 'crp', over: 34.9, withinDays: 21, accuracy: 'sensitivity 100 %, specificity 90.3 %', source: KIM },
  { test: 'synovial-wbc', over: 10_170, withinDays: 30, accuracy: 'not given for this cut', source: MULTICENTRE },
  {
    test: 'synovial-wbc',
    over: 27_800,
    withinDays: 42,
    accuracy: 'sensitivity 84 %, specificity 99 %; 10,700 for sensitivity',
    source: BEDAIR,
  },
  { test: 'synovial-pmn', over: 89, withinDays: 42, accuracy: 'not given for this cut', source: BEDAIR },
  { test: 'crp', over: 95, withinDays: 42, accuracy: 'not given for this cut', source: BEDAIR },
  {
    test: 'synovial-wbc',
    over: 6130,
    withinDays: 90,
    accuracy: 'sensitivity 91 %, specificity 83 %',
    source: MULTICENTRE,
  },
  {
    test: 'synovial-pmn',
    over: 79.5,
    withinDays: 90,
    accuracy: 'sensitivity 95 %, specificity 59 %',
    source: MULTICENTRE,
  },
  { test: 'crp', over: 39.8, withinDays: 90, accuracy: 'sensitivity 91 %, specificity 87 %', source: MULTICENTRE },
  { test: 'esr', over: 39.5, withinDays: 90, accuracy: 'sensitivity 76 %, specificity 67 %', source: MULTICENTRE },
];

export interface EarlyReading extends EarlyLimit {
  readonly reading: 'over' | 'not-over' | 'not-known';
}

/**
 * The early limits whose series covers this joint, each with whether its value lies over it. `daysSince` = whole days since
 * the last operation; values in mg/L, mm/h, /uL and %; an absent value is not known. Empty outside the first 90 days.
 * Equality is not over. No sum and no verdict: the rows disagree, and each is shown with its source.
 */
export function readEarlyLimits(
  daysSince: number,
  values: Readonly<Partial<Record<EarlyTest, number>>>,
): readonly EarlyReading[] {
  return EARLY_LIMITS.filter((l) => daysSince >= 0 && daysSince <= l.withinDays).map((limit) => {
    const value = values[limit.test];
    return { ...limit, reading: value === undefined ? 'not-known' : value > limit.over ? 'over' : 'not-over' };
  });
}
