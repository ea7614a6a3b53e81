import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import { coronalFilm, type LimbFilm, sagittalFilm } from '../landmarks/limb-film.ts';
import { otherSide, type Side } from '../landmarks/side.ts';
import { CORONAL_VIEWS } from '../landmarks/view.ts';
import type { JointLineCorrelations } from './estimate-types.ts';
import type { Population } from './landmark-distances.ts';

/** What the joint-line estimate starts from. */
export interface JointLineInput extends KneeEvidence {
  /** Absent = the default table, `DEFAULT_CORRELATIONS`. */
  readonly correlations?: JointLineCorrelations;
  /** Absent = pooled. */
  readonly population?: Population;
}

/** State of the other knee as its marks show it: component marks mean that it is replaced too. */
export function otherKneeState({ marks, side }: KneeEvidence): KneeEvidence['state'] {
  const other = otherSide(side);
  return marks.some(
    (m) => m.side === other && (m.landmark.startsWith('tray-') || m.landmark.startsWith('femoral-component-')),
  )
    ? 'replaced'
    : 'native';
}

export type Role = KneeEvidence['films'][number]['role'];

/** AP films of one knee in one role, long-leg films first, otherwise in the case's order. */
export function coronalFilms(input: KneeEvidence, side: Side, role: Role): readonly LimbFilm<'coronal'>[] {
  const films = input.films.filter(
    (f) => CORONAL_VIEWS.includes(f.view) && !f.view.startsWith('stress') && of(f, side, role),
  );
  films.sort((a, b) => Number(b.view === 'long-leg') - Number(a.view === 'long-leg'));
  return films.flatMap((film) => {
    const seen = coronalFilm({ film, side, marks: input.marks, calibration: calibration(input, film.id, side) });
    return seen.ok ? [seen.value] : [];
  });
}

/** Lateral films of one knee in one role, in the case's order. */
export const sagittalFilms = (input: KneeEvidence, side: Side, role: Role): readonly LimbFilm<'sagittal'>[] =>
  input.films
    .filter((f) => f.view === 'lateral' && of(f, side, role))
    .flatMap((film) => {
      const seen = sagittalFilm({ film, side, marks: input.marks, calibration: calibration(input, film.id, side) });
      return seen.ok ? [seen.value] : [];
    });

const of = (f: KneeEvidence['films'][number], side: Side, role: Role) =>
  f.role === role && (f.side === 'both' || f.side === side);

const calibration = (input: KneeEvidence, film: string, side: Side) =>
  (side === input.side ? undefined : input.otherKneeCalibrations?.get(film)) ?? input.calibrations.get(film);
