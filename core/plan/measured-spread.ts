import { hasMillimetres } from '../calibration/calibration.ts';
import { type MarkingSpread, type MmPerPx, markingSpread, withMarkingSpread } from '../landmarks/repeat-marks.ts';
import { calibrateFilms } from './calibrate-films.ts';
import type { CaseFile } from './case.ts';

/** Spread of marking in a case from landmarks placed more than once, mm (LM-9); null without any repeat. */
export function spreadOfMarking(file: CaseFile): MarkingSpread | null {
  if (!file.repeats?.some((r) => r.why === 'repeat')) return null;
  const widths = new Map(
    calibrateFilms(file).map(({ film, calibration }) => [
      film.id,
      hasMillimetres(calibration) ? calibration.mmPerPx : null,
    ]),
  );
  const mmPerPx: MmPerPx = (film) => widths.get(film) ?? null;
  return markingSpread({ marks: file.marks, repeats: file.repeats, mmPerPx });
}

/** The case as it is reckoned with: each mark with the measured spread of its kind, where enough was placed twice. */
export function withMeasuredSpread(file: CaseFile, spread: MarkingSpread | null = spreadOfMarking(file)): CaseFile {
  if (!spread) return file;
  const marks = withMarkingSpread(file.marks, spread);
  return marks === file.marks ? file : { ...file, marks };
}
