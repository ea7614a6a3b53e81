import { changeOf } from '../compare/change-of.ts';
import type { DatedEvidence } from '../compare/dated-evidence.ts';
import type { MeasuredEvidence } from '../failure/evidence-from-measurements.ts';
import { type Change, readMigration, SUBSIDENCE_LIMIT_MM, TILT_LIMIT_DEG } from '../failure/migration.ts';
import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { measureKnee } from '../limb/measure-knee.ts';
import { Z95 } from '../measure/quantity.ts';
import { calibrateFilms } from './calibrate-films.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import { checkCase, soundPart } from './check-case.ts';

interface Movement {
  readonly words: string;
  readonly unit: 'mm' | 'deg';
  readonly limit: number;
  readonly change: Change;
  readonly film: string;
  readonly days: string;
}

const LOOKED_AT = [
  { id: 'tray-coronal', words: 'Tray tilted', unit: 'deg', limit: TILT_LIMIT_DEG },
  { id: 'femoral-component-coronal', words: 'Femoral component tilted', unit: 'deg', limit: TILT_LIMIT_DEG },
  { id: 'tray-height', words: 'Tray moved along the tibia', unit: 'mm', limit: SUBSIDENCE_LIMIT_MM },
  {
    id: 'femoral-component-height',
    words: 'Femoral component moved along the femur',
    unit: 'mm',
    limit: SUBSIDENCE_LIMIT_MM,
  },
] as const;

/**
 * Components that tilted or moved along their bone between the first film after the replacement and the present one (CAUSE-4): each measured on both
 * by the same rule, spread of the change as in any comparison of two dates (CMP-2 to CMP-4). Only a movement beyond doubt gives evidence:
 * broken cement is not seen here, so nothing is ever cleared.
 */
export function movedComponents(whole: CaseFile): readonly MeasuredEvidence[] {
  if (!whole.films.some((f) => f.role === 'after-first-replacement')) return [];
  const file = soundPart(whole, checkCase(whole));
  const before = datedOf(file, earliestAfter(file));
  const now = datedOf(
    file,
    file.films.filter((f) => f.role === 'present'),
  );
  return LOOKED_AT.flatMap((look) => movementOf(file, look, [before, now]))
    .filter((m) => readMigration(m.change, m.limit) === 'moved')
    .slice(0, 1)
    .map((m) => ({
      id: 'subsidence-tilt-or-cement-fracture',
      looked: 'present',
      because: `${m.words} by ${Math.abs(m.change.value).toFixed(1)} +/- ${(Z95 * m.change.sd).toFixed(1)} ${m.unit} ${m.days}; limit ${m.limit} ${m.unit}.`,
      film: m.film,
    }));
}

function movementOf(
  file: CaseFile,
  { id, words, unit, limit }: (typeof LOOKED_AT)[number],
  [before, now]: readonly [DatedEvidence, DatedEvidence],
): readonly Movement[] {
  const [a, b] = [before, now].map(({ evidence }) =>
    measureKnee(evidence, { keepsCauses: true }).find((m) => m.id === id),
  );
  const change = a && b && a.variant === b.variant ? changeOf(a, b, [before, now]) : null;
  if (!change || a?.film == null || b?.film == null) return [];
  const days = `between ${dayOf(file, a.film)} and ${dayOf(file, b.film)}`;
  return [{ words, unit, limit, change, film: b.film, days }];
}

const earliestAfter = (file: CaseFile): readonly CaseFilm[] => {
  const after = file.films.filter((f) => f.role === 'after-first-replacement');
  const first = after.map((f) => f.takenOn ?? '9999').toSorted()[0];
  return after.filter((f) => (f.takenOn ?? '9999') === first);
};

const dayOf = (file: CaseFile, id: string): string => file.films.find((f) => f.id === id)?.takenOn ?? 'an undated film';

/** The knee as these films alone show it, read as if they were the present ones. */
function datedOf(file: CaseFile, films: readonly CaseFilm[]): DatedEvidence {
  const evidence: KneeEvidence = {
    side: file.side,
    state: 'replaced',
    films: films.map((f) => ({ ...f, role: 'present' as const })),
    marks: file.marks,
    calibrations: new Map(calibrateFilms({ ...file, films }).map((c) => [c.film.id, c.calibration])),
  };
  return { date: films[0]?.takenOn ?? '', evidence };
}
