import type { Cover } from './cover.ts';
import type { FoundRoom } from './local-search.ts';
import { type Proof, type Prove, proveRoom } from './prove.ts';

/** Part of the nodes that the proof is first tried with, in one go. */
const AT_ONCE = 1 / 16;
/** Parts of the best cost that are shown, one after the other, to be too little. */
const RUNGS = [0.3, 0.45, 0.6, 0.7, 0.8, 0.88, 0.95, 1];

/**
 * Proves the best room at once where that is easy; else shows rung by rung that no room costs less than a growing part of
 * its cost. A low rung is quickly shown, so that a proof that is cut short leaves a small gap, not the gap at the top of
 * one long search. Yields now and then; every yield holds a least cost that is true.
 */
export function* proveInSteps(cover: Cover, { need, best, nodes }: Prove): Generator<Proof, Proof> {
  const first = proveRoom(cover, { need, best, nodes: Math.ceil(nodes * AT_ONCE) });
  let proof = yield* toldWith(first, { visited: 0, least: 0, known: best });
  for (const rung of RUNGS) {
    if (proof.proven || proof.nodes >= nodes) return proof;
    const { best: known, leastCost: least, nodes: visited } = proof;
    if (rung < 1 && rung * known.cost <= least) continue;
    // Dearer rooms than the rung are not looked for; a cheaper one that is met is a better room.
    const bar: FoundRoom =
      rung === 1 ? known : { ...known, cost: rung * known.cost, covered: Number.POSITIVE_INFINITY };
    const steps = proveRoom(cover, { need, best: bar, nodes: nodes - visited });
    proof = yield* toldWith(steps, { visited, least, known, bar });
  }
  return proof;
}

/** Passes a proof on: the bar itself is no room, and what was shown before stays shown. */
function* toldWith(
  steps: Generator<Proof, Proof>,
  before: { readonly visited: number; readonly least: number; readonly known: FoundRoom; readonly bar?: FoundRoom },
): Generator<Proof, Proof> {
  const { visited, least, known, bar } = before;
  for (;;) {
    const step = steps.next();
    const met = step.value.best === bar ? known : step.value.best;
    const leastCost = Math.min(met.cost, Math.max(least, step.value.leastCost));
    const proven = step.value.proven && (met !== known || bar === undefined || bar === known);
    const told = { best: met, leastCost, proven, nodes: visited + step.value.nodes };
    if (step.done) return told;
    yield told;
  }
}
