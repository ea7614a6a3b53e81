import type { NineCells, NineCellsAsked } from '@gapline/core/gaps/nine-cells.ts';
import type { Outcome } from '@gapline/core/measure/outcome.ts';
import type { SurpriseAnswer, SurpriseInput, SurpriseProgress } from '@gapline/core/plan/surprise.ts';

/** What the page tells the worker. A new start takes the place of the run before it; nine cells are asked beside it. */
export type ToWorker =
  | { readonly kind: 'start'; readonly run: number; readonly input: SurpriseInput }
  | { readonly kind: 'stop' }
  | { readonly kind: 'cells'; readonly asked: number; readonly question: NineCellsAsked };

/** What the worker tells the page, always with the run or the question that it belongs to. */
export type FromWorker =
  | { readonly kind: 'progress'; readonly run: number; readonly progress: SurpriseProgress }
  /** The forecast is there, the sets are still being weighed: the answer's kit is none yet. */
  | { readonly kind: 'forecast'; readonly run: number; readonly answer: SurpriseAnswer }
  | { readonly kind: 'done'; readonly run: number; readonly answer: SurpriseAnswer; readonly tookMs: number }
  | { readonly kind: 'failed'; readonly run: number; readonly message: string }
  | { readonly kind: 'cells'; readonly asked: number; readonly cells: Outcome<NineCells> };
