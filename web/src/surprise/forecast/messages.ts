import type { SurpriseAnswer, SurpriseInput, SurpriseProgress } from '@gapline/core/plan/surprise.ts';

/** What the page tells the worker. A new start takes the place of the run before it. */
export type ToWorker =
  | { readonly kind: 'start'; readonly run: number; readonly input: SurpriseInput }
  | { readonly kind: 'stop' };

/** What the worker tells the page, always with the run that it belongs to. */
export type FromWorker = { readonly run: number } & (
  | { readonly kind: 'progress'; readonly progress: SurpriseProgress }
  | { readonly kind: 'done'; readonly answer: SurpriseAnswer; readonly tookMs: number }
  | { readonly kind: 'failed'; readonly message: string }
);
