import { LANDMARKS } from '../landmarks/landmark-table.ts';
import type { Mark } from '../landmarks/mark.ts';
import type { Cannot } from '../measure/outcome.ts';
import type { CaseFile } from './case.ts';
import { refuse } from './refuse.ts';

const HOW: readonly string[] = ['by-hand', 'proposed-and-accepted', 'model-truth'];
const SIDES: readonly string[] = ['right', 'left'];
/** More points than any hand sets on an outline; a bound against nonsense. */
const MOST_POINTS = 1000;

/** Why a mark cannot stand in the case, or null where it can. An outline may be short while it is being placed. */
export function markFault(file: CaseFile, mark: Mark): Cannot | null {
  const known = LANDMARKS.find((l) => l.id === mark.landmark);
  if (!known) {
    return refuse(
      'unknown-landmark',
      `There is no landmark "${mark.landmark}".`,
      'mark.landmark',
      'Choose one of the landmark table.',
    );
  }
  const at = `mark ${mark.landmark}`;
  if (!SIDES.includes(mark.side))
    return refuse('bad-side', `${known.label}: the side is missing.`, at, 'Say right or left.');
  if (!file.films.some((f) => f.id === mark.film)) {
    return refuse(
      'mark-on-unknown-film',
      `${known.label}: the case has no film "${mark.film}".`,
      at,
      'Add the film first.',
    );
  }
  const sliceFault = faultOfSlice(file, mark, known.label);
  if (sliceFault) return sliceFault;
  const many = mark.points.length;
  if (many < 1 || many > MOST_POINTS || (!known.outline && many !== 1)) {
    const wanted = known.outline ? 'an outline of points' : 'exactly one point';
    return refuse('wrong-number-of-points', `${known.label} takes ${wanted}, not ${many}.`, at, 'Place it again.');
  }
  if (!mark.points.every((p) => Number.isFinite(p.x) && Number.isFinite(p.y))) {
    return refuse('not-a-finite-number', `${known.label}: a coordinate is not a number.`, at, 'Place it again.');
  }
  if (mark.sdMm !== undefined && !(Number.isFinite(mark.sdMm) && mark.sdMm > 0)) {
    return refuse(
      'bad-marking-spread',
      `${known.label}: the marking spread must be above 0 mm.`,
      at,
      'Give a spread in mm.',
    );
  }
  if (!HOW.includes(mark.how)) {
    return refuse(
      'unknown-origin',
      `${known.label}: it is not said how the mark came to be.`,
      at,
      `Say one of ${HOW.join(', ')}.`,
    );
  }
  return null;
}

/** A mark on a stack names one of its slices; a mark on a film of one picture names none. */
function faultOfSlice(file: CaseFile, mark: Mark, label: string): Cannot | null {
  const stack = file.films.find((f) => f.id === mark.film)?.slices;
  const at = `mark ${mark.landmark}`;
  if (mark.slice === undefined)
    return stack
      ? refuse('slice-not-known', `${label}: it is not said on which slice it lies.`, at, 'Place it on its slice.')
      : null;
  if (stack && Number.isInteger(mark.slice) && mark.slice >= 0 && mark.slice < stack.each.length) return null;
  return refuse('slice-not-known', `${label}: the film has no such slice.`, at, 'Place it on a slice of the stack.');
}
