import type { Construct } from '../gaps/construct.ts';

/** How often one choice comes out, e.g. choice `tray`, value `EX-T4`. */
export interface ChoiceShare {
  readonly choice: ForecastChoice;
  readonly value: string;
  readonly label: string;
  readonly share: number;
}

/** How often something is found, e.g. `tibiaClass=2B`. */
export interface ForecastEvent {
  readonly event: string;
  readonly label: string;
  readonly share: number;
}

/** The choices that make a construct another in kind whatever else is taken in their place. */
export const CHOICES_OF_KIND = [
  'level',
  'femur',
  'distal-medial',
  'distal-lateral',
  'posterior-medial',
  'posterior-lateral',
  'tray',
  'block-medial',
  'block-lateral',
] as const;

/** The choices of a construct that a forecast follows one by one. */
export const FORECAST_CHOICES = [
  ...CHOICES_OF_KIND,
  'insert',
  'femoral-stem',
  'tibial-stem',
  'femoral-offset',
  'tibial-offset',
  'femoral-zone-2',
  'tibial-zone-2',
] as const;
export type ForecastChoice = (typeof FORECAST_CHOICES)[number];

/** A length of the drawn knees or of their constructs, by its percentiles 5, 25, 50, 75, 95, mm or deg. */
export interface ForecastLength {
  readonly field: string;
  readonly label: string;
  readonly unit: 'mm' | 'deg';
  readonly percentiles: readonly number[];
}

/** A question that theatre answers, and the two ways on. Leaves tell what is done and how often it comes to that. */
export type BailOut =
  | {
      readonly kind: 'ask';
      /** Field of the drawn knee, e.g. `tibiaMm.medial`, or an event. */
      readonly field: string;
      /** In words: "the medial tibia is more than 12 mm down". */
      readonly question: string;
      /** Bound of the question, in the unit of the field; null for yes and no. */
      readonly above: number | null;
      readonly share: number;
      readonly yes: BailOut;
      readonly no: BailOut;
    }
  | {
      readonly kind: 'do';
      /** The construct that does best in the knees of this leaf (FOR-12); null = no construct fits, or a spacer. */
      readonly construct: Construct | null;
      /** How it differs from the first choice, in words; empty = as planned. */
      readonly differs: string;
      readonly share: number;
      /** Share of the leaf's knees in which it holds. */
      readonly pure: number;
    };

export interface Forecast {
  readonly seed: number;
  readonly draws: number;
  /** What the plan most often becomes, and in which share. */
  readonly most: { readonly construct: Construct; readonly share: number } | null;
  /** Share in which the construct planned for the expected bone still holds: its parts cost at most `HOLDS_WITHIN` above the best (FOR-10). */
  readonly firstHolds: number;
  /** Share in which it is still the very best in kind (FOR-10). */
  readonly firstBest: number;
  /** The construct that holds in the most knees of all that were tried, and their share. */
  readonly widest: { readonly construct: Construct; readonly share: number } | null;
  /** Share of knees without infection for which no construct keeps the limits. */
  readonly noConstruct: number;
  readonly fracture: number;
  readonly infection: number;
  readonly choices: readonly ChoiceShare[];
  /** What may be found, by name: classes of bone, ligaments, fracture, infection. */
  readonly events: readonly ForecastEvent[];
  readonly lengths: readonly ForecastLength[];
  readonly bailOuts: BailOut;
  /** Spreads and chances that were not stated, and what they would change. */
  readonly notStated: readonly { readonly what: string; readonly field: string; readonly wouldChange: string }[];
}
