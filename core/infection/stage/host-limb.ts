import type { Known } from '../../measure/known.ts';
/** Host and limb staging of an infected joint, STAGE-1. McPherson 1997/1999/2002, Clin Orthop 403:8 (items from memory). */

export const SYSTEMIC_FACTORS = [
  { id: 'age-80', label: 'Age 80 or more' },
  { id: 'alcoholism', label: 'Alcoholism' },
  { id: 'skin-infection', label: 'Chronic active dermatitis or cellulitis' },
  { id: 'catheter', label: 'Chronic indwelling catheter' },
  { id: 'malnutrition', label: 'Chronic malnutrition (albumin 3.0 g/dL or less)' },
  { id: 'nicotine', label: 'Current nicotine use' },
  { id: 'diabetes', label: 'Diabetes on tablets or insulin' },
  { id: 'cirrhosis', label: 'Hepatic insufficiency (cirrhosis)' },
  { id: 'immunosuppressive', label: 'Immunosuppressive drugs' },
  { id: 'malignancy', label: 'Malignancy, past or active' },
  { id: 'lung', label: 'Pulmonary insufficiency (room-air oxygen under 60 mmHg)' },
  { id: 'dialysis', label: 'Renal failure on dialysis' },
  { id: 'inflammatory', label: 'Systemic inflammatory disease' },
  { id: 'immune-compromise', label: 'Systemic immune compromise' },
] as const;

/** Any one of these makes the host C by itself. */
export const SYSTEMIC_DECISIVE = [
  { id: 'neutrophils', label: 'Absolute neutrophils under 1,000' },
  { id: 'cd4', label: 'CD4 count under 100' },
  { id: 'intravenous-drugs', label: 'Intravenous drug abuse' },
  { id: 'other-infection', label: 'Chronic active infection elsewhere' },
  { id: 'immune-neoplasm', label: 'Dysplasia or neoplasm of the immune system' },
] as const;

export const LOCAL_FACTORS = [
  { id: 'infection-over-3-months', label: 'Active infection for more than three to four months' },
  { id: 'skin-bridges', label: 'Several incisions with skin bridges' },
  { id: 'soft-tissue-loss', label: 'Soft-tissue loss from earlier injury' },
  { id: 'abscess', label: 'Subcutaneous abscess over 8 cm2' },
  { id: 'fistula', label: 'Synovial-cutaneous fistula' },
  { id: 'fracture', label: 'Earlier fracture or crush about the joint' },
  { id: 'irradiation', label: 'Earlier irradiation of the site' },
  { id: 'vascular', label: 'Vascular insufficiency' },
] as const;

export type Factors<T extends readonly { readonly id: string }[]> = Readonly<Partial<Record<T[number]['id'], Known>>>;

/** A grade that is certain, or the range that it lies in while factors are unknown. */
export interface GradeRange<G> {
  readonly atLeast: G;
  readonly atMost: G;
}

const GRADE_BY_COUNT = (n: number): 0 | 1 | 2 => (n === 0 ? 0 : n <= 2 ? 1 : 2);
const HOST = ['A', 'B', 'C'] as const;
const LIMB = [1, 2, 3] as const;

function count(
  list: readonly { readonly id: string }[],
  known: Readonly<Record<string, Known | undefined>>,
  unknownCounts: boolean,
): number {
  return list.filter(({ id }) => {
    const state = known[id] ?? 'unknown';
    return state === 'yes' || (unknownCounts && state === 'unknown');
  }).length;
}

/** STAGE-1: systemic host grade A (no factor), B (one or two), C (more than two, or any decisive one); a range while factors are unknown. */
export function hostGrade(
  factors: Factors<typeof SYSTEMIC_FACTORS>,
  decisive: Factors<typeof SYSTEMIC_DECISIVE>,
): GradeRange<(typeof HOST)[number]> {
  const grade = (unknownCounts: boolean) =>
    count(SYSTEMIC_DECISIVE, decisive, unknownCounts) > 0
      ? 'C'
      : HOST[GRADE_BY_COUNT(count(SYSTEMIC_FACTORS, factors, unknownCounts))];
  return { atLeast: grade(false), atMost: grade(true) };
}

/** STAGE-1: local limb grade 1 (no factor), 2 (one or two), 3 (more than two); a range while factors are unknown. */
export function limbGrade(factors: Factors<typeof LOCAL_FACTORS>): GradeRange<(typeof LIMB)[number]> {
  const grade = (unknownCounts: boolean) => LIMB[GRADE_BY_COUNT(count(LOCAL_FACTORS, factors, unknownCounts))];
  return { atLeast: grade(false), atMost: grade(true) };
}

export type InfectionOnset = 'early-postoperative' | 'haematogenous' | 'late-chronic';

/**
 * STAGE-1: type I early after surgery (under 4 weeks since surgery), II haematogenous (under 4 weeks of symptoms in a
 * joint that was well before), III late chronic. Null while what decides is unknown.
 */
export function onsetType(
  weeksSinceSurgery: number | null,
  weeksOfSymptoms: number | null,
  wasWellBefore: Known,
): InfectionOnset | null {
  if (weeksSinceSurgery !== null && weeksSinceSurgery < 4) return 'early-postoperative';
  if (weeksSinceSurgery === null || weeksOfSymptoms === null) return null;
  if (weeksOfSymptoms >= 4) return 'late-chronic';
  return wasWellBefore === 'yes' ? 'haematogenous' : wasWellBefore === 'no' ? 'late-chronic' : null;
}
