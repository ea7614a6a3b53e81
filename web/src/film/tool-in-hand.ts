import type { DrawnDefect } from '@gapline/core/bone/bone-map.ts';
import type { LandmarkId } from '@gapline/core/landmarks/landmark-table.ts';
import type { Side } from '@gapline/core/landmarks/side.ts';
import type { SpanInHand } from '../compare/span-tool.ts';
import type { Hold } from '../construct/hold.ts';
import type { MarkPoint, StrokePhase } from '../gestures/pointer.ts';
import type { Offer, OfferedShape } from '../marking/offer.ts';
import type { Drawing } from './draw-outline.ts';
import type { Tracing } from './trace-canal.ts';
import type { Place } from './viewport.ts';

/** A tool taken up for one film: plain data on the desk, never saved. */
export type ToolInHand =
  /** A defect is being drawn. */
  | {
      readonly is: 'draw';
      readonly film: string;
      readonly surface: DrawnDefect['surface'];
      readonly compartment: DrawnDefect['compartment'];
      readonly drawing: Drawing;
      /** Why the outline could not be closed. */
      readonly said: string | null;
    }
  /** Corners of drawn defects are being moved. */
  | { readonly is: 'adjust'; readonly film: string }
  /** A canal is being traced, level by level. */
  | { readonly is: 'trace'; readonly film: string; readonly tracing: Tracing }
  /** The landmarks of one side are placed again, blind to the first. */
  | {
      readonly is: 'repeat';
      readonly film: string;
      readonly side: Side;
      readonly round: number;
      /** In the order in which they are asked for. */
      readonly asked: readonly LandmarkId[];
      /** Which of them is asked for now. */
      readonly at: number;
    }
  /** A lucent line or a cement mantle is marked across its interface. */
  | SpanInHand
  /** The planned construct is moved by hand. */
  | { readonly is: 'construct'; readonly film: string; readonly hold: Hold | null }
  /** One press shows where something is to be looked for: the femoral head. */
  | {
      readonly is: 'point-at';
      readonly film: string;
      readonly side: Side;
      readonly looking: boolean;
      /** Why nothing was found. */
      readonly said: string | null;
    }
  /** What was found on the film is offered, one thing after the other. */
  | {
      readonly is: 'offers';
      readonly film: string;
      readonly offers: readonly Offer[];
      readonly at: number;
      /** How far the one that is offered now was moved by hand, film pixels. */
      readonly moved: Place;
    };

/** A point that a tool offers to be grabbed, film pixels. */
export interface ToolHandle extends MarkPoint {
  readonly at: Place;
  readonly label: string;
  /** True where a pointer does not take hold of it: the press is answered by the tool. */
  readonly fixed?: boolean;
}

/** What a tool does with the gestures over its film. Film pixels throughout; `reach` = a finger's or pointer's. */
export interface FilmTool {
  readonly handles: readonly ToolHandle[];
  /** A press places something. */
  readonly places: boolean;
  /** A drag draws a line instead of moving the film. */
  readonly draws: boolean;
  /** What is wanted now, in words. */
  readonly line: string;
  /** Which keys do what; left out where the film is shown small. */
  readonly keys?: string;
  /** The hand moves what is larger than a point: no loupe. Absent = with loupe. */
  readonly noLoupe?: boolean;
  /** Nothing else is shown on the film: nothing may lead the hand. Absent = no. */
  readonly blind?: boolean;
  /** Whether a press on that point places instead of selecting it; absent = it selects. */
  readonly placesOn?: (point: MarkPoint) => boolean;
  /** Drawn dashed: what waits to be taken. Absent = nothing. */
  readonly offered?: readonly OfferedShape[];
  /** Enter, and the arrow keys (film pixels), where the tool offers something. */
  readonly accept?: () => void;
  readonly nudge?: (by: Place) => void;
  /** What a press takes hold of where no handle is near. */
  readonly grab?: (at: Place) => MarkPoint | null;
  /** A key that means something to this tool alone; true = it was answered. */
  readonly key?: (key: string) => boolean;
  readonly press: (at: Place, reach: number) => void;
  readonly stroke: (phase: StrokePhase, at: Place, reach: number) => void;
  readonly move: (point: MarkPoint, to: Place) => void;
  readonly remove: (point: MarkPoint) => void;
  readonly close: () => void;
  /** Takes back the last press. */
  readonly back: () => void;
  /** Escape: first what is half made, then the tool itself. */
  readonly leave: () => void;
}
