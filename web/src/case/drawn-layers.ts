import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import { calibrateFilms } from '@gapline/core/plan/calibrate-films.ts';
import type { CaseFile } from '@gapline/core/plan/case.ts';
import { checkCase, soundPart } from '@gapline/core/plan/check-case.ts';
import { drawConstruct } from '@gapline/core/plan/draw-plan.ts';
import { evidenceFor } from '@gapline/core/plan/make-plan.ts';
import type { DrawnLayer, FilmDrawing, Plan } from '@gapline/core/plan/plan.ts';
import type { DeskState } from './desk.tsx';

/** What a drawing is made from: one plan with its case and catalogue. */
export interface Drawn {
  readonly of: CaseFile;
  readonly plan: Plan;
  readonly catalogue: Catalogue | null;
}

/**
 * The drawings with another construct in place of the best: one that is drawn on trial, else one of the plan's own by
 * its number; 0 = the best, as the plan has it.
 */
export function drawingsWith(
  { of, plan, catalogue }: Drawn,
  { construct, onTrial }: Pick<DeskState, 'construct' | 'onTrial'>,
): readonly FilmDrawing[] {
  const next = plan.construct.kind === 'solved' ? plan.construct.answer.alternatives[construct - 1] : undefined;
  const other = onTrial ?? next;
  if (!other) return plan.drawings;
  const file = soundPart(of, checkCase(of));
  return drawConstruct({ file, evidence: evidenceFor(file, calibrateFilms(of)), plan, catalogue }, other);
}

/** The layers of one film that are switched on. */
export const layersOn = (
  drawings: readonly FilmDrawing[],
  film: string,
  on: DeskState['layers'],
): readonly DrawnLayer[] => (drawings.find((d) => d.film === film)?.layers ?? []).filter((layer) => on[layer.belongs]);
