import { CAUSES, type CauseId } from './causes.ts';
import { EVIDENCE, type EvidenceId, type EvidenceItem, type Strength } from './evidence-table.ts';

/** What is known of one item. Not looked for is `unknown`, never absent. */
export type Looked = 'present' | 'absent' | 'unknown';

/** The record of findings: an item that is not named is unknown. */
export type EvidenceRecord = Readonly<Partial<Record<EvidenceId, Looked>>>;

/** A practice's own strengths, by item and cause; what it does not name keeps the proposal's. */
export type PracticeStrengths = Readonly<Partial<Record<EvidenceId, Readonly<Partial<Record<CauseId, Strength>>>>>>;

export interface BearingItem {
  readonly id: EvidenceId;
  readonly finding: string;
  readonly strength: Strength;
}

/** One cause with what speaks for it, against it, and what has not been looked for, each strongest first. */
export interface WeighedCause {
  readonly id: CauseId;
  readonly label: string;
  readonly supports: readonly BearingItem[];
  readonly contradicts: readonly BearingItem[];
  readonly notLookedFor: readonly BearingItem[];
}

const byStrength = (a: BearingItem, b: BearingItem) => Math.abs(b.strength) - Math.abs(a.strength);

/**
 * CAUSE-2: lists, for every cause, the findings that support it, those that contradict it, and those that have not
 * been looked for. It gives no verdict and no sum: several causes may hold together and the surgeon names them.
 * An absent finding says nothing by itself (the table states what presence means), so it appears in no list.
 * The order of causes is fixed; the order within a list is by strength, then by the table's order.
 */
export function weighEvidence(record: EvidenceRecord, practice: PracticeStrengths = {}): readonly WeighedCause[] {
  return CAUSES.map((cause) => {
    const bearing = EVIDENCE.flatMap((item: EvidenceItem): BearingItem[] => {
      const id = item.id as EvidenceId;
      const strength = practice[id]?.[cause.id] ?? item.bears[cause.id];
      return strength === undefined ? [] : [{ id, finding: item.finding, strength }];
    });
    const known = (state: Looked) => bearing.filter((b) => (record[b.id] ?? 'unknown') === state).toSorted(byStrength);
    return {
      id: cause.id,
      label: cause.label,
      supports: known('present').filter((b) => b.strength > 0),
      contradicts: known('present').filter((b) => b.strength < 0),
      notLookedFor: known('unknown'),
    };
  });
}
