import { hasMillimetres } from '../calibration/calibration.ts';
import type { LandmarkId } from '../landmarks/landmark-table.ts';
import { calibrateFilms } from './calibrate-films.ts';
import type { CaseFile, CaseFilm } from './case.ts';
import type { CaseFinding } from './check-case.ts';

/** Two scales of one film further apart than this do not agree (SCALE-20). */
const AGREE_WITHIN = 0.03;

/** A ball one centimetre off the bone costs about this much of the scale (geometry of the beam at 115 cm). */
const SHARE_A_CM = 0.01;

const WIDTHS: readonly {
  readonly words: string;
  readonly field: 'trayWidthMm' | 'femurWidthMm';
  readonly edges: readonly [LandmarkId, LandmarkId];
}[] = [
  { words: 'tray', field: 'trayWidthMm', edges: ['tray-medial-edge', 'tray-lateral-edge'] },
  {
    words: 'femoral component',
    field: 'femurWidthMm',
    edges: ['femoral-component-medial-edge', 'femoral-component-lateral-edge'],
  },
];

/**
 * A ball that did not lie at the depth of the bone (FILM-10): on a present AP film that takes its scale from a ball, the known width of the implant in place
 * differs from the width measured by more than 3 %. A ball in front of the bone, nearer the source, is enlarged more, so that the implant measures
 * too small; behind it too large. Shown, with the implant's own scale as the mend. The tray is asked first: a turned film makes it
 * narrower by little and the femoral component wider by much.
 */
export function ballFindings(file: CaseFile): CaseFinding[] {
  return file.films.flatMap((film, i) => {
    const ap = film.view === 'ap' || film.view === 'long-leg';
    if (!ap || film.role !== 'present' || film.scale?.kind !== 'ball') return [];
    const calibration = calibrateFilms({ ...file, films: [film] })[0]?.calibration;
    if (!calibration || !hasMillimetres(calibration) || calibration.source !== 'marker') return [];
    const one = WIDTHS.map((w) => against(file, film, { ...w, mmPerPx: calibration.mmPerPx })).find((w) => w !== null);
    return one && Math.abs(one.ratio - 1) > AGREE_WITHIN ? [offDepth(film, i, one)] : [];
  });
}

interface Against {
  readonly words: string;
  readonly knownMm: number;
  readonly measuredMm: number;
  readonly ratio: number;
}

function against(
  file: CaseFile,
  film: CaseFilm,
  { words, field, edges, mmPerPx }: (typeof WIDTHS)[number] & { readonly mmPerPx: { x: number; y: number } },
): Against | null {
  const knownMm = file.implants?.[field];
  const [a, b] = edges.map(
    (id) => file.marks.find((m) => m.film === film.id && m.side === file.side && m.landmark === id)?.points[0],
  );
  if (!knownMm || !a || !b) return null;
  const measuredMm = Math.hypot((a.x - b.x) * mmPerPx.x, (a.y - b.y) * mmPerPx.y);
  return Number.isFinite(measuredMm) && measuredMm > 0
    ? { words, knownMm, measuredMm, ratio: measuredMm / knownMm }
    : null;
}

function offDepth(film: CaseFilm, i: number, { words, knownMm, measuredMm, ratio }: Against): CaseFinding {
  const cm = Math.round(Math.abs(ratio - 1) / SHARE_A_CM);
  const where = ratio < 1 ? 'in front of' : 'behind';
  return {
    code: 'ball-off-depth',
    message: `By the ball the ${words} measures ${measuredMm.toFixed(1)} mm on film ${film.id}; on record it is ${knownMm} mm. The ball lay about ${cm} cm ${where} the bone, or the record is wrong: lengths on this film err by ${(100 * Math.abs(ratio - 1)).toFixed(1)} %.`,
    file: film.file,
    field: `films[${i}].scale`,
    mend: `Take the scale of this film from the ${words}.`,
    remedy: 'shown',
    film: i,
  };
}
