import type { Catalogue } from '../catalogue/catalogue.ts';
import type { Construct } from '../gaps/construct.ts';
import { partsOf } from '../gaps/parts-of.ts';
import { choiceOf } from './choices.ts';
import { CHOICES_OF_KIND } from './forecast-types.ts';

/** Inserts whose labels differ by no more are the same in kind, mm: the trial settles it (FOR-10). */
export const SAME_INSERT_MM = 2;

/** Against the first choice: the same within the tolerance, thicker, or thinner. */
export type InsertKind = 'same' | 'thicker' | 'thinner';

export function insertKind(labelMm: number, firstMm: number): InsertKind {
  if (Math.abs(labelMm - firstMm) <= SAME_INSERT_MM) return 'same';
  return labelMm > firstMm ? 'thicker' : 'thinner';
}

/** Names the kind of a construct: equal names = the same in kind. */
export type KindNamer = (construct: Construct) => string;

/**
 * What a surgeon would call the same construct (FOR-10), always against a first choice: the same level, sizes, augments
 * and blocks; stems of the same fixation and length, whatever their diameter; an offset coupler or none, a cone, a
 * sleeve or neither in each bone; an insert the same within 2 mm, thicker, or thinner than the first choice's.
 *
 * `first` null = no construct for the expected bone: then inserts are not told apart. Choice of this project, grade D.
 */
export function kindNamer(first: Construct | null, catalogue: Catalogue): KindNamer {
  const stems = new Map(catalogue.stems.map((s) => [s.ref, `${s.fixation} ${s.lengthMm}`]));
  const labels = new Map(catalogue.inserts.map((i) => [i.ref, i.labelMm]));
  const firstMm = first ? partsOf(first, catalogue).insert.labelMm : null;
  const stem = (ref: string | null): string => (ref === null ? 'no stem' : (stems.get(ref) ?? ref));
  const metaphysis = (cone: string | null | undefined, sleeve: string | null | undefined): string =>
    cone ? 'cone' : sleeve ? 'sleeve' : 'neither';
  return (c) => {
    const mm = labels.get(c.insert);
    return [
      ...CHOICES_OF_KIND.map((choice) => choiceOf(c, choice)),
      stem(c.femoralStem),
      stem(c.tibialStem),
      c.femoralOffset === null ? 'straight' : 'offset',
      c.tibialOffset ? 'offset' : 'straight',
      metaphysis(c.femoralCone, c.femoralSleeve),
      metaphysis(c.tibialCone, c.tibialSleeve),
      firstMm === null || mm === undefined ? 'any' : insertKind(mm, firstMm),
    ].join(' | ');
  };
}

/** One line for each construct, for finding the most frequent: parts, not how they seat. */
export const partsKey = (c: Construct): string =>
  [
    ...CHOICES_OF_KIND.map((choice) => choiceOf(c, choice)),
    c.insert,
    c.femoralStem,
    c.tibialStem,
    c.femoralOffset,
    c.tibialOffset ?? null,
    c.femoralCone ?? c.femoralSleeve,
    c.tibialCone ?? c.tibialSleeve,
    c.femoralSegmentMm,
    c.tibialSegmentMm,
    c.slopeDeg,
  ].join(' | ');
