import type { BoneClass, BoneQuality, LigamentState } from '../bone/bone-class.ts';
import type { DrawnDefect, FemurMap, FixationInPlace, RemovalEstimate, TibiaMap } from '../bone/bone-map.ts';
import type { FilmScaleFacts } from '../calibration/film-scale-facts.ts';
import type { Pinned } from '../gaps/pinned/pinned.ts';
import type { WeightTable } from '../gaps/weights.ts';
import type { JointLineCorrelations } from '../joint-line/estimate-types.ts';
import type { KitChoice } from '../kit/set-list.ts';
import type { Mark } from '../landmarks/mark.ts';
import type { RepeatedMark, SkippedMark } from '../landmarks/repeated-mark.ts';
import type { PerCompartment, Side } from '../landmarks/side.ts';
import type { SliceStack } from '../landmarks/slice-stack.ts';
import type { ColumnDirection, View } from '../landmarks/view.ts';
import type { Found, KeptForecast } from '../learning/found.ts';
import type { InterfaceSpan } from '../limb/interface-span.ts';
import type { CanalTrace } from '../stems/canal-trace.ts';
import type { WorkUp } from '../work-up/work-up.ts';

/** A case as stored: `case.json`. Absent fields are unknown, never zero. Units are in the names. */
export interface CaseFile {
  readonly format: 'gapline-case';
  readonly version: '1.0';
  readonly id: string;
  readonly title: string;
  readonly side: Side;
  readonly patient: Patient;
  readonly films: readonly CaseFilm[];
  readonly marks: readonly Mark[];
  /** Landmarks placed again, blind to the first; and both places where two people moved one mark at once. */
  readonly repeats?: readonly RepeatedMark[];
  /** Landmarks passed over, with the reason. */
  readonly skipped?: readonly SkippedMark[];
  readonly implants?: ImplantsInPlace;
  readonly examination?: Examination;
  readonly bone?: BoneFindings;
  readonly settings?: CaseSettings;
  /** Canals traced on the films. */
  readonly canals?: readonly CanalTrace[];
  /** Lucent lines and cement mantles marked on the films, zone by zone. */
  readonly interfaceSpans?: readonly InterfaceSpan[];
  /** Which sets are asked for and decided on. */
  readonly kit?: KitChoice;
  readonly forecast?: ForecastSettings;
  /** The forecast as it stood before surgery, and what was found. */
  readonly keptForecast?: KeptForecast;
  readonly found?: Found;
  /** Why the knee failed, whether it is infected, what is to be done before anything is planned. */
  readonly workUp?: WorkUp;
  /** Catalogue id; absent = none chosen, then no construct is proposed. */
  readonly catalogue?: string;
  /** True for invented demonstration cases. */
  readonly invented?: boolean;
  readonly note?: string;
}

/** Kept apart from the films; every field may be absent. */
export interface Patient {
  readonly id?: string;
  readonly name?: string;
  readonly sex?: 'female' | 'male';
  readonly birthDate?: string;
}

export interface CaseFilm {
  readonly id: string;
  /** File name in the case folder. */
  readonly file: string;
  /** SHA-256 of the file's bytes, hex. */
  readonly sha256?: string;
  readonly view: View;
  /** `both` for a long-leg film of both legs. */
  readonly side: Side | 'both';
  readonly takenOn?: string;
  readonly role: 'present' | 'before-first-replacement' | 'after-first-replacement';
  readonly standing?: boolean;
  /** Direction that columns run towards, from the file or confirmed by a person. */
  readonly columnsTowards?: ColumnDirection;
  /** What the file says about scale. */
  readonly scaleFacts: FilmScaleFacts;
  /** Calibration chosen by a person; absent = what the file allows. */
  readonly scale?: ChosenScale;
  /** A person confirmed the side although file and case disagree or the file says nothing. */
  readonly sideConfirmed?: { readonly by: string; readonly on: string };
  /** Mark of the person named in the film's file, that tells nobody who it is: films of one person carry the same. Absent = the file names nobody. */
  readonly personMark?: string;
  /** A person confirmed that the film is of the case's patient although the files name two. */
  readonly personConfirmed?: { readonly by: string; readonly on: string };
  /** Slices of a CT stack in their order; `file` and `sha256` are then the slice in the middle. Absent = one picture. */
  readonly slices?: SliceStack;
}

