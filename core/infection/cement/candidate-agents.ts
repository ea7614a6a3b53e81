import { CEMENT_AGENTS, type CementAgent } from './agents.ts';

/** One line of an antibiogram: an organism against a drug, as reported by microbiology. */
export interface Sensitivity {
  readonly id: string;
  readonly organism: string;
  /** Id of `CEMENT_AGENTS`. */
  readonly agent: string;
  readonly result: 'sensitive' | 'intermediate' | 'resistant';
}

export interface CandidateAgent {
  readonly agent: CementAgent;
  /** `candidate`: sensitive for every organism named. `against`: resistant for one at least. `open`: not all are tested, or one is intermediate. */
  readonly standing: 'candidate' | 'against' | 'open';
  readonly resistant: readonly string[];
  readonly notTested: readonly string[];
}

const plain = (name: string): string => name.trim().toLowerCase().replace(/\s+/g, ' ');

/**
 * CEM-5: which drugs reported in cement the organisms found are sensitive to. Every organism named must be sensitive for a
 * drug to be a candidate; one resistant speaks against it; untested is never sensitive. Two results for one pair that differ
 * count as the less favourable. Candidates only: local microbiology and pharmacy decide (common practice, no source).
 * Names agree whatever their capitals and spaces. Order: candidates, open, against; then the table's order.
 */
export function candidateAgents(
  organisms: readonly string[],
  sensitivities: readonly Sensitivity[],
): readonly CandidateAgent[] {
  const named = [...new Map(organisms.filter((o) => o.trim() !== '').map((o) => [plain(o), o.trim()]))];
  const read = CEMENT_AGENTS.map((agent): CandidateAgent => {
    const resultsOf = (organism: string) =>
      sensitivities.filter((s) => s.agent === agent.id && plain(s.organism) === organism).map((s) => s.result);
    const resistant = named.filter(([key]) => resultsOf(key).includes('resistant')).map(([, name]) => name);
    const notTested = named.filter(([key]) => resultsOf(key).length === 0).map(([, name]) => name);
    const sensitive =
      named.length > 0 &&
      named.every(([key]) => resultsOf(key).length > 0 && resultsOf(key).every((r) => r === 'sensitive'));
    return {
      agent,
      standing: resistant.length > 0 ? 'against' : sensitive ? 'candidate' : 'open',
      resistant,
      notTested,
    };
  });
  const order = ['candidate', 'open', 'against'];
  return read.toSorted((a, b) => order.indexOf(a.standing) - order.indexOf(b.standing));
}
