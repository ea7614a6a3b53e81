import { hasMillimetres } from '../calibration/calibration.ts';
import { IMPLANT_SD } from '../calibration/scale-trust.ts';
import type { Measurement } from '../limb/measurement.ts';
import type { DatedEvidence } from './dated-evidence.ts';
import { FILM_TO_FILM } from './film-to-film.ts';

/** A change between two dates with its spread, and what of the spread of both fell out because it is shared. */
export interface Change {
  readonly value: number;
  readonly sd: number;
  /** Standard deviation that the two values would have added if nothing were shared. */
  readonly sdUnshared: number;
  /** In words, what errs alike on both dates. */
  readonly shared: readonly string[];
  /** Part of the spread that taking a film anew adds, both films together; null = not known for this quantity. */
  readonly filmToFilm: number | null;
}

/**
 * The change of one measurement (CMP-2): now less before, in its unit, + = grown. What errs alike on both dates falls out of the difference, and only
 * that: the label of an insert that is still in place, and the make of an implant that gave both films their scale. Marks are placed anew on
 * each film and share nothing; magnification, marker balls and joined exposures differ from film to film (CMP-3). What
 * a film taken anew adds by itself is counted for both (CMP-4). Null where a value or a spread is missing.
 */
export function changeOf(
  before: Measurement,
  now: Measurement,
  [first, second]: readonly [DatedEvidence, DatedEvidence],
): Change | null {
  if (before.value === null || now.value === null || before.sd === null || now.sd === null) return null;
  const [a, b] = [split(before, first), split(now, second)];
  const ownFilm = FILM_TO_FILM[now.id];
  const filmToFilm = ownFilm === undefined ? null : Math.SQRT2 * ownFilm;
  const shared: string[] = [];
  let variance = a.own ** 2 + b.own ** 2 + (filmToFilm ?? 0) ** 2;
  const pair = (x: number, y: number, alike: boolean, words: string) => {
    if (alike && x * y > 0) shared.push(words);
    variance += alike ? (y - x) ** 2 : x ** 2 + y ** 2;
  };
  const sameInsert = first.evidence.implants?.insertMm === second.evidence.implants?.insertMm;
  pair(a.insert, b.insert, sameInsert, 'thickness of the insert');
  pair(a.make, b.make, sameObject(before, now, [first, second]), 'true width of the implant that gave both scales');
  return {
    value: now.value - before.value,
    sd: Math.sqrt(variance),
    sdUnshared: Math.hypot(before.sd, now.sd, filmToFilm ?? 0),
    shared,
    filmToFilm,
  };
}

interface Split {
  /** What errs by itself on this date. */
  readonly own: number;
  /** What one standard deviation of the insert's label and of the implant's make add, with sign. */
  readonly insert: number;
  readonly make: number;
}

/** Spread of one value by what may be shared with another date. Without its causes everything errs by itself. */
function split(m: Measurement, { evidence }: DatedEvidence): Split {
  const sd = m.sd ?? 0;
  const { causes } = m;
  if (!causes) return { own: sd, insert: 0, make: 0 };
  const insert = causes.insert ?? 0;
  const calibration = m.film === null ? undefined : evidence.calibrations.get(m.film);
  const scale = causes[`${m.film}: scale`] ?? 0;
  const implant = calibration && hasMillimetres(calibration) && calibration.source === 'known-implant';
  const make = implant && calibration.relativeSd > 0 ? scale * Math.min(1, IMPLANT_SD / calibration.relativeSd) : 0;
  return { own: Math.sqrt(Math.max(0, sd ** 2 - insert ** 2 - make ** 2)), insert, make };
}

function sameObject(before: Measurement, now: Measurement, [first, second]: readonly [DatedEvidence, DatedEvidence]) {
  const one = before.film === null ? undefined : first.scaleObjects?.get(before.film);
  const other = now.film === null ? undefined : second.scaleObjects?.get(now.film);
  return one !== undefined && one === other;
}
