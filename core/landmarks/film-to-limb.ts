import { cannot, type Outcome, ok } from '../measure/outcome.ts';
import { type Point, point } from '../plane/point.ts';
import type { Side } from './side.ts';
import { CORONAL_VIEWS, type ColumnDirection, type View } from './view.ts';

export type LimbFrame = 'coronal' | 'sagittal' | 'axial';

/** How one film's pixels turn into the frame of one limb. */
export interface FilmToLimb<F extends LimbFrame> {
  readonly frame: F;
  /** Column direction on the limb: +1 when columns run laterally (AP) or anteriorly (lateral film). */
  readonly columns: 1 | -1;
  /** Height of a pixel over its width. The limb frame's unit is the pixel's *width*. */
  readonly pixelAspect: number;
}

export interface FilmOrientation {
  readonly film: string;
  readonly view: View;
  readonly side: Side;
  readonly columnsTowards: ColumnDirection | undefined;
  readonly pixelAspect: number | null;
}

/**
 * Frame of an AP film for one side: x = lateral +, y = proximal +, unit the width of a pixel (LM-1).
 * Refuses a film that is no AP, whose column direction is not known, or whose pixel shape is not known.
 */
export function coronalFrame(o: FilmOrientation): Outcome<FilmToLimb<'coronal'>> {
  if (!CORONAL_VIEWS.includes(o.view)) return wrongView(o, 'an AP film');
  if (o.columnsTowards !== 'patient-left' && o.columnsTowards !== 'patient-right')
    return unknownColumns(o, 'patient-left or patient-right');
  // The patient's left is lateral for a left knee only.
  const towardsLateral = o.columnsTowards === `patient-${o.side}`;
  return withAspect(o, 'coronal', towardsLateral);
}

/** Frame of a lateral film: x = anterior +, y = proximal +, same unit and same refusals (LM-2). */
export function sagittalFrame(o: FilmOrientation): Outcome<FilmToLimb<'sagittal'>> {
  if (o.view !== 'lateral') return wrongView(o, 'a lateral film');
  if (o.columnsTowards !== 'anterior' && o.columnsTowards !== 'posterior')
    return unknownColumns(o, 'anterior or posterior');
  return withAspect(o, 'sagittal', o.columnsTowards === 'anterior');
}

/** Frame of a skyline film: x = lateral +, y = anterior + where the patella is shown on top, same unit and refusals (LM-8). */
export function axialFrame(o: FilmOrientation): Outcome<FilmToLimb<'axial'>> {
  if (o.view !== 'skyline') return wrongView(o, 'a skyline film');
  if (o.columnsTowards !== 'patient-left' && o.columnsTowards !== 'patient-right')
    return unknownColumns(o, 'patient-left or patient-right');
  return withAspect(o, 'axial', o.columnsTowards === `patient-${o.side}`);
}

/** A film point in the limb's frame. */
export const toLimb = <F extends LimbFrame>(t: FilmToLimb<F>, p: Point<'film'>): Point<F> =>
  point(t.frame, t.columns * p.x, -t.pixelAspect * p.y);

/** The same point back on the film, for drawing. */
export const toFilm = <F extends LimbFrame>(t: FilmToLimb<F>, p: Point<NoInfer<F>>): Point<'film'> =>
  point('film', t.columns * p.x, -p.y / t.pixelAspect);

function withAspect<F extends LimbFrame>(o: FilmOrientation, frame: F, plus: boolean): Outcome<FilmToLimb<F>> {
  const aspect = o.pixelAspect;
  if (aspect === null || !(aspect > 0) || !Number.isFinite(aspect))
    return cannot({
      code: 'pixel-shape-unknown',
      message: `It is not known whether the pixels of film ${o.film} are square: neither angles nor lengths can be measured on it.`,
      field: `films[${o.film}].scaleFacts.pixelAspect`,
      mend: 'State the pixel aspect (height over width), or give a calibration.',
    });
  return ok({ frame, columns: plus ? 1 : -1, pixelAspect: aspect });
}

const wrongView = (o: FilmOrientation, needed: string) =>
  cannot({
    code: 'wrong-view',
    message: `Film ${o.film} is stated as ${o.view}, not as ${needed}.`,
    field: `films[${o.film}].view`,
    mend: `Measure on ${needed}, or correct the view.`,
  });

const unknownColumns = (o: FilmOrientation, choice: string) =>
  cannot({
    code: 'orientation-unknown',
    message: `It is not known which way film ${o.film} faces, so that ${o.view === 'lateral' ? 'front and back' : 'medial and lateral'} cannot be told apart.`,
    field: `films[${o.film}].columnsTowards`,
    mend: `State the direction that the columns run towards: ${choice}.`,
  });
