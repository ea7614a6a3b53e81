import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { FilmsOfLimb } from '../limb/measure-one.ts';
import type { Reason, Warning } from '../measure/outcome.ts';
import type { CalibratedFilm } from './calibrate-films.ts';
import type { CaseFile } from './case.ts';
import type { CaseFinding } from './check-case.ts';
import type { Plan, PlanFilm } from './plan.ts';

/** Every film of the case with its scale and its cautions, held ones too. */
export const filmsOf = (
  file: CaseFile,
  calibrated: readonly CalibratedFilm[],
  findings: readonly CaseFinding[],
): readonly PlanFilm[] =>
  calibrated.map(({ film, calibration, warnings }, i) => ({
    id: film.id,
    file: film.file,
    view: film.view,
    side: film.side,
    ...(film.takenOn === undefined ? {} : { takenOn: film.takenOn }),
    calibration,
    warnings: [...findings.filter((f) => f.film === i && file.films[i] === film).map(asWarning), ...warnings],
  }));

interface Contradicting {
  readonly file: CaseFile;
  readonly findings: readonly CaseFinding[];
  readonly films: FilmsOfLimb;
  readonly jointLine: Plan['jointLine'];
  /** Contradictions of the bone stock. */
  readonly bone: readonly Warning[];
}

/** What contradicts itself in a case: findings of the checks, marks that cannot be used, landmarks that disagree, the bone stock. Each once. */
export function conflictsOf({ findings, films, jointLine, bone }: Contradicting): readonly Warning[] {
  const marks = [...films.coronal, ...films.sagittal].flatMap((film) => reasonsOf(film.faults));
  const lines = [jointLine.femoral, jointLine.tibial].flatMap((line) =>
    line.ok ? line.value.warnings.filter((w) => w.code === 'landmarks-disagree' || w.code === 'landmark-far-off') : [],
  );
  const all = [...findings.map(asWarning), ...marks, ...lines, ...bone];
  return all.filter((w, i) => all.findIndex((x) => x.code === w.code && x.message === w.message) === i);
}

const reasonsOf = (faults: ReadonlyMap<LandmarkId, Reason>): readonly Warning[] => [...faults.values()];

const asWarning = ({ code, message, file, field, mend }: CaseFinding): Warning => ({
  code,
  message,
  ...(file === undefined ? {} : { file }),
  ...(field === undefined ? {} : { field }),
  ...(mend === undefined ? {} : { mend }),
});
