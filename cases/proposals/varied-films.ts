import type { GreyFilm } from '@gapline/film/proposals/grey-film.ts';
import { chance } from '@gapline/phantoms/src/chance.ts';
import { takeFilm } from '@gapline/phantoms/src/film.ts';
import type { TrueMark } from '@gapline/phantoms/src/landmarks.ts';
import { trueMarks } from '@gapline/phantoms/src/landmarks.ts';
import { buildPhantom, plannedFilms } from '@gapline/phantoms/src/phantom.ts';
import type { Scene, Standing } from '@gapline/phantoms/src/scene.ts';
import { filmTruth } from '@gapline/phantoms/src/truth.ts';
import type { Vary } from '@gapline/phantoms/src/vary.ts';
import { cluttered } from './clutter.ts';

/** One film with what is true of it. */
export interface VariedFilm {
  readonly seed: number;
  readonly view: 'long-leg' | 'ap' | 'lateral';
  readonly scene: Scene;
  /** The operated leg. */
  readonly standing: Standing;
  readonly marks: readonly TrueMark[];
  readonly mmPerPx: number;
  readonly film: GreyFilm;
}

export const VIEWS = ['long-leg', 'ap', 'lateral'] as const;

/** How a phantom of the study is taken; everything not named is drawn by the phantom itself: person, fault, hardware, tilt. */
function variation(seed: number): { vary: Vary; dose: number; usual: number } {
  const c = chance(seed, 'proposals study');
  const dose = [0.25, 0.5, 1, 2][Math.floor(4 * c.uniform())] ?? 1;
  const vary: Vary = {
    rotation: c.normal(0, 7, 2),
    flexion: Math.abs(c.normal(0, 6, 2)),
    mag: 1.06 + 0.16 * c.uniform(),
    ball: c.uniform() > 0.12,
    balldepth: c.normal(0, 15, 2),
    ...(c.uniform() < 0.25 ? { other: 'replaced' as const } : {}),
    ...(c.uniform() < 0.08 ? { native: true } : {}),
  };
  // One phantom in five at full resolution, the others at half of it, as older detectors have.
  return { vary, dose, usual: seed % 5 === 0 ? 1 : 0.5 };
}

/** The films of one phantom of the study, one at a time; `views` and `resolution` make it lighter for a test. */
export function* variedFilms(
  seed: number,
  light: { readonly views?: readonly VariedFilm['view'][]; readonly resolution?: number } = {},
): Generator<VariedFilm> {
  const { vary, dose, usual } = variation(seed);
  const resolution = light.resolution ?? usual;
  const phantom = buildPhantom({ seed, vary: { ...vary, resolution } });
  const films = plannedFilms(phantom);
  for (const view of light.views ?? VIEWS) {
    const planned = films.find((p) => p.scene.view === view);
    const standing = planned?.scene.legs.find((s) => s.side === phantom.side);
    if (!planned || !standing) continue;
    const { scene } = planned;
    const marks = trueMarks(scene);
    const knee = filmTruth(scene, marks).knees.find((k) => k.side === phantom.side);
    // A larger pixel gathers more quanta.
    const choices = { seed, bits: 12, monochrome1: false, noise: true, dose: dose / resolution ** 2 } as const;
    const { pixels, rows, columns } = takeFilm(cluttered(scene, seed), choices);
    const mmPerPx = knee?.mmPerPxAtKnee ?? scene.beam.spacingMm;
    yield { seed, view, scene, standing, marks, mmPerPx, film: { pixels, rows, columns } };
  }
}
