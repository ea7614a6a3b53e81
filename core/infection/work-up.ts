import { type Assessment, assessAll } from './assess.ts';
import { type Caution, cautions } from './cautions.ts';
import { SHOWN_FIRST } from './definitions/definitions.ts';
import type { InfectionFindings } from './findings.ts';
import { type Observed, observe } from './observe.ts';

/** How infection stands, in the words that a gate needs. */
export type InfectionVerdict = 'excluded' | 'confirmed' | 'likely' | 'not-classifiable' | 'not-assessed';

export interface WorkUp {
  readonly observed: Observed;
  readonly assessments: readonly Assessment[];
  readonly cautions: readonly Caution[];
  readonly standing: InfectionVerdict;
}

/** The record read, every definition applied, the cautions beside. `today` is YYYY-MM-DD; no clock is read here. */
export function workUp(findings: InfectionFindings, today: string): WorkUp {
  const observed = observe(findings, today);
  const assessments = assessAll(observed.known);
  return {
    observed,
    assessments,
    cautions: cautions(findings, { decisionOn: findings.decisionOn ?? today, lab: observed.lab }),
    standing: standing(assessments, findings),
  };
}

/**
 * INF-15: how infection stands by the definitions shown first. Confirmed when one of them says so within its range, or by a
 * major criterion at any time; likely when EBJIS says so: points that leave the 2018 definition open (a raised CRP alone
 * does) classify nothing yet. Excluded only when every one in range
 * excludes it and one at least is EBJIS "unlikely", which asks for an adequate work-up; with a spacer in place never
 * excluded. Common practice, no source.
 */
export function standing(assessments: readonly Assessment[], findings: InfectionFindings): InfectionVerdict {
  const shown = assessments.filter((a) => SHOWN_FIRST.includes(a.definition));
  const inRange = shown.filter((a) => a.range !== 'outside' || a.byMajor);
  if (inRange.some((a) => a.class.standing === 'confirmed')) return 'confirmed';
  const ebjis = shown.find((a) => a.definition === 'ebjis-2021');
  if (ebjis?.class.id === 'likely') return 'likely';
  if (shown.every((a) => a.class.standing === 'not-assessed')) return 'not-assessed';
  const excluded = inRange.every((a) => a.class.standing === 'excluded') && ebjis?.class.standing === 'excluded';
  return excluded && findings.context?.spacerInPlace !== 'yes' ? 'excluded' : 'not-classifiable';
}
