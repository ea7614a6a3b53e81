import type { CanalSection } from './straight-stem.ts';

/** The two views in which a canal is traced. */
export const STEM_VIEWS = ['ap', 'lateral'] as const;
export type StemView = (typeof STEM_VIEWS)[number];

/**
 * One canal in one view, in the frame of the stem as the component holds it: `zMm` runs out along the planned axis of the stem from the
 * target joint line (femur: proximally, tibia: distally); walls are counted across it, **+ = lateral (AP) or anterior
 * (lateral view)**, 0 = where the component stands without offset (its middle on the AP; femur from the side: the
 * anterior cortex, against which the flange lies; tibia from the side: the middle of the tray).
 */
export interface CanalInView {
  readonly view: StemView;
  /** Film on which it is traced. */
  readonly film: string;
  readonly sections: readonly CanalSection[];
  /** Outer cortex, where it is traced at every level. */
  readonly outer: readonly CanalSection[] | null;
  /** Standard deviation of one wall at one level, from marking, mm. */
  readonly wallSdMm: number;
  /** Relative standard deviation of the film's scale: moves all widths together. */
  readonly scaleRelativeSd: number;
}

/** Both views of one bone; null = not traced, or the trace was refused. */
export interface CanalOfBone {
  readonly bone: 'femur' | 'tibia';
  readonly ap: CanalInView | null;
  readonly lateral: CanalInView | null;
}

/** The words of a view's two directions. */
export const WALL_WORDS: Readonly<Record<StemView, { readonly low: string; readonly high: string }>> = {
  ap: { low: 'medial', high: 'lateral' },
  lateral: { low: 'posterior', high: 'anterior' },
};
