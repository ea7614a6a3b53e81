import type { DefectFacts, FactName, Truth } from './defect-facts.ts';
import { EXPERT_CONFLICTS, type ExpertConflict } from './expert-conflicts.ts';
import { REPORTED, type Reported, TREATMENTS, type TreatmentId } from './options.ts';
import { type Effect, TREATMENT_RULES, type TreatmentRule } from './treatment-rules.ts';
import { isUnknown, mightBe } from './unknown-facts.ts';

export type Verdict = 'offered' | 'depends' | 'advised-against' | 'refused' | 'not-for-this-defect';

/** A rule that holds, or may hold, for this defect. */
export interface RuleThatFired {
  readonly rule: string;
  readonly effect: Effect;
  readonly text: string;
  readonly source: string;
  readonly grade: TreatmentRule['grade'];
}

/** A fact that is not known and could change the verdict. */
export interface MissingFact {
  readonly fact: FactName;
  readonly wouldChange: string;
}

/** One way to treat the defect, with why. Every rule may be overruled by the surgeon; none is a device instruction. */
export interface TreatmentOption {
  readonly id: TreatmentId;
  readonly label: string;
  readonly note: string;
  readonly verdict: Verdict;
  /** Rules that hold, in the order of docs/rules/treatment.md. */
  readonly why: readonly RuleThatFired[];
  readonly missing: readonly MissingFact[];
  readonly reported: readonly Reported[];
  readonly conflicts: readonly ExpertConflict[];
}

/**
 * Ways to treat the bone loss of one bone (TRE-1 to TRE-19), from the least to the most: offered, advised against or refused by
 * which rule, or depending on what is not known; with published figures and what experts disagree about.
 *
 * `boneClass` is the surgeon's; depth mm beyond the resection plane, the deepest of both sides; share % of one side; age years.
 * A refusal goes before advice against, that before an offer. A fact that is not known never counts as no: a rule that hangs on
 * it leaves the verdict at `depends`, or as it stands with the fact named under `missing`.
 * Sources stand with each rule; grades as there. Every threshold is a published or planning default for the surgeon to overrule.
 *
 * Example: type 2A, 12 mm deep, 60 % unsupported: block augment offered, cement advised against; 22 mm: the block is refused.
 */
export function treatmentOptions(facts: DefectFacts): readonly TreatmentOption[] {
  return TREATMENTS.map(({ id, label, note }) => ({
    id,
    label,
    note,
    verdict: verdictOf(id, facts),
    why: rulesFor(id).flatMap(({ id: rule, acts, text, source, grade }) =>
      acts
        .filter(({ when }) => when.holds(facts) === 'yes')
        .map(({ effect }) => ({ rule, effect, text, source, grade })),
    ),
    missing: missingFor(id, facts),
    reported: REPORTED.filter((r) => r.treatment === id),
    conflicts: EXPERT_CONFLICTS.filter((c) => c.bearsOn.includes(id)),
  }));
}

const rulesFor = (id: TreatmentId) => TREATMENT_RULES.filter((rule) => rule.treatments.includes(id));
const actsFor = (id: TreatmentId) => rulesFor(id).flatMap((rule) => rule.acts);

function verdictOf(id: TreatmentId, facts: DefectFacts): Verdict {
  const acts = actsFor(id);
  const some = (effect: Effect, truth: Truth) => acts.some((a) => a.effect === effect && a.when.holds(facts) === truth);
  if (some('refuse', 'yes')) return 'refused';
  if (some('advise-against', 'yes')) return 'advised-against';
  if (some('offer', 'yes')) return 'offered';
  return some('offer', 'unknown') ? 'depends' : 'not-for-this-defect';
}

/** Facts not known that move the verdict by themselves, each with its first value that does; else those it waits for together. */
function missingFor(id: TreatmentId, facts: DefectFacts): readonly MissingFact[] {
  const verdict = verdictOf(id, facts);
  const asked = [...new Set(actsFor(id).flatMap((a) => (a.effect === 'note' ? [] : a.when.asks)))];
  return asked
    .filter((fact) => isUnknown(facts, fact))
    .flatMap((fact): readonly MissingFact[] => {
      const moves = new Map<Verdict, string>();
      for (const { put, words } of mightBe(fact)) {
        const then = verdictOf(id, put(facts));
        if (then !== verdict && then !== 'depends' && !moves.has(then)) moves.set(then, words);
      }
      if (moves.size > 0) {
        const told = [...moves].map(([then, words]) => `${VERDICT_WORDS[then]} ${words}`);
        return [{ fact, wouldChange: told.join('; ') }];
      }
      return verdict === 'depends' ? [{ fact, wouldChange: 'the verdict, together with other missing facts' }] : [];
    });
}

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  offered: 'offered',
  depends: 'depends on what is not known',
  'advised-against': 'advised against',
  refused: 'refused',
  'not-for-this-defect': 'not for this defect',
};
