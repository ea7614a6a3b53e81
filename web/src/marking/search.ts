import type { Reason } from '@gapline/core/measure/outcome.ts';
import type { CanalTrace } from '@gapline/core/stems/canal-trace.ts';
import type { BallProposal, BallSearch } from '@gapline/film/proposals/find-balls.ts';
import type { ComponentSearch, ComponentsProposal } from '@gapline/film/proposals/find-components.ts';
import type { HeadProposal, HeadSearch } from '@gapline/film/proposals/fit-head.ts';
import type { CanalProposal, CanalSearch } from '@gapline/film/proposals/trace-canal.ts';

/** One thing that is looked for on a film; what only the page knows of it stays with the page. */
export type Ask =
  | { readonly is: 'ball'; readonly search: BallSearch }
  | { readonly is: 'head'; readonly search: HeadSearch }
  | { readonly is: 'components'; readonly search: ComponentSearch }
  | { readonly is: 'canal'; readonly bone: CanalTrace['bone']; readonly search: CanalSearch };

export type Found =
  | { readonly is: 'ball'; readonly found: readonly BallProposal[] }
  | { readonly is: 'head'; readonly found: HeadProposal }
  | { readonly is: 'components'; readonly found: ComponentsProposal }
  | { readonly is: 'canal'; readonly bone: CanalTrace['bone']; readonly found: CanalProposal };

/** What the page sends to the worker: the film as the viewer holds it, and what is wanted, in order. */
export interface SearchRequest {
  readonly pixels: Uint16Array<ArrayBuffer>;
  readonly rows: number;
  readonly columns: number;
  readonly asks: readonly Ask[];
}

/** One answer for each ask, as soon as it is there, in their order. */
export type SearchAnswer =
  | { readonly ok: true; readonly found: Found }
  | { readonly ok: false; readonly ask: Ask['is']; readonly reason: Reason };
