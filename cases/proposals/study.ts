import { judgeBalls } from './judge-balls.ts';
import { judgeCanals } from './judge-canals.ts';
import { judgeComponents } from './judge-components.ts';
import { judgeEdges } from './judge-edges.ts';
import { judgeHeads } from './judge-heads.ts';
import type { Tallies } from './score.ts';
import type { VariedFilm } from './varied-films.ts';

/** Everything that can be proposed on one film, held against what is true of it. */
export function judgeFilm(one: VariedFilm, tallies: Tallies): void {
  judgeBalls(one, tallies);
  if (one.view === 'long-leg') judgeHeads(one, tallies);
  judgeEdges(one, tallies);
  judgeComponents(one, tallies);
  judgeCanals(one, tallies);
}
