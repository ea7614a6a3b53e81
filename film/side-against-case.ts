import type { Side } from '@gapline/core/landmarks/side.ts';
import type { View } from '@gapline/core/landmarks/view.ts';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { LateralityFacts, StatedSide } from './side.ts';

export interface SideAgainstCaseOptions {
  readonly view: View;
  /** A person has looked at the marker on the film and confirmed the side. */
  readonly confirmed?: boolean;
}

/**
 * Whether a film may be measured for a case of this side (SIDE-3, SIDE-4): `ok` when the file states the
 * case's side, when a long-leg film shows both, or when a person confirmed it; otherwise the film is
 * held, and the reason says what to do. Source: common practice (the side is checked twice).
 */
export function sideAgainstCase(
  stated: StatedSide,
  caseSide: Side,
  options: SideAgainstCaseOptions,
): Outcome<Side | 'both'> {
  const shown = stated.kind === 'agree' ? stated.side : undefined;
  const both = shown === 'both' && options.view === 'long-leg';
  if (options.confirmed) return ok(both ? 'both' : caseSide);
  if (both) return ok('both');
  if (shown === caseSide) return ok(caseSide);
  return cannot({
    code: 'side-held',
    message: `${said(stated)} The case is a ${caseSide} knee. The film is held until its side is confirmed.`,
    field: 'side',
    mend: `Read the marker on the film. If it shows the ${caseSide} knee, confirm the side; if not, take the film out of this case.`,
  });
}

/** The same rule for a film as a case stores it; a side confirmed by a person is in its record. */
export const caseFilmSide = (film: Pick<CaseFilm, 'side' | 'view' | 'sideConfirmed'>, caseSide: Side) =>
  sideAgainstCase({ kind: 'agree', side: film.side, evidence: [] }, caseSide, {
    view: film.view,
    confirmed: film.sideConfirmed !== undefined,
  });

function said(stated: StatedSide): string {
  if (stated.kind === 'agree') return `The file says ${stated.side === 'both' ? 'both sides' : `${stated.side} side`}.`;
  if (stated.kind === 'disagree') return `The file contradicts itself about the side: ${list(stated.evidence)}.`;
  return stated.evidence.length > 0 ? `The file names no side: ${list(stated.evidence)}.` : 'The file names no side.';
}

const list = (evidence: LateralityFacts) => evidence.map((e) => `${e.place} "${e.written}"`).join(', ');
