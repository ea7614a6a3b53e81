import { calibrate } from '../calibration/calibrate.ts';
import type { Calibration } from '../calibration/calibration.ts';
import { pixelAspect } from '../calibration/pixel-aspect.ts';
import { plausibleScale } from '../calibration/plausible-scale.ts';
import type { ScaleByHand } from '../calibration/scale-by-hand.ts';
import { type LandmarkId, landmark } from '../landmarks/landmark-table.ts';
import type { Mark } from '../landmarks/mark.ts';
import type { Side } from '../landmarks/side.ts';
import { cannot, type Outcome, ok, type Reason, type Warning } from '../measure/outcome.ts';
import { fitCircle } from '../plane/circle.ts';
import { point } from '../plane/point.ts';
import type { CaseFile, CaseFilm } from './case.ts';

export interface CalibratedFilm {
  readonly film: CaseFilm;
  readonly calibration: Calibration;
  readonly warnings: readonly Warning[];
}

/**
 * The scale of each film of a case (PLAN-8): the choice of a person with the marks that it needs, else what the file allows.
 * A choice that cannot be carried out falls back to the file with a warning; a scale that would make the
 * knee impossibly wide or narrow gives no millimetres at all. Order: that of the films in the case.
 */
export function calibrateFilms(file: CaseFile): readonly CalibratedFilm[] {
  return file.films.map((film) => {
    const marks = file.marks.filter((m) => m.film === film.id);
    const { calibration, warnings } = calibrationOf(film, marks);
    const implausible = plausible(calibration, marks, film);
    const stated = [...warnings, ...implausible.warnings].map((w) => atFilm(w, film));
    return { film, calibration: implausible.calibration, warnings: stated };
  });
}

const atFilm = (reason: Reason, film: CaseFilm): Warning => ({
  ...reason,
  file: film.file,
  field: `films[${film.id}].${reason.field ?? 'scale'}`,
});

function calibrationOf(film: CaseFilm, marks: readonly Mark[]): { calibration: Calibration; warnings: Warning[] } {
  const longLeg = film.view === 'long-leg';
  const byHand = film.scale ? choiceOf(film, marks) : null;
  if (byHand?.ok) {
    const chosen = calibrate(film.scaleFacts, { byHand: byHand.value, longLeg });
    if (chosen.ok) return { calibration: chosen.value, warnings: [...chosen.warnings] };
    return fromFile(film, chosen.reason);
  }
  return fromFile(film, byHand ? byHand.reason : null);
}

function fromFile(film: CaseFilm, refused: Reason | null): { calibration: Calibration; warnings: Warning[] } {
  const read = calibrate(film.scaleFacts, { longLeg: film.view === 'long-leg' });
  const before = refused ? [{ ...refused, message: `${refused.message} The scale of the file is used instead.` }] : [];
  if (read.ok) return { calibration: read.value, warnings: [...before, ...read.warnings] };
  const none = {
    source: 'none',
    pixelAspect: pixelAspect(film.scaleFacts),
    rule: 'PLAN-8',
    because: read.reason.message,
  } as const;
  return { calibration: none, warnings: [...before, read.reason] };
}

const EDGES: Readonly<Record<'tray' | 'femoral-component', readonly [LandmarkId, LandmarkId]>> = {
  tray: ['tray-medial-edge', 'tray-lateral-edge'],
  'femoral-component': ['femoral-component-medial-edge', 'femoral-component-lateral-edge'],
};

/** The choice of a person as plain numbers, with what was marked for it. */
function choiceOf(film: CaseFilm, marks: readonly Mark[]): Outcome<ScaleByHand> {
  const { scale } = film;
  if (!scale) return cannot({ code: 'no-choice', message: 'No scale was chosen.' });
  if (scale.kind === 'known-implant') {
    const width = span(film, marks, { pair: EDGES[scale.part], side: scale.side });
    if (!width) return marksMissing(`both edges of the ${scale.part === 'tray' ? 'tray' : 'femoral component'}`);
    const widthSdPx = (width.sdMm * width.px) / scale.widthMm;
    return ok({ kind: 'known-implant', widthMm: scale.widthMm, widthPx: width.px, widthSdPx });
  }
  if (scale.kind === 'ball') {
    const ball = marks.find((m) => m.landmark === 'calibration-ball');
    if (!ball) return marksMissing('the outline of the ball');
    const aspect = pixelAspect(film.scaleFacts) ?? 1;
    const fit = fitCircle(ball.points.map((p) => point('film', p.x, p.y * aspect)));
    if (!fit.ok) return cannot({ ...fit.reason, field: 'scale' });
    const diameterPx = 2 * fit.value.radius;
    // Each point errs across the outline by itself; the radius is close to their mean.
    const sdMm = (2 * (ball.sdMm ?? landmark(ball.landmark).markingSdMm)) / Math.sqrt(ball.points.length);
    const diameterSdPx = (sdMm * diameterPx) / scale.diameterMm;
    return ok({ kind: 'ball', diameterMm: scale.diameterMm, diameterPx, diameterSdPx });
  }
  return ok(scale);
}

const marksMissing = (what: string) =>
  cannot({
    code: 'scale-marks-missing',
    message: `The chosen scale needs ${what}, which is not marked.`,
    field: 'scale',
    mend: `Mark ${what}.`,
  });

/** Width between two marks of one side in pixel widths, with the spread of marking it, mm. */
function span(
  film: CaseFilm,
  marks: readonly Mark[],
  { pair, side }: { pair: readonly [LandmarkId, LandmarkId]; side: Side },
): { px: number; sdMm: number } | null {
  const [a, b] = pair.map((id) => marks.find((m) => m.landmark === id && m.side === side));
  const [p, q] = [a?.points[0], b?.points[0]];
  if (!a || !b || !p || !q) return null;
  const px = Math.hypot(q.x - p.x, (q.y - p.y) * (pixelAspect(film.scaleFacts) ?? 1));
  const sd = (m: Mark) => m.sdMm ?? landmark(m.landmark).markingSdMm;
  return { px, sdMm: Math.hypot(sd(a), sd(b)) };
}

/** What shows the width of a knee on an AP film, most telling first; components cover about this share of their bone. */
const WIDTHS: readonly { bone: 'femur' | 'tibia'; pair: readonly [LandmarkId, LandmarkId]; covers: number }[] = [
  { bone: 'femur', pair: ['medial-epicondyle', 'lateral-epicondyle'], covers: 1 },
  { bone: 'tibia', pair: EDGES.tray, covers: 0.95 },
  { bone: 'femur', pair: EDGES['femoral-component'], covers: 0.88 },
];

function plausible(calibration: Calibration, marks: readonly Mark[], film: CaseFilm) {
  for (const side of ['right', 'left'] as const) {
    for (const { bone, pair, covers } of WIDTHS) {
      const width = span(film, marks, { pair, side });
      if (!width) continue;
      const judged = plausibleScale(calibration, { bone, widthPx: width.px / covers });
      if (judged.ok) break;
      const { rule } = calibration;
      const aspect = pixelAspect(film.scaleFacts);
      const none: Calibration = { source: 'none', pixelAspect: aspect, rule, because: judged.reason.message };
      return { calibration: none, warnings: [judged.reason] };
    }
  }
  return { calibration, warnings: [] };
}
