import type { JointLineEstimate } from '../joint-line/estimate-types.ts';
import { coronalFilms, sagittalFilms } from '../joint-line/joint-line-input.ts';
import { SHAFT_TO_MECHANICAL } from '../joint-line/landmark-distances.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { Definition } from '../limb/definition.ts';
import { type FilmsOfLimb, measureOne } from '../limb/measure-one.ts';
import type { Measurement } from '../limb/measurement.ts';
import type { BoneStock } from './bone-stock.ts';
import type { CaseFile } from './case.ts';
import type { AlignmentTarget } from './plan.ts';
import type { TargetTilt } from './target-axes.ts';

/** What a bone state is put together from. */
export interface BoneInputs {
  readonly file: CaseFile;
  readonly evidence: KneeEvidence;
  readonly films: FilmsOfLimb;
  readonly measurements: readonly Measurement[];
  /** Consensus of the femur: the target joint line over the present one. */
  readonly jointLine: JointLineEstimate;
  readonly tilt: TargetTilt;
  /** Bone stock of both bones: where its map is deeper than a mark, and the class that it proposes. */
  readonly stock: BoneStock;
}

/** Present films of the knee to be operated on, in its own frames. */
export const presentFilms = (evidence: KneeEvidence): FilmsOfLimb => ({
  coronal: coronalFilms(evidence, evidence.side, 'present'),
  sagittal: sagittalFilms(evidence, evidence.side, 'present'),
  unreadable: new Map(),
});

/** The chosen alignment with the valgus cut angle of this limb or, where it was not measured, of published limbs. */
export const targetTilt = (target: AlignmentTarget, measurements: readonly Measurement[]): TargetTilt => ({
  femurDeg: target.femurDeg,
  tibiaDeg: target.tibiaDeg,
  valgusCutDeg: measurements.find((m) => m.id === 'valgus-cut-angle')?.value ?? SHAFT_TO_MECHANICAL.deg,
});

/** One of this folder's own quantities, measured as every other measurement is. */
export const coronally = ({ evidence, films }: BoneInputs, d: Definition<'coronal'>): Measurement =>
  measureOne(d, { evidence, films: films.coronal, unreadable: films.unreadable });

export const sagittally = ({ evidence, films }: BoneInputs, d: Definition<'sagittal'>): Measurement =>
  measureOne(d, { evidence, films: films.sagittal, unreadable: films.unreadable });
