import type { CardiacRiskId } from '../host/cardiac-risk.ts';
import type { CharlsonId } from '../host/charlson.ts';
import type { HostFactorId } from '../host/optimise.ts';
import type { Known } from '../measure/known.ts';

export const OPERATION_KINDS = [
  'first-replacement',
  'revision',
  'debridement',
  'manipulation',
  'fracture-fixation',
  'osteotomy',
  'ligament',
  'arthroscopy',
  'other',
] as const;

export type OperationKind = (typeof OPERATION_KINDS)[number];

/** An operation on this knee. */
export interface Operation {
  readonly id: string;
  /** `YYYY-MM-DD`, `YYYY-MM` or `YYYY`, as far as it is known. */
  readonly on?: string;
  readonly kind: OperationKind;
  readonly note?: string;
}

/** Features of a fixed part that make its removal hard; they also feed what must be in the room. */
export const HARD_FEATURES = [
  { id: 'offset-stem', label: 'Offset stem' },
  { id: 'sleeve', label: 'Metaphyseal sleeve' },
  { id: 'cone', label: 'Metaphyseal cone' },
  { id: 'metal-backed-patella', label: 'Metal-backed patella' },
  { id: 'ingrown-stem', label: 'Ingrown stem' },
  { id: 'long-cement', label: 'Long cement mantle' },
  { id: 'other-metalwork', label: 'Other metalwork near the knee' },
] as const;

export type HardFeature = (typeof HARD_FEATURES)[number]['id'];

export const PART_KINDS = [
  'femoral-component',
  'tray',
  'insert',
  'patellar-button',
  'femoral-stem',
  'tibial-stem',
  'augment',
  'other',
] as const;

export type PartKind = (typeof PART_KINDS)[number];

export const FIXATIONS = ['cemented', 'uncemented', 'hybrid', 'unknown'] as const;

export type Fixation = (typeof FIXATIONS)[number];

/** One implanted part. */
export interface ImplantedPart {
  readonly id: string;
  readonly part: PartKind;
  readonly fixation?: Fixation;
  readonly reference?: string;
  readonly lot?: string;
  readonly serial?: string;
  readonly device?: string;
  readonly expires?: string;
  readonly sizeNote?: string;
  readonly features?: readonly HardFeature[];
  /** Where the facts come from: label, operation note, film, patient. */
  readonly from?: string;
}

/**
 * A scar drawn on the outline of the knee seen from the front. Points lie in the unit square: x = 0 at the medial
 * edge of the outline to 1 at the lateral, y = 0 at the upper end (a hand above the patella) to 1 at the lower.
 */
export interface Scar {
  readonly id: string;
  readonly points: readonly (readonly [number, number])[];
  readonly year?: number;
  readonly adherent?: Known;
}

export const SYMPTOMS = [
  { id: 'start-up', label: 'Start-up pain' },
  { id: 'weight-bearing', label: 'Pain on bearing weight' },
  { id: 'rest-night', label: 'Pain at rest or at night' },
  { id: 'stairs', label: 'Trouble on stairs' },
  { id: 'giving-way', label: 'Giving way' },
  { id: 'effusion', label: 'Swelling that comes back' },
  { id: 'stiff', label: 'Stiffness' },
  { id: 'front', label: 'Pain at the front, behind the patella' },
  { id: 'skin-touch', label: 'Pain on light touch' },
] as const;

export type SymptomId = (typeof SYMPTOMS)[number]['id'];

/** Drugs and allergies that change what is done. */
export const DRUG_ITEMS = [
  { id: 'anticoagulant', label: 'Anticoagulant' },
  { id: 'platelet-inhibitor', label: 'Platelet inhibitor' },
  { id: 'immunosuppressive', label: 'Immunosuppressive drug' },
  { id: 'steroid', label: 'Long-term steroid' },
  { id: 'allergy-penicillin', label: 'Allergy to penicillin or other beta-lactams' },
  { id: 'allergy-metal', label: 'Reaction to metal' },
  { id: 'allergy-cement', label: 'Reaction to bone cement or its additives' },
  { id: 'allergy-other', label: 'Other allergy' },
] as const;

export type DrugId = (typeof DRUG_ITEMS)[number]['id'];

export const PAIN_COURSES = ['never-free', 'free-then-gradual', 'free-then-sudden', 'none', 'unknown'] as const;

export type PainCourse = (typeof PAIN_COURSES)[number];

export interface History {
  readonly operations?: readonly Operation[];
  readonly parts?: readonly ImplantedPart[];
  readonly scars?: readonly Scar[];
  /** Course of pain since the first replacement. */
  readonly painCourse?: PainCourse;
  /** Months free of pain after the first replacement. */
  readonly painFreeMonths?: number;
  readonly symptoms?: Readonly<Partial<Record<SymptomId, Known>>>;
  readonly examination?: {
    readonly flexionDeg?: number;
    readonly extensionDeficitDeg?: number;
    readonly activeLagDeg?: number;
    /** Opening in mm at 30 degrees; 0 and 90 stand in the case's examination. */
    readonly opening30Mm?: { readonly medial: number; readonly lateral: number };
    readonly drawer90Mm?: number;
    readonly footPulses?: Known;
    readonly skinSound?: Known;
    readonly hipRotationPainful?: Known;
    readonly rootSigns?: Known;
    readonly tenderness?: string;
  };
  readonly charlson?: Readonly<Partial<Record<CharlsonId, Known>>>;
  readonly cardiac?: Readonly<Partial<Record<CardiacRiskId, Known>>>;
  readonly asa?: 1 | 2 | 3 | 4 | 5;
  readonly heightCm?: number;
  readonly weightKg?: number;
  readonly drugs?: Readonly<Partial<Record<DrugId, Known>>>;
  readonly drugNotes?: string;
  readonly hostValues?: Readonly<Partial<Record<HostFactorId, number>>>;
  readonly surgeryOn?: string;
}

/** Body mass index, kg/m2, from height in cm and weight in kg; null unless both are known and sensible. */
export function bodyMassIndex(heightCm: number | undefined, weightKg: number | undefined): number | null {
  if (heightCm === undefined || weightKg === undefined) return null;
  if (!(heightCm > 50 && heightCm < 260 && weightKg > 20 && weightKg < 400)) return null;
  return weightKg / (heightCm / 100) ** 2;
}
