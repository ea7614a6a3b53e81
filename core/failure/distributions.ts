import type { CauseId } from './causes.ts';

/** What was found to have failed in one published series, % of revisions; a cause that is not named was not reported apart. */
export interface CauseDistribution {
  readonly id: string;
  readonly where: string;
  readonly years: string;
  /** Revisions counted; null = not given here. */
  readonly n: number | null;
  readonly percent: Readonly<Partial<Record<CauseId, number>>>;
  readonly source: string;
}

/**
 * CAUSE-9: why knees failed, by series. Shown beside the work-up as background; never a prior for this knee. Labels differ
 * between registries, so rows are not added up nor averaged.
 */
export const CAUSE_DISTRIBUTIONS: readonly CauseDistribution[] = [
  {
    id: 'us-inpatient-2005',
    where: 'United States, national inpatients',
    years: '2005-06',
    n: 60_355,
    percent: { infection: 25.2, loosening: 16.1 },
    source: 'published series',
  },
  {
    id: 'us-inpatient-2009',
    where: 'United States, national inpatients',
    years: '2009-13',
    n: 337_597,
    percent: { infection: 20.4, loosening: 20.3 },
    source: 'from memory',
  },
  {
    id: 'sharkey-2002',
    where: 'United States, one centre',
    years: 'before 2002',
    n: 212,
    percent: {
      infection: 17.5,
      loosening: 24.1,
      instability: 21.2,
      wear: 25,
      stiffness: 14.6,
      fracture: 2.8,
      malalignment: 11.8,
      extensor: 6.6,
    },
    source: 'Sharkey 2002 (from memory)',
  },
  {
    id: 'sharkey-2014',
    where: 'United States, one centre',
    years: '2003-12',
    n: 781,
    percent: { infection: 27.4, loosening: 39.9, instability: 7.5, wear: 3.5, stiffness: 4.5, fracture: 4.7 },
    source: 'Sharkey 2014 (from memory)',
  },
  {
    id: 'us-centre-2005',
    where: 'United States, one centre',
    years: '2005-14',
    n: 258,
    percent: {
      infection: 29.3,
      loosening: 19.7,
      instability: 11.6,
      wear: 18.1,
      stiffness: 8.1,
      fracture: 2.3,
      malalignment: 5.4,
      extensor: 3.9,
      unexplained: 1.5,
    },
    source: 'published series',
  },
  {
    id: 'germany-2010',
    where: 'Germany, one centre',
    years: '2010-15',
    n: 402,
    percent: { infection: 36.1, loosening: 21.9, fracture: 13.7 },
    source: 'published series',
  },
  {
    id: 'germany-2015',
    where: 'Germany',
    years: 'to 2015',
    n: 358,
    percent: { infection: 14.5, loosening: 21.8, instability: 21.8, wear: 7, malalignment: 20.7 },
    source: 'Thiele 2015 (from memory)',
  },
  {
    id: 'india-2011',
    where: 'India',
    years: '2011-16',
    n: 201,
    percent: { infection: 61, loosening: 18, instability: 7 },
    source: 'published series',
  },
  {
    id: 'australia-2020s',
    where: 'Australia, registry',
    years: '2020s',
    n: null,
    percent: {
      infection: 26,
      loosening: 22,
      instability: 11,
      stiffness: 5,
      fracture: 4,
      malalignment: 4,
      extensor: 10,
      unexplained: 7,
    },
    source: 'from memory, rounded',
  },
];

/** What the trade takes for granted, without a source: no series, only a check that the table above is not far off. */
export const COMMON_PRACTICE = {
  /** % of revisions; pain and stiffness were told as one. */
  percent: { loosening: 40, painAndStiffness: 22, instability: 18, osteolysis: 11 },
  /** % of replaced knees revised in a year. */
  yearlyRevision: { over75: 1, under55: 2 },
  source: 'common practice, no source',
} as const;
