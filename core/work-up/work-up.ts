import type { NamedCause } from '../failure/gate.ts';
import type { LucentComponent, ZoneWidths } from '../failure/lucent-lines.ts';
import type { EvidenceRecord, PracticeStrengths } from '../failure/weigh-evidence.ts';
import type { Sensitivity } from '../infection/cement/candidate-agents.ts';
import type { CementDrug } from '../infection/cement/cement-load.ts';
import type { InfectionFindings } from '../infection/findings.ts';
import type { Factors, LOCAL_FACTORS, SYSTEMIC_DECISIVE, SYSTEMIC_FACTORS } from '../infection/stage/host-limb.ts';
import type { StageFacts } from '../infection/stage/strategies.ts';
import type { Known } from '../measure/known.ts';
import type { History } from './history.ts';

/** Infection as the surgeon settles it, after reading the definitions: the tool classifies, the surgeon decides. */
export interface InfectionDecision {
  readonly standing: 'excluded' | 'confirmed' | 'likely' | 'not-classifiable';
  readonly by: string;
  readonly on: string;
  readonly reason: string;
}

/** The work-up of one failed knee, as a page fills it. Every field may be absent: absent is unknown. */
export interface WorkUp {
  readonly history?: History;
  readonly infection?: InfectionFindings;
  readonly infectionDecision?: InfectionDecision;
  /** Evidence entered by hand; what measurements and infection say is added when it is read. */
  readonly evidence?: EvidenceRecord;
  readonly strengths?: PracticeStrengths;
  readonly lucentLines?: Readonly<
    Partial<Record<LucentComponent, { readonly widths: ZoneWidths; readonly progressing?: Known }>>
  >;
  readonly causes?: readonly NamedCause[];
  readonly overrideReason?: string;
  readonly stage?: {
    readonly systemic?: Factors<typeof SYSTEMIC_FACTORS>;
    readonly decisive?: Factors<typeof SYSTEMIC_DECISIVE>;
    readonly local?: Factors<typeof LOCAL_FACTORS>;
    readonly facts?: StageFacts;
    readonly klic?: Readonly<Record<string, Known>>;
    readonly crime80?: Readonly<Record<string, Known>>;
  };
  readonly cement?: {
    readonly use: 'fixation' | 'spacer';
    readonly batches: number;
    readonly drugs: readonly CementDrug[];
  };
  /** Antibiogram of the organisms found, as reported. */
  readonly sensitivities?: readonly Sensitivity[];
  /** Timeline between stages: antibiotics and operations with their days. */
  readonly timeline?: readonly {
    readonly id: string;
    readonly from: string;
    readonly to?: string;
    readonly kind: 'antibiotic' | 'operation' | 'holiday' | 'note';
    readonly text: string;
  }[];
  /** Pre-test share for the probability estimate, 0 to 1. */
  readonly preTest?: number;
}
