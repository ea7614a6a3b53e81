import type { Known } from '../../measure/known.ts';

/** One item of a score for failure of debridement with retention. */
export interface ScoreItem {
  readonly id: string;
  readonly label: string;
  readonly points: number;
}

export interface RetentionScore {
  readonly id: 'klic' | 'crime80';
  readonly label: string;
  readonly derivedIn: string;
  readonly items: readonly ScoreItem[];
  /** Bands of points, each with the failure observed where the score was derived, percent. */
  readonly bands: readonly { readonly upTo: number; readonly failurePercent: number }[];
  readonly cautions: readonly string[];
  readonly source: string;
}

/** STAGE-2, for early acute infection after surgery. */
export const KLIC: RetentionScore = {
  id: 'klic',
  label: 'KLIC',
  derivedIn: 'Early acute infection after surgery, n 222.',
  items: [
    { id: 'kidney', label: 'Chronic renal failure', points: 2 },
    { id: 'liver', label: 'Liver cirrhosis', points: 1.5 },
    { id: 'index', label: 'Index operation a revision, or a prosthesis for fracture of the femoral neck', points: 1.5 },
    { id: 'cemented', label: 'Cemented prosthesis', points: 2 },
    { id: 'crp-115', label: 'CRP over 115 mg/L', points: 2.5 },
  ],
  bands: [
    { upTo: 2, failurePercent: 4.5 },
    { upTo: 3.5, failurePercent: 19.4 },
    { upTo: 5, failurePercent: 55 },
    { upTo: 6.5, failurePercent: 71.4 },
    { upTo: 9.5, failurePercent: 100 },
  ],
  cautions: [
    'In another 59 knees: 60 % failed at 7 points or more, 28 % below, with no gradation below 7.',
    'Has no predictive value in late acute infection of a knee.',
  ],
  source: 'Tornero 2015 (points from memory); external knee cohort n 59',
};

/** STAGE-3, for late acute, haematogenous infection. */
export const CRIME80: RetentionScore = {
  id: 'crime80',
  label: 'CRIME80',
  derivedIn: 'Late acute, haematogenous infection, n 340.',
  items: [
    { id: 'copd', label: 'Chronic obstructive lung disease', points: 2 },
    { id: 'crp-150', label: 'CRP over 150 mg/L', points: 1 },
    { id: 'rheumatoid', label: 'Rheumatoid arthritis', points: 3 },
    { id: 'fracture', label: 'Index prosthesis for a fracture', points: 3 },
    { id: 'male', label: 'Male', points: 1 },
    { id: 'exchange', label: 'Mobile parts exchanged', points: -1 },
    { id: 'over-80', label: 'Age over 80', points: 2 },
  ],
  bands: [
    { upTo: -1, failurePercent: 22 },
    { upTo: 0, failurePercent: 28 },
    { upTo: 2, failurePercent: 40 },
    { upTo: 4, failurePercent: 64 },
    { upTo: 12, failurePercent: 79 },
  ],
  cautions: ['Whether mobile parts are exchanged is decided in theatre: read the score with and without it.'],
  source: 'Wouthuyzen-Bakker 2019 (points and bands from memory)',
};

export interface RetentionReading {
  readonly points: number;
  /** Least and most points that the unknown items allow. */
  readonly range: readonly [number, number];
  /** Failure percent where the score was derived, at the two ends of the range. */
  readonly failurePercent: readonly [number, number];
}

/**
 * STAGE-2, STAGE-3: points from what is known, the range that unknown items leave, and the failure observed where the
 * score was derived. A number of the derivation cohort, not a forecast for this patient.
 */
export function readRetentionScore(score: RetentionScore, items: Readonly<Record<string, Known>>): RetentionReading {
  const state = (i: ScoreItem) => items[i.id] ?? 'unknown';
  const sum = (list: readonly ScoreItem[]) => list.reduce((a, i) => a + i.points, 0);
  const yes = score.items.filter((i) => state(i) === 'yes');
  const open = score.items.filter((i) => state(i) === 'unknown');
  const points = sum(yes);
  const low = points + sum(open.filter((i) => i.points < 0));
  const high = points + sum(open.filter((i) => i.points > 0));
  return { points, range: [low, high], failurePercent: [failureAt(score, low), failureAt(score, high)] };
}

const failureAt = (score: RetentionScore, points: number): number =>
  (score.bands.find((b) => points <= b.upTo) ?? score.bands[score.bands.length - 1]!).failurePercent;
