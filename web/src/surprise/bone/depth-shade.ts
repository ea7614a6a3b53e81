/** Bounds of the shades, mm: what wants rebuilding (BONE-1), what an augment fills, what wants more than one. */
const BOUNDS = [0, 5, 10, 20] as const;

/** Step of shading of a loss, 0 to 4; null = not known, hatched. Depth mm, >= 0. */
export function depthShade(depthMm: number | undefined): 0 | 1 | 2 | 3 | 4 | null {
  if (depthMm === undefined) return null;
  if (depthMm <= BOUNDS[0]) return 0;
  if (depthMm <= BOUNDS[1]) return 1;
  if (depthMm <= BOUNDS[2]) return 2;
  return depthMm <= BOUNDS[3] ? 3 : 4;
}

/** Words of the key beside the picture. */
export const SHADE_WORDS = ['none', 'to 5 mm', 'to 10 mm', 'to 20 mm', 'deeper'] as const;
