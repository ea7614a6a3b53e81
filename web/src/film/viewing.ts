import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { AnchorId } from './anchor.ts';
import { type LeadChannel, leadChannel } from './lead.ts';

/** How films are looked at beside one another: never saved. */
export interface Viewing {
  /** Films of one view, or of one day, move together. */
  readonly link: 'none' | 'view' | 'date';
  /** What linked films are held together by. */
  readonly anchor: AnchorId;
  /** The other knee stands beside, mirrored. */
  readonly otherKnee: boolean;
  /** Two dates of one view laid over one another; null = films side by side. */
  readonly wipe: Wipe | null;
  readonly lead: LeadChannel;
}

export interface Wipe {
  readonly earlier: string;
  readonly later: string;
  /** Bone whose points the two films are held together by. */
  readonly bone: WipeBone;
  /** Points of it that count; null = those that are the same on any two films. */
  readonly chosen: readonly LandmarkId[] | null;
}

export type WipeBone = 'femur' | 'tibia';

export const viewingAtStart = (): Viewing => ({
  link: 'none',
  anchor: 'joint-line',
  otherKnee: false,
  wipe: null,
  lead: leadChannel(),
});

/** Films shown at a time, the mirrored other knee among them. */
export const MOST_FILMS = 4;
