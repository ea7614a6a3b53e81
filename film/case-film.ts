import { scaleConsistency } from '@gapline/core/calibration/scale-consistency.ts';
import { type Ok, ok, type Warning } from '@gapline/core/measure/outcome.ts';
import type { CaseFilm } from '@gapline/core/plan/case.ts';
import type { Film } from './film.ts';
import { statedSide } from './side.ts';

export interface CaseFilmOptions {
  readonly id: string;
  /** File name in the case folder. */
  readonly file: string;
  readonly sha256?: string;
  readonly role?: CaseFilm['role'];
}

/**
 * A film as a case stores it: view, side, day, direction of columns and what the file says about scale.
 * A film that names no side, or contradicts itself, is entered as `both`, which holds it against any
 * case until a person confirms (SIDE-3). Warnings: side, view and contradictions of scale.
 */
export function toCaseFilm(film: Film, options: CaseFilmOptions): Ok<CaseFilm> {
  const stated = statedSide(film.laterality);
  const warnings: Warning[] = [...scaleConsistency(film.scaleFacts)];
  if (stated.kind !== 'agree') {
    warnings.push({
      code: stated.kind === 'disagree' ? 'side-contradicted' : 'side-not-stated',
      message:
        stated.kind === 'disagree'
          ? `${options.file} contradicts itself about the side.`
          : `${options.file} does not say which side it shows.`,
      field: 'side',
      mend: 'Read the marker on the film and confirm the side.',
    });
  }
  if (film.view === 'other') {
    warnings.push({
      code: 'view-not-stated',
      message: `${options.file} does not say which view it is.`,
      field: 'view',
      mend: 'Choose the view.',
    });
  }
  return ok(
    {
      id: options.id,
      file: options.file,
      ...(options.sha256 === undefined ? {} : { sha256: options.sha256 }),
      view: film.view,
      side: stated.kind === 'agree' ? stated.side : 'both',
      ...(film.takenOn === undefined ? {} : { takenOn: film.takenOn }),
      role: options.role ?? 'present',
      ...(film.columnsTowards === undefined ? {} : { columnsTowards: film.columnsTowards }),
      scaleFacts: film.scaleFacts,
    },
    warnings,
  );
}