export type ChosenScale =
  | {
      readonly kind: 'known-implant';
      readonly part: 'tray' | 'femoral-component';
      readonly side: Side;
      readonly widthMm: number;
    }
  | { readonly kind: 'ball'; readonly diameterMm: number }
  | { readonly kind: 'magnification'; readonly factor: number; readonly from: string }
  | {
      readonly kind: 'distances';
      readonly sourceToDetectorMm: number;
      readonly sourceToKneeMm: number;
      readonly from: string;
    }
  | { readonly kind: 'stated-spacing'; readonly mmPerPx: number; readonly from: string };

/** What is in the knee now, from the operation note or labels. */
export interface ImplantsInPlace {
  readonly femurDistalMm?: number;
  readonly femurPosteriorMm?: number;
  readonly femurWidthMm?: number;
  readonly trayWidthMm?: number;
  readonly trayThicknessMm?: number;
  readonly insertMm?: number;
  readonly from?: string;
}

export interface Examination {
  /** Opening of each side under stress with the present implant, mm at 0 and at 90 degrees. */
  readonly openingExtensionMm?: PerCompartment<number>;
  readonly openingFlexionMm?: PerCompartment<number>;
  /** Standard deviation of those openings, mm. */
  readonly openingSdMm?: number;
  readonly recurvatumDeg?: number;
  readonly flexionDeg?: number;
  readonly mcl?: LigamentState;
  readonly lcl?: LigamentState;
  readonly extensorMechanism?: LigamentState;
  /** Flexion of the knee and rotation of the limb on the long-leg film, deg, when known; rotation external +. */
  readonly filmFlexionDeg?: number;
  readonly filmRotationDeg?: number;
}

export interface BoneFindings {
  readonly femurClass?: BoneClass;
  readonly tibiaClass?: BoneClass;
  readonly femurQuality?: BoneQuality;
  readonly tibiaQuality?: BoneQuality;
  /** Further loss expected at removal, mm, the practice's own estimate; absent = unknown. */
  readonly removalLossMm?: { readonly femurDistal?: number; readonly femurPosterior?: number; readonly tibia?: number };
  readonly femurCanalMm?: number;
  readonly tibiaCanalMm?: number;
  /** Bone stock by side and surface; the surgeon's class above stays beside the one proposed from it. */
  readonly femurMap?: FemurMap;
  readonly tibiaMap?: TibiaMap;
  readonly drawn?: readonly DrawnDefect[];
  readonly femurFixation?: FixationInPlace;
  readonly tibiaFixation?: FixationInPlace;
  /** The practice's own estimates of loss at removal; they stand in for those of the table. */
  readonly removalEstimates?: readonly RemovalEstimate[];
}

/** How the bone that may be found is drawn. Absent = the defaults of docs/rules/forecast.md, shown as such. */
export interface ForecastSettings {
  readonly seed?: number;
  readonly draws?: number;
  /** Chances stated by the surgeon, 0 to 1; absent = not stated, and said so. */
  readonly fractureChance?: number;
  readonly infectionChance?: number;
  readonly mclWorseChance?: number;
  readonly lclWorseChance?: number;
  readonly femurWorseChance?: number;
  readonly tibiaWorseChance?: number;
  /** Standard deviations stated where a value carries none, by the field of the bone state, mm or deg. */
  readonly spreads?: Readonly<Record<string, number>>;
}

export interface CaseSettings {
  readonly correlations?: JointLineCorrelations;
  /** Ratios of landmark distance to epicondylar width; absent = the default table. */
  readonly population?: 'pooled' | 'european' | 'chinese';
  readonly weights?: WeightTable;
  readonly targetAlignment?: 'neutral' | 'constitutional';
  readonly targetSlopeDeg?: number;
  /** What a person fixed of the construct; the solver respects it. */
  readonly pinned?: Pinned;
}
