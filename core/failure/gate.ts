import { CAUSES, type CauseId } from './causes.ts';
import { EVIDENCE, type EvidenceId } from './evidence-table.ts';
import { type EvidenceRecord, weighEvidence } from './weigh-evidence.ts';

/** What infection's page says, as far as the gate needs it. */
export type InfectionStanding = 'excluded' | 'confirmed' | 'likely' | 'not-classifiable' | 'not-assessed';

export interface NamedCause {
  readonly cause: CauseId;
  readonly reason: string;
}

export interface GateInput {
  readonly infection: InfectionStanding;
  readonly named: readonly NamedCause[];
  readonly evidence: EvidenceRecord;
  /** Written reason for going on although nobody can say why the knee hurts. */
  readonly overrideReason?: string;
}

export interface GateAnswer {
  readonly ready: boolean;
  /** What stands in the way, what would change most first. */
  readonly open: readonly { readonly what: string; readonly wouldChange: string; readonly evidence?: EvidenceId }[];
  /** True when the only named cause is unexplained pain: referral is proposed. */
  readonly referralProposed: boolean;
  readonly overridden: boolean;
}

/** Items that must have been looked for before pain may be called unexplained, CAUSE-8. */
export const BEFORE_UNEXPLAINED: readonly EvidenceId[] = [
  'infection-unlikely-full-work-up',
  'subsidence-tilt-or-cement-fracture',
  'coronal-laxity-extension',
  'drawer-over-5-mm-at-90',
  'alignment-outlier-over-3',
  'ct-combined-internal-rotation-over-3',
  'patellar-tilt-or-subluxation',
  'fracture-or-broken-part',
  'hip-or-root-signs',
  'regional-pain-signs',
];

/** Items not looked for, those first whose presence would weigh most over all causes; ties by the table's order. */
export function openEvidence(record: EvidenceRecord): readonly { id: EvidenceId; finding: string; weight: number }[] {
  const total = new Map<EvidenceId, { finding: string; weight: number }>();
  for (const cause of weighEvidence(record))
    for (const item of cause.notLookedFor) {
      const before = total.get(item.id);
      total.set(item.id, { finding: item.finding, weight: Math.max(before?.weight ?? 0, Math.abs(item.strength)) });
    }
  return [...total].map(([id, v]) => ({ id, ...v })).toSorted((a, b) => b.weight - a.weight);
}

/**
 * CAUSE-7: not ready until infection has been excluded or classified and a cause is named with a reason.
 * CAUSE-8: pain may be called unexplained only when every mandatory item has been looked for; then referral is
 * proposed, and going on needs a written reason. common practice, no source, for the gate itself; outcome of revision
 * for unexplained pain: Mont 1996 (from memory).
 */
export function gate(input: GateInput): GateAnswer {
  const open: { what: string; wouldChange: string; evidence?: EvidenceId }[] = [];
  if (input.infection === 'not-assessed' || input.infection === 'not-classifiable')
    open.push({
      what:
        input.infection === 'not-assessed'
          ? 'Infection has not been assessed.'
          : 'Infection cannot be classified with the results at hand.',
      wouldChange: 'Whether to operate in one stage or two, or to treat without exchange.',
    });
  const named = input.named.filter((n) => n.reason.trim() !== '');
  if (named.length === 0)
    open.push({ what: 'No cause is named with a reason.', wouldChange: 'Whether to operate at all.' });
  const unexplained = named.some((n) => n.cause === 'unexplained') && named.every((n) => n.cause === 'unexplained');
  if (unexplained)
    for (const id of BEFORE_UNEXPLAINED)
      if ((input.evidence[id] ?? 'unknown') === 'unknown')
        open.push({
          what: `Not looked for: ${findingOf(id)}.`,
          wouldChange: 'Pain may be called unexplained only once this has been looked for.',
          evidence: id,
        });
  const overridden = unexplained && (input.overrideReason ?? '').trim() !== '';
  return {
    ready: open.length === 0 && (!unexplained || overridden),
    open,
    referralProposed: unexplained,
    overridden,
  };
}

const findingOf = (id: EvidenceId): string => EVIDENCE.find((e) => e.id === id)?.finding ?? id;

/** Label of a cause, as shown. */
export const causeLabel = (id: CauseId): string => CAUSES.find((c) => c.id === id)?.label ?? id;
