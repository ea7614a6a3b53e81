import type { JointLineCorrelations, JointLineOpinion } from './estimate-types.ts';

/** How far two opinions err together between people (spec section 2). */
export function correlation(a: JointLineOpinion, b: JointLineOpinion, c: JointLineCorrelations): number {
  if (a.group === 'femur' && b.group === 'femur') return c.withinFemur;
  if (a.group === 'tibia' && b.group === 'tibia') return c.withinTibia;
  return c.across;
}

/**
 * Covariance of the opinions, mm^2 (JL-8): spread between people with its correlations, marking on the diagonal, and two
 * errors that opinions share: the scale of their film, and the width that ratios hang on.
 */
export function covariance(
  opinions: readonly JointLineOpinion[],
  correlations: JointLineCorrelations,
): readonly (readonly number[])[] {
  const scaled = (o: JointLineOpinion) => o.scaledLengthMm ?? o.distanceMm;
  return opinions.map((a, i) =>
    opinions.map((b, j) => {
      const rho = i === j ? 1 : correlation(a, b, correlations);
      const own = i === j ? a.markingSdMm ** 2 : 0;
      const oneFilm = a.film === b.film;
      const scale = oneFilm ? a.scaleRelativeSd * b.scaleRelativeSd * scaled(a) * scaled(b) : 0;
      const width = oneFilm ? a.widthSdMm * b.widthSdMm * a.widthRatio * b.widthRatio : 0;
      return rho * a.personSdMm * b.personSdMm + own + scale + width;
    }),
  );
}
