import type { LabResult } from '../laboratory/lab-result.ts';
import type { Known } from '../measure/known.ts';

export const CULTURE_SOURCES = ['aspirate', 'tissue', 'sonication'] as const;
export const CULTURE_GROWTHS = ['none', 'growth', 'pending'] as const;
export const ORGANISM_KINDS = ['virulent', 'common-contaminant', 'unknown'] as const;

export interface CultureSample {
  readonly id: string;
  readonly from: (typeof CULTURE_SOURCES)[number];
  readonly takenOn?: string;
  /** `pending` = taken, not yet read. */
  readonly growth: (typeof CULTURE_GROWTHS)[number];
  /** Organisms by name; two samples hold the same organism when the names agree, capitals and spaces aside. */
  readonly organisms?: readonly Organism[];
  /** Sonication only: colony-forming units per mL of fluid. */
  readonly cfuPerMl?: number;
  /** Sonication only: fluid concentrated by centrifugation. */
  readonly centrifuged?: boolean;
}

export interface Organism {
  readonly name: string;
  /** As judged by microbiology: a virulent organism, or one that is often a contaminant. */
  readonly kind: (typeof ORGANISM_KINDS)[number];
}

/** Neutrophils at a magnification of 400, counted in high-power fields. */
export const HISTOLOGIES = ['negative', 'five-in-one-field', 'five-in-five-fields', 'organisms-seen'] as const;

export type Histology = (typeof HISTOLOGIES)[number];

export const LOCAL_SIGNS = ['pain', 'swelling', 'redness', 'warmth', 'loss-of-function'] as const;

export type LocalSign = (typeof LOCAL_SIGNS)[number];

/** The work-up for infection as a page fills it. Every field may be absent: absent is unknown. Days are YYYY-MM-DD. */
export interface InfectionFindings {
  /** Results taken after this day are not used; absent = today. */
  readonly decisionOn?: string;
  /** Last operation on this joint: sets acute or chronic, and results from before it are not used. */
  readonly lastOperationOn?: string;
  readonly implantedOn?: string;
  readonly labResults?: readonly LabResult[];
  readonly cultures?: readonly CultureSample[];
  /** Sinus tract that reaches the joint, or prosthesis seen. */
  readonly sinus?: Known;
  readonly purulence?: Known;
  readonly histology?: Histology | 'unknown';
  /** A cause other than infection explains the symptoms: fracture, breakage, malposition, wear, tumour. */
  readonly otherCause?: Known;
  /** Each local sign; an absent entry is unknown. */
  readonly localSigns?: Readonly<Partial<Record<LocalSign, Known>>>;
  readonly loosening?: Known;
  /** Day on which loosening was first seen on film, for the five-year rule. */
  readonly looseningSeenOn?: string;
  readonly woundHealingProblem?: Known;
  readonly feverOrBacteraemia?: Known;
  readonly leukocyteScan?: 'negative' | 'positive' | 'unknown';
  readonly leukocyteMarrowScan?: 'negative' | 'positive' | 'unknown';
  readonly boneScan?: 'negative' | 'positive' | 'unknown';
  /** `dry` = tapped, no fluid. */
  readonly tap?: 'fluid' | 'dry' | 'lavage' | 'unknown';
  readonly context?: InfectionContext;
}

/** What makes a result harder to trust. Shown as cautions; never changes a score. */
export interface InfectionContext {
  readonly crystals?: Known;
  /** Adverse local tissue reaction or metallosis. */
  readonly metalReaction?: Known;
  readonly inflammatoryDisease?: Known;
  readonly fracture?: Known;
  readonly haematoma?: Known;
  readonly bloodStainedAspirate?: Known;
  /** Antibiotics within 14 days before the tap. */
  readonly antibioticsBeforeTap?: Known;
  readonly slowOrganismSuspected?: Known;
  readonly spacerInPlace?: Known;
  /** Sudden onset in a joint that was well: acute by the blood, not early after surgery. */
  readonly suddenOnset?: Known;
}
