import type { Known } from '../measure/known.ts';

/** Revised cardiac risk index; a revision of the knee is not high-risk surgery and gives 0 for that item. HOST-2. */
export const CARDIAC_RISK_ITEMS = [
  { id: 'ischaemic-heart-disease', label: 'Ischaemic heart disease' },
  { id: 'heart-failure', label: 'Heart failure' },
  { id: 'cerebrovascular', label: 'Cerebrovascular disease' },
  { id: 'insulin', label: 'Insulin therapy' },
  { id: 'creatinine-over-177', label: 'Creatinine over 177 umol/L (2.0 mg/dL)' },
] as const;

export type CardiacRiskId = (typeof CARDIAC_RISK_ITEMS)[number]['id'];

/** Major cardiac events in percent by index 0, 1, 2, 3 or more, each series beside its source. */
export const CARDIAC_EVENTS: readonly {
  readonly source: string;
  readonly percent: readonly [number, number, number, number];
}[] = [
  { source: 'Lee 1999, Circulation, validation cohort', percent: [0.4, 0.9, 6.6, 11] },
  { source: 'Danish registry, 357,000 operations', percent: [0.2, 1.0, 4, 8] },
  { source: 'Canadian guideline 2017, pooled (from memory)', percent: [3.9, 6.0, 10.1, 15.0] },
];

/** HOST-2: index from what is known, and the most that it could be with the unknown items present. Lee 1999, Circulation. */
export function cardiacRisk(items: Readonly<Partial<Record<CardiacRiskId, Known>>>): {
  readonly index: number;
  readonly indexAtMost: number;
} {
  const count = (accept: (k: Known) => boolean) =>
    CARDIAC_RISK_ITEMS.filter((i) => accept(items[i.id] ?? 'unknown')).length;
  return { index: count((k) => k === 'yes'), indexAtMost: count((k) => k !== 'no') };
}
