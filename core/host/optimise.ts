/** A fact about the patient that can be made better before the operation, HOST-3. */
export interface HostFactor {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  /** Which side of the limit calls for action. */
  readonly actWhen: 'at-least' | 'below';
  readonly limit: number;
  readonly correct: string;
  /** Weeks that the correction usually needs; null = no figure. */
  readonly weeks: number | null;
  readonly source: string;
}

export const HOST_FACTORS = [
  {
    id: 'hba1c',
    label: 'HbA1c',
    unit: '%',
    actWhen: 'at-least',
    limit: 7.7,
    correct: 'Better glucose control with the diabetes team.',
    weeks: 12,
    source:
      'Tarabichi 2017 (7.7 %); a prospective series of 1,020 (2025) did not confirm it; weeks: common practice, no source',
  },
  {
    id: 'fructosamine',
    label: 'Fructosamine',
    unit: 'umol/L',
    actWhen: 'at-least',
    limit: 293,
    correct: 'Better glucose control over the last weeks.',
    weeks: 3,
    source: 'Hip series, n 1,212: odds ratio for infection 6.4 (2.0-20.5); weeks: common practice, no source',
  },
  {
    id: 'albumin',
    label: 'Albumin',
    unit: 'g/dL',
    actWhen: 'below',
    limit: 3.5,
    correct: 'Nutrition; look for liver, kidney or inflammation.',
    weeks: 6,
    source:
      '13 studies, 112,183 patients: relative risk of surgical site infection 2.39 (1.57-3.64); weeks: common practice, no source',
  },
  {
    id: 'bmi-high',
    label: 'Body mass index, high',
    unit: 'kg/m2',
    actWhen: 'at-least',
    limit: 40,
    correct: 'Weigh deferral and weight loss against the harm of waiting.',
    weeks: null,
    source: 'Surgeons’ association advice; dose-response over 505,303 joint replacements',
  },
  {
    id: 'bmi-low',
    label: 'Body mass index, low',
    unit: 'kg/m2',
    actWhen: 'below',
    limit: 19,
    correct: 'Nutrition.',
    weeks: 6,
    source:
      'Dose-response over 505,303 joint replacements (risk up at 19 and under); weeks: common practice, no source',
  },
  {
    id: 'haemoglobin',
    label: 'Haemoglobin',
    unit: 'g/dL',
    actWhen: 'below',
    limit: 13,
    correct: 'Find the cause; iron where ferritin is low.',
    weeks: 4,
    source: 'Consensus, both sexes (from memory); weeks: common practice, no source',
  },
  {
    id: 'ferritin',
    label: 'Ferritin',
    unit: 'ug/L',
    actWhen: 'below',
    limit: 30,
    correct: 'Iron; with inflammation the limit is 100.',
    weeks: 4,
    source: 'Consensus (from memory); weeks: common practice, no source',
  },
  {
    id: 'vitamin-d',
    label: 'Vitamin D',
    unit: 'ng/mL',
    actWhen: 'below',
    limit: 20,
    correct: 'Supplement.',
    weeks: 8,
    source: 'Observational only (from memory); weeks: common practice, no source',
  },
  {
    id: 'weeks-since-injection',
    label: 'Weeks since a steroid injection into the knee',
    unit: 'weeks',
    actWhen: 'below',
    limit: 13,
    correct: 'Wait until three months have passed.',
    weeks: null,
    source: 'Review of injections before replacement: at least three months',
  },
  {
    id: 'weeks-since-smoking',
    label: 'Weeks since the last cigarette',
    unit: 'weeks',
    actWhen: 'below',
    limit: 4,
    correct: 'Stop for at least four to six weeks; check with cotinine.',
    weeks: 6,
    source: '40 studies, 3.0 million: infection odds ratio 1.84; former smokers 1.11, not significant',
  },
] as const satisfies readonly HostFactor[];

export type HostFactorId = (typeof HOST_FACTORS)[number]['id'];

export interface HostFinding {
  readonly factor: HostFactor;
  readonly value: number | null;
  readonly standing: 'act' | 'fine' | 'not-known';
  /** Latest date to begin, ISO, when the day of surgery is known and the correction has a usual duration. */
  readonly beginBy: string | null;
}

const DAY_MS = 86_400_000;

/**
 * HOST-3: each threshold against the patient's value, what to correct, and by when to begin for a given day of surgery.
 * Values in the unit of the factor; a factor without a value is `not-known`, never fine.
 * @param surgeryOn ISO date, or null when not booked.
 */
export function hostFindings(
  values: Readonly<Partial<Record<HostFactorId, number>>>,
  surgeryOn: string | null,
): readonly HostFinding[] {
  return HOST_FACTORS.map((factor: HostFactor) => {
    const value = values[factor.id as HostFactorId] ?? null;
    const act = value !== null && (factor.actWhen === 'at-least' ? value >= factor.limit : value < factor.limit);
    const at = surgeryOn === null ? Number.NaN : Date.parse(surgeryOn);
    const beginBy =
      act && factor.weeks !== null && Number.isFinite(at)
        ? new Date(at - factor.weeks * 7 * DAY_MS).toISOString().slice(0, 10)
        : null;
    return { factor, value, standing: value === null ? 'not-known' : act ? 'act' : 'fine', beginBy };
  });
}
