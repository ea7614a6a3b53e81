import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { sagittalFilm } from '../landmarks/limb-film.ts';
import type { Mark } from '../landmarks/mark.ts';
import { CONDYLES_APART, CONDYLES_APART_MM } from '../limb/condyles-apart.ts';
import { measureOne } from '../limb/measure-one.ts';
import { Z95 } from '../measure/quantity.ts';
import { calibrateFilms } from './calibrate-films.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import type { CaseFinding } from './check-case.ts';

/**
 * Present films that were taken too rotated to be measured well (FILM-9): a lateral film with its posterior condyles more than 7 mm apart, and an AP film on
 * which the femoral component appears more than 6 % too wide for its tray, both widths taken from the record. Shown beside what is measured, not
 * held: the person decides whether to take the film again.
 */
export const turnedFindings = (file: CaseFile): CaseFinding[] =>
  file.films.flatMap((film, i) => {
    if (film.role !== 'present') return [];
    return film.view === 'lateral' ? turnedLateral(file, film, i) : turnedAp(file, film, i);
  });

function turnedLateral(file: CaseFile, film: CaseFilm, i: number): CaseFinding[] {
  if (!file.marks.some((m) => m.film === film.id && m.landmark === 'posterior-condyle-other')) return [];
  const calibration = calibrateFilms({ ...file, films: [film] })[0]?.calibration;
  const side = film.side === 'both' ? file.side : film.side;
  const seen = sagittalFilm({ film, side, marks: file.marks, calibration });
  if (!seen.ok || !calibration) return [];
  const evidence: KneeEvidence = {
    side,
    state: 'replaced',
    films: [film],
    marks: file.marks,
    calibrations: new Map([[film.id, calibration]]),
  };
  const m = measureOne(CONDYLES_APART, { evidence, films: [seen.value], unreadable: new Map() });
  if (m.value === null || m.value <= CONDYLES_APART_MM) return [];
  return [
    {
      code: 'film-too-rotated',
      message: `Lateral film ${film.id}: the posterior condyles lie ${m.value.toFixed(1)} ± ${(Z95 * (m.sd ?? 0)).toFixed(1)} mm apart, more than ${CONDYLES_APART_MM}. Slope, flexion and offsets on it are not to be trusted.`,
      file: film.file,
      field: `films[${i}]`,
      mend: 'Take the lateral film again with the condyles one behind the other.',
      remedy: 'shown',
      film: i,
    },
  ];
}

/** The femoral component seems this much wider against its tray when turned by about 10 degrees (phantoms; depends on the design). */
const WIDER_WHEN_TURNED = 1.06;
const WIDER_A_DEGREE = 0.006;

function turnedAp(file: CaseFile, film: CaseFilm, i: number): CaseFinding[] {
  const { femurWidthMm, trayWidthMm } = file.implants ?? {};
  if (!femurWidthMm || !trayWidthMm || (film.view !== 'ap' && film.view !== 'long-leg')) return [];
  const marks = file.marks.filter((m) => m.film === film.id && m.side === file.side);
  const femur = widthPx(marks, 'femoral-component-medial-edge', 'femoral-component-lateral-edge');
  const tray = widthPx(marks, 'tray-medial-edge', 'tray-lateral-edge');
  if (femur === null || tray === null) return [];
  const wider = femur / tray / (femurWidthMm / trayWidthMm);
  if (!(wider > WIDER_WHEN_TURNED)) return [];
  return [
    {
      code: 'film-too-rotated',
      message: `Film ${film.id}: the femoral component appears ${(100 * (wider - 1)).toFixed(0)} % too wide for its tray. The limb is turned by about ${Math.round((wider - 1) / WIDER_A_DEGREE)} degrees, or one of the two widths on record is wrong.`,
      file: film.file,
      field: `films[${i}]`,
      mend: 'Take the film again with the patella forward; or correct the width of the component or the tray.',
      remedy: 'shown',
      film: i,
    },
  ];
}

function widthPx(marks: readonly Mark[], medial: LandmarkId, lateral: LandmarkId): number | null {
  const [a, b] = [medial, lateral].map((id) => marks.find((m) => m.landmark === id)?.points[0]);
  if (!a || !b) return null;
  const px = Math.hypot(a.x - b.x, a.y - b.y);
  return Number.isFinite(px) && px > 0 ? px : null;
}
