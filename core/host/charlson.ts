import type { Known } from '../measure/known.ts';
import { cannot, type Outcome, ok } from '../measure/outcome.ts';

/** Comorbidities of the Charlson index with their points; `pair` names items of which only the higher counts. HOST-1. */
export const CHARLSON_ITEMS = [
  { id: 'myocardial-infarction', label: 'Myocardial infarction', points: 1 },
  { id: 'heart-failure', label: 'Heart failure', points: 1 },
  { id: 'peripheral-vascular', label: 'Peripheral vascular disease', points: 1 },
  { id: 'cerebrovascular', label: 'Cerebrovascular disease', points: 1 },
  { id: 'dementia', label: 'Dementia', points: 1 },
  { id: 'chronic-lung', label: 'Chronic lung disease', points: 1 },
  { id: 'connective-tissue', label: 'Connective tissue disease', points: 1 },
  { id: 'peptic-ulcer', label: 'Peptic ulcer', points: 1 },
  { id: 'liver-mild', label: 'Liver disease, mild', points: 1, pair: 'liver' },
  { id: 'diabetes', label: 'Diabetes without organ damage', points: 1, pair: 'diabetes' },
  { id: 'diabetes-with-damage', label: 'Diabetes with organ damage', points: 2, pair: 'diabetes' },
  { id: 'hemiplegia', label: 'Hemiplegia', points: 2 },
  { id: 'kidney-moderate-severe', label: 'Kidney disease, moderate or severe', points: 2 },
  { id: 'solid-tumour', label: 'Solid tumour without metastasis', points: 2, pair: 'tumour' },
  { id: 'leukaemia', label: 'Leukaemia', points: 2 },
  { id: 'lymphoma', label: 'Lymphoma', points: 2 },
  { id: 'liver-moderate-severe', label: 'Liver disease, moderate or severe', points: 3, pair: 'liver' },
  { id: 'metastatic-tumour', label: 'Metastatic tumour', points: 6, pair: 'tumour' },
  { id: 'aids', label: 'AIDS', points: 6 },
] as const;

export type CharlsonId = (typeof CHARLSON_ITEMS)[number]['id'];
export interface CharlsonIndex {
  /** Points from what is known to be present. */
  readonly points: number;
  /** Points if every unknown item were present: the index lies between the two. */
  readonly pointsAtMost: number;
  readonly agePoints: number | null;
  /** Ten-year survival, share 0 to 1, of the 1987 cohort at `points` plus age points; null while age or items are unknown. */
  readonly tenYearSurvival: number | null;
}

/** Age points of the age-adjusted index: 0 under 50, then one a decade up to 4 at 80 and over. */
export function charlsonAgePoints(ageYears: number): number {
  return ageYears < 50 ? 0 : Math.min(4, Math.floor((ageYears - 40) / 10));
}

/** Ten-year survival of the original cohort, 0.983^(e^(0.9 points)), share 0 to 1. */
export const charlsonTenYearSurvival = (points: number): number => 0.983 ** Math.exp(0.9 * points);

function score(items: Readonly<Partial<Record<CharlsonId, Known>>>, counts: (k: Known) => boolean): number {
  const best = new Map<string, number>();
  for (const item of CHARLSON_ITEMS) {
    if (!counts(items[item.id] ?? 'unknown')) continue;
    const slot = 'pair' in item ? item.pair : item.id;
    best.set(slot, Math.max(best.get(slot) ?? 0, item.points));
  }
  return [...best.values()].reduce((a, b) => a + b, 0);
}

/**
 * HOST-1: Charlson comorbidity index, of paired items only the higher. Points are whole numbers, higher = sicker.
 * Source: Charlson 1987, J Chronic Dis 40:373; survival 0.983^(e^(0.9 CCI)). The cohort is old: shown as such.
 * @param ageYears for the age-adjusted survival; null = unknown. Refuses ages outside 0 to 120.
 */
export function charlson(
  items: Readonly<Partial<Record<CharlsonId, Known>>>,
  ageYears: number | null,
): Outcome<CharlsonIndex> {
  if (ageYears !== null && !(ageYears >= 0 && ageYears <= 120))
    return cannot({
      code: 'age-not-possible',
      message: `An age of ${ageYears} years is not possible.`,
      field: 'ageYears',
      mend: 'Check the date of birth.',
    });
  const points = score(items, (k) => k === 'yes');
  const pointsAtMost = score(items, (k) => k !== 'no');
  const agePoints = ageYears === null ? null : charlsonAgePoints(ageYears);
  const settled = agePoints !== null && points === pointsAtMost;
  return ok({
    points,
    pointsAtMost,
    agePoints,
    tenYearSurvival: settled ? charlsonTenYearSurvival(points + agePoints) : null,
  });
}
