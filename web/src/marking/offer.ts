import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { CanalLevel, CanalTrace } from '@gapline/core/stems/canal-trace.ts';
import type { Place } from '../film/viewport.ts';

/** A line that is offered, not marked: drawn dashed. Film pixels. */
export interface OfferedShape {
  readonly points: readonly Place[];
  readonly closed: boolean;
}

/** What is put into the case when an offer is taken. */
export type OfferGives =
  | {
      readonly is: 'marks';
      readonly marks: readonly {
        readonly landmark: LandmarkId;
        readonly side: Side;
        readonly points: readonly Place[];
      }[];
    }
  | { readonly is: 'canal'; readonly bone: CanalTrace['bone']; readonly levels: readonly CanalLevel[] };

/** Something that was found on a film and waits for a person: plain data, never saved. */
export interface Offer {
  readonly id: string;
  /** What it is, as it is told. */
  readonly label: string;
  readonly shapes: readonly OfferedShape[];
  readonly gives: OfferGives;
  /** 0 to 1. */
  readonly confidence: number;
  readonly confident: boolean;
  /** What the confidence rests on, weakest first. */
  readonly restsOn: readonly string[];
}
