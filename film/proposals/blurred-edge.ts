/**
 * Natural logarithms of exposure between the darkest and the brightest grey of a film as it is shown: the usual latitude
 * of digital films (from memory; 1.5 decades). Only the place of metal edges depends on it, by a fraction of a pixel.
 */
const LATITUDE = 3.5;

/**
 * Where on the climb from the dark to the bright side a blurred edge lies, 0 = foot, 1 = top (PRO-4). The detector blurs
 * exposure, the film shows its logarithm: half the exposure lies half way up for a faint edge, and near the foot for one
 * as strong as metal against air. `climb` is the height of the edge as a share of the film's range of grey.
 */
export function edgeShare(climb: number): number {
  const step = LATITUDE * Math.min(1, Math.max(0, climb));
  return step < 1e-3 ? 0.5 : Math.log(2 / (1 + Math.exp(-step))) / step;
}

/**
 * Moves an edge from its steepest place to where it truly lies. `profile` climbs from dark to bright; `crest` is the
 * steepest place in samples; the plateaus are read `plateau` samples to either side, over the lesser of the distance to
 * the ends. `range` = the film's range of grey. Result in samples.
 */
export function trueEdge(
  profile: Float64Array,
  crest: number,
  { plateau, range }: { plateau: number; range: number },
): number {
  const n = profile.length;
  const at = (i: number) => profile[Math.min(n - 1, Math.max(0, Math.round(i)))] ?? 0;
  const mean3 = (i: number) => (at(i - 1) + at(i) + at(i + 1)) / 3;
  const [dark, bright] = [mean3(crest - plateau), mean3(crest + plateau)];
  if (!(bright > dark) || !(range > 0)) return crest;
  const level = dark + edgeShare((bright - dark) / range) * (bright - dark);
  for (let i = Math.min(n - 1, Math.ceil(crest)); i > Math.max(0, crest - plateau); i--) {
    const [a, b] = [at(i - 1), at(i)];
    if (a <= level && level < b) return i - 1 + (level - a) / (b - a);
  }
  return crest;
}
