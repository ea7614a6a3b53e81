import type { LandmarkId } from '../landmarks/landmark-table.ts';
import type { LimbFilm } from '../landmarks/limb-film.ts';
import { millimetres } from '../landmarks/millimetres.ts';
import { otherSide } from '../landmarks/side.ts';
import type { Outcome } from '../measure/outcome.ts';
import { distance } from '../plane/point.ts';
import type { JointLineOpinion } from './estimate-types.ts';
import { coronalFilms, type JointLineInput, otherKneeState } from './joint-line-input.ts';
import { EARLIER_FILM, OTHER_KNEE } from './landmark-distances.ts';
import { type Level, type Measured, measuredOn, usable } from './level.ts';
import { mirroredOpinion } from './mirrored-opinion.ts';

/**
 * Epicondylar width on one film, mm, with what marking contributes to its spread; null when it is not marked. From the medial peak
 * or, for the ratio that was published for it, from the sulcus (the surgical epicondylar line).
 */
export function epicondylarWidth(
  film: LimbFilm<'coronal'>,
  medial: 'medial-epicondyle' | 'medial-epicondyle-sulcus' = 'medial-epicondyle',
): Measured | null {
  const ends = [medial, 'lateral-epicondyle'] as const;
  if (!usable(film, ends)) return null;
  const width = measuredOn(film, ends, {
    insertMm: null,
    of: (r) => millimetres(distance(r.at(ends[0]), r.at(ends[1])), r),
  });
  return width.ok && width.value.value > 0 ? width.value : null;
}

export interface ComparedBone {
  readonly bone: 'femur' | 'tibia';
  readonly landmarks: readonly LandmarkId[];
  readonly level: (film: LimbFilm<'coronal'>, state: 'native' | 'replaced') => Outcome<Level<'coronal'>>;
}

/** Opinions from the other knee (JL-6) and from a film before the first replacement (JL-7), where they can be had. */
export function comparisonOpinions(
  input: JointLineInput,
  present: Level<'coronal'>,
  bone: ComparedBone,
): readonly JointLineOpinion[] {
  return [otherKneeOpinion(input, present, bone), earlierOpinion(input, present, bone)].filter((o) => o !== null);
}

function otherKneeOpinion(
  input: JointLineInput,
  present: Level<'coronal'>,
  bone: ComparedBone,
): JointLineOpinion | null {
  // A replaced knee is no template.
  if (otherKneeState(input) !== 'native') return null;
  const films = coronalFilms(input, otherSide(input.side), 'present');
  // The film that shows both knees first: one exposure, one posture.
  const ordered = films.toSorted(
    (a, b) => Number(b.film.id === present.film.film.id) - Number(a.film.id === present.film.film.id),
  );
  for (const film of ordered) {
    const level = bone.level(film, 'native');
    if (!level.ok) continue;
    const opinion = mirroredOpinion({
      present,
      other: level.value,
      landmarks: bone.landmarks,
      proximal: bone.bone === 'femur' ? 1 : -1,
      sameBone: null,
      opinion: {
        id: 'other-knee',
        label: 'Other knee, mirrored',
        group: 'other-knee',
        personSdMm: OTHER_KNEE.sdMm,
        rule: OTHER_KNEE.rule,
        source: OTHER_KNEE.source,
      },
    });
    if (opinion) return opinion;
  }
  return null;
}

function earlierOpinion(input: JointLineInput, present: Level<'coronal'>, bone: ComparedBone): JointLineOpinion | null {
  for (const film of coronalFilms(input, input.side, 'before-first-replacement')) {
    const level = bone.level(film, 'native');
    if (!level.ok) continue;
    const sameBone = sameBoneFactor(present.film, film);
    const opinion = mirroredOpinion({
      present,
      other: level.value,
      landmarks: bone.landmarks,
      proximal: bone.bone === 'femur' ? 1 : -1,
      sameBone,
      opinion: {
        id: 'earlier-film',
        label: sameBone
          ? 'Film before the first replacement, scaled on the same bone'
          : 'Film before the first replacement',
        group: 'earlier-film',
        personSdMm: sameBone ? EARLIER_FILM.sameBoneSdMm : EARLIER_FILM.ownScaleSdMm,
        rule: EARLIER_FILM.rule,
        source: EARLIER_FILM.source,
      },
    });
    if (opinion) return opinion;
  }
  return null;
}

/** The same epicondyles on both films scale one to the other, whatever each film's own scale. */
function sameBoneFactor(present: LimbFilm<'coronal'>, earlier: LimbFilm<'coronal'>) {
  const [now, then] = [epicondylarWidth(present), epicondylarWidth(earlier)];
  if (!now || !then) return null;
  const value = now.value / then.value;
  return { factor: { value, sd: (value * then.sd) / then.value }, widthMm: now };
}
