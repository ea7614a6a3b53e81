import type { SolvedConstruct, SolverResult } from '../construct.ts';
import { asked, DEFAULT_SETTINGS, type SolverQuestion, solve } from '../solve.ts';
import { Search } from '../solver/search.ts';
import { Tables } from '../solver/tables.ts';
import { pinInWords, pinOfConstruct } from './pin-of-construct.ts';
import { PINS, type Pinned, type PinnedCost, type PinnedTerm, pinsIn, released } from './pinned.ts';
import { whyPinned } from './why-pinned.ts';

/** A question in which something is fixed by hand. */
export interface PinnedQuestion extends SolverQuestion {
  readonly pinned: Pinned;
  /** Where the free question is another one, such as with a slope that was asked for; absent = the same without pins. */
  readonly free?: Omit<SolverQuestion, 'pinned'>;
}

/** Rounding is no saving. */
const NOTHING = 1e-9;

/**
 * The construct of least cost that keeps what is fixed by hand, exactly (GAP-40), held against the free optimum (GAP-41):
 * what it costs more, by term, and what each pin alone would save if it were released. Where the pins leave no construct,
 * which of them stand in the way and the nearest value that would go (GAP-42).
 *
 * Frames, units and order among equals as `solve`. With nothing fixed it is `solve` itself.
 */
export function solvePinned(question: PinnedQuestion): SolverResult {
  const { pinned, settings = DEFAULT_SETTINGS } = question;
  const { pinned: _, free: own, ...same } = question;
  const free = { ...(own ?? same), settings };
  if (pinsIn(pinned).length === 0) return solve(free);
  const kept = { ...same, settings, pinned };
  const found = leastCost(kept) === null ? null : solve(kept);
  const best = solve({ ...free, settings: { ...settings, alternatives: 0 } });
  if (best.kind === 'infeasible') return best;
  if (found?.kind !== 'solved') return { kind: 'infeasible', why: whyPinned(kept) };
  const cost = costOf(kept, { best: found.answer.best, free: best.answer.best });
  return { kind: 'solved', answer: { ...found.answer, pinned: cost } };
}

function costOf(
  question: SolverQuestion & { readonly pinned: Pinned },
  { best, free }: { readonly best: SolvedConstruct; readonly free: SolvedConstruct },
): PinnedCost {
  const { pinned, catalogue } = question;
  const ids = pinsIn(pinned);
  return {
    lines: ids.map((id) => {
      // With one thing fixed, the free optimum is what is left without it.
      const without = ids.length === 1 ? free.cost : leastCost({ ...question, pinned: released(pinned, id) });
      const saved = without === null ? 0 : best.cost - without;
      return {
        id,
        label: PINS.find((p) => p.id === id)?.label ?? id,
        fixed: pinInWords(id, pinned, catalogue),
        free: pinInWords(id, pinOfConstruct(id, free.construct, catalogue), catalogue),
        saves: saved > NOTHING ? saved : 0,
      };
    }),
    free,
    more: Math.max(0, best.cost - free.cost),
    terms: termsOf(best, free),
  };
}

/** The terms that cost another amount than in the free optimum, the greatest difference first. */
function termsOf(best: SolvedConstruct, free: SolvedConstruct): PinnedTerm[] {
  const ids = [...new Set([...best.ledger, ...free.ledger].map((line) => line.id))];
  const line = (of: SolvedConstruct, id: string) => of.ledger.find((l) => l.id === id);
  const off = (t: PinnedTerm): number => Math.abs(t.cost - t.freeCost);
  return ids
    .map((id): PinnedTerm => {
      const [now, then] = [line(best, id), line(free, id)];
      return { id, label: (now ?? then)?.label ?? id, cost: now?.cost ?? 0, freeCost: then?.cost ?? 0 };
    })
    .filter((t) => off(t) > NOTHING)
    .sort((a, b) => off(b) - off(a) || (a.id < b.id ? -1 : 1));
}

/** The least cost alone; null where no construct keeps the limits. */
export function leastCost(question: SolverQuestion): number | null {
  return new Search(new Tables(asked(question))).run()?.cost ?? null;
}
