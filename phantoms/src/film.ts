import { exposed } from './exposure.ts';
import { drawLetter } from './letter.ts';
import type { Scene } from './scene.ts';

export interface Picture {
  readonly pixels: Uint16Array;
  readonly columns: number;
  readonly rows: number;
  readonly window: { readonly centre: number; readonly width: number };
}

export interface PictureChoices {
  readonly seed: number;
  readonly bits: 12 | 14;
  readonly monochrome1: boolean;
  readonly noise: boolean;
  /** Dose as a share of the usual one; absent = 1. */
  readonly dose?: number;
}

/** Share of the slow brightness that processing takes away: more where thick and thin parts share a film. */
const LEVELLING: Readonly<Partial<Record<Scene['view'], number>>> = { 'long-leg': 0.5, skyline: 0.6 };

/** Share of the film's short side that the collimator shuts on each edge. */
const SHUTTER = 0.012;

/** Exposes a scene and processes it for presentation: bone bright (or dark with monochrome1), shutters black. */
export function takeFilm(scene: Scene, choices: PictureChoices): Picture {
  const { beam } = scene;
  const { columns, rows } = beam;
  const long = scene.view === 'long-leg';
  const density = exposed({
    beam,
    solids: scene.solids,
    scatter: long ? 0.16 : 0.1,
    quanta: (long ? 2600 : 5200) * (choices.dose ?? 1),
    seed: choices.seed,
    noise: choices.noise,
    levelling: LEVELLING[scene.view] ?? 0.25,
  });
  for (const { side, column, row } of scene.letters)
    drawLetter({ data: density, columns, rows }, side, {
      column,
      row,
      height: Math.round(16 / beam.spacingMm),
      density: 5,
    });
  const top = 2 ** choices.bits - 1;
  const [low, high] = long ? [0.25, 3.6] : [0.3, 3.9];
  const pixels = new Uint16Array(columns * rows);
  const edge = Math.round(SHUTTER * Math.min(columns, rows));
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      const i = r * columns + c;
      const open = r >= edge && c >= edge && r < rows - edge && c < columns - edge;
      const t = open ? Math.min(1, Math.max(0, (density[i]! - low) / (high - low))) : 0;
      // A gentle shoulder, so that metal keeps its edge without swallowing the range of bone.
      const v = t < 0.7 ? t : 0.7 + 0.3 * (1 - Math.exp(-(t - 0.7) / 0.3)) * 1.58;
      const value = Math.round(Math.min(1, v) * top);
      pixels[i] = choices.monochrome1 ? top - value : value;
    }
  return { pixels, columns, rows, window: { centre: (top + 1) / 2, width: top + 1 } };
}
