import type { MeasuredEvidence } from '../failure/evidence-from-measurements.ts';
import { type Change, readMigration, TILT_LIMIT_DEG } from '../failure/migration.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { measureKnee } from '../limb/measure-knee.ts';
import { Z95 } from '../measure/quantity.ts';
import { calibrateFilms } from './calibrate-films.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import { checkCase, soundPart } from './check-case.ts';
import { withMeasuredSpread } from './measured-spread.ts';

interface Tilt {
  readonly component: string;
  readonly change: Change;
  readonly film: string;
  readonly days: string;
}

/**
 * Components that tilted between the first film after the replacement and the present one (CAUSE-4): the coronal angle of
 * each, measured on both by the same rule, spread of the change from both. Only a movement beyond doubt gives evidence:
 * broken cement is not seen here, so nothing is ever cleared. Subsidence along the bone is entered by hand.
 */
export function movedComponents(whole: CaseFile): readonly MeasuredEvidence[] {
  if (!whole.films.some((f) => f.role === 'after-first-replacement')) return [];
  const file = withMeasuredSpread(soundPart(whole, checkCase(whole)));
  const moved = [
    ...tiltOf(file, 'tray-coronal', 'Tray'),
    ...tiltOf(file, 'femoral-component-coronal', 'Femoral component'),
  ];
  return moved
    .filter((t) => readMigration(t.change, TILT_LIMIT_DEG) === 'moved')
    .slice(0, 1)
    .map((t) => ({
      id: 'subsidence-tilt-or-cement-fracture',
      looked: 'present',
      because: `${t.component} tilted by ${Math.abs(t.change.value).toFixed(1)} +/- ${(Z95 * t.change.sd).toFixed(1)} deg ${t.days}; limit ${TILT_LIMIT_DEG} deg.`,
      film: t.film,
    }));
}

function tiltOf(file: CaseFile, id: string, component: string): readonly Tilt[] {
  const before = angleOn(file, id, earliestAfter(file));
  const now = angleOn(
    file,
    id,
    file.films.filter((f) => f.role === 'present'),
  );
  if (!before || !now) return [];
  return [
    {
      component,
      change: { value: now.value - before.value, sd: Math.hypot(now.sd, before.sd) },
      film: now.film,
      days: `between ${dayOf(file, before.film)} and ${dayOf(file, now.film)}`,
    },
  ];
}

const earliestAfter = (file: CaseFile): readonly CaseFilm[] => {
  const after = file.films.filter((f) => f.role === 'after-first-replacement');
  const first = after.map((f) => f.takenOn ?? '9999').toSorted()[0];
  return after.filter((f) => (f.takenOn ?? '9999') === first);
};

const dayOf = (file: CaseFile, id: string): string => file.films.find((f) => f.id === id)?.takenOn ?? 'an undated film';

/** The angle as measured on these films alone, read as if they were the present ones. */
function angleOn(file: CaseFile, id: string, films: readonly CaseFilm[]) {
  const evidence: KneeEvidence = {
    side: file.side,
    state: 'replaced',
    films: films.map((f) => ({ ...f, role: 'present' as const })),
    marks: file.marks,
    calibrations: new Map(calibrateFilms({ ...file, films }).map((c) => [c.film.id, c.calibration])),
  };
  const m = measureKnee(evidence).find((line) => line.id === id);
  return m && m.value !== null && m.film !== null ? { value: m.value, sd: m.sd ?? 0, film: m.film } : null;
}
