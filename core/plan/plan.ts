import type { Calibration } from '../calibration/calibration.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Infeasible, SolverAnswer } from '../gaps/construct.ts';
import type { JointLineEstimate, RuleOfThumb } from '../joint-line/estimate-types.ts';
import type { MarkingSpread } from '../landmarks/repeat-marks.ts';
import type { Side } from '../landmarks/side.ts';
import type { View } from '../landmarks/view.ts';
import type { Measurement } from '../limb/measurement.ts';
import type { Outcome, Warning } from '../measure/outcome.ts';
import type { BoneStock } from './bone-stock.ts';
import type { StemPlan } from './stem-plan.ts';
import type { MetaphysisPlan } from './stem-plan-metaphysis.ts';

/** Everything that the tool computes from one case: the same input gives the same plan, byte for byte. */
export interface Plan {
  readonly format: 'gapline-plan';
  readonly version: '1.0';
  /** Versions of core and of every table that had a say. */
  readonly versions: { readonly core: string; readonly tables: Readonly<Record<string, string>> };
  readonly caseId: string;
  readonly side: Side;
  readonly films: readonly PlanFilm[];
  /** Spread of marking from landmarks placed more than once; absent = none was. */
  readonly marking?: MarkingSpread;
  readonly measurements: readonly Measurement[];
  readonly jointLine: {
    readonly femoral: Outcome<JointLineEstimate>;
    readonly tibial: Outcome<JointLineEstimate>;
    readonly rulesOfThumb: readonly RuleOfThumb[];
  };
  readonly alignment: readonly AlignmentTarget[];
  /** What each bone still offers: its map, drawn defects in mm, the class proposed beside the surgeon's, zones, loss at removal. */
  readonly boneStock: BoneStock;
  /** Bone state that the construct was solved for, with the origin of each value; or what is missing for it. */
  readonly bone: Outcome<{ readonly state: BoneState; readonly origins: readonly Origin[] }>;
  readonly construct:
    | { readonly kind: 'solved'; readonly answer: SolverAnswer }
    | { readonly kind: 'infeasible'; readonly why: Infeasible }
    | { readonly kind: 'not-attempted'; readonly because: readonly Missing[] };
  /** Stems in the traced canals; cones and sleeves in the measured cavities. Absent = no catalogue. */
  readonly stems?: StemPlan;
  readonly metaphysis?: MetaphysisPlan;
  /** What is drawn on the films, in film pixels. */
  readonly drawings: readonly FilmDrawing[];
  readonly missing: readonly Missing[];
  readonly conflicts: readonly Warning[];
  /** Short keys to full citations of every source that was used. */
  readonly sources: readonly string[];
}

export interface PlanFilm {
  readonly id: string;
  readonly file: string;
  readonly view: View;
  readonly side: Side | 'both';
  readonly takenOn?: string;
  readonly calibration: Calibration;
  readonly warnings: readonly Warning[];
}

/** Where one number of the bone state came from, for its reason. */
export interface Origin {
  readonly field: string;
  readonly label: string;
  readonly value: number | string;
  readonly unit: string;
  readonly sd: number | null;
  readonly from: string;
  readonly rule: string;
  /** The part of `sd` whose causes may move other values too; absent = it errs alone. */
  readonly shared?: SharedSpread;
}

/** By cause (a mark, a scale, the target): how far one standard deviation of it moves the value, with its sign. */
export type SharedSpread = Readonly<Record<string, number>>;

/** Something not known, and what knowing it would change. */
export interface Missing {
  readonly what: string;
  readonly field: string;
  readonly wouldChange: string;
}

export interface AlignmentTarget {
  readonly id: 'neutral' | 'constitutional';
  readonly label: string;
  readonly chosen: boolean;
  readonly femurDeg: number;
  readonly tibiaDeg: number;
  readonly anatomicalValgusDeg: number | null;
  readonly note: string;
  readonly source: string;
}

/** Layers to draw on one film. All coordinates are film pixels. */
export interface FilmDrawing {
  readonly film: string;
  readonly layers: readonly DrawnLayer[];
}

export interface DrawnLayer {
  readonly kind:
    | 'axis'
    | 'tangent'
    | 'angle'
    | 'joint-line'
    | 'joint-line-band'
    | 'component'
    | 'augment'
    | 'stem'
    | 'distance'
    | 'circle'
    | 'canal'
    | 'contact'
    | 'cone'
    | 'weak-spot';
  readonly id: string;
  readonly label?: string;
  readonly side: Side;
  /** Belongs to the knee as it is, or to the plan. */
  readonly belongs: 'present' | 'plan';
  readonly closed: boolean;
  readonly points: readonly { readonly x: number; readonly y: number }[];
}
