import { DEMO_BONE, DEMO_FORECAST, DEMO_KIT } from './demo-bone.ts';
import { DEMO_WORK_UP } from './demo-work-up.ts';
import type { Vary } from './vary.ts';
import { type WrittenPhantom, writePhantom } from './write-phantom.ts';

/** Seed and choices of the demonstration case: a raised joint line, a tray sunk into varus, bone lost medially. */
export const DEMO_SEED = 7380;
export const DEMO_VARY: Vary = {
  side: 'right',
  sex: 'female',
  jointline: 7,
  varus: 4,
  subsidence: 3,
  tibialloss: 5,
  femoralloss: 2,
  lucent: 1.5,
  hardware: 'none',
  rotation: 2,
  flexion: 2,
  known: 'tray',
  earlier: true,
  insert: 12,
  marks: 'jittered',
  canals: true,
};

/** Writes the demonstration case: films, `case.json` marked as by a person, `truth.json`. */
export function demoCase(dir: string, options: { readonly resolution?: number } = {}): WrittenPhantom {
  const vary = options.resolution === undefined ? DEMO_VARY : { ...DEMO_VARY, resolution: options.resolution };
  return writePhantom({ seed: DEMO_SEED, vary }, dir, {
    id: 'demo',
    title: 'Demonstration: raised joint line, tray sunk into varus',
    settings: { targetAlignment: 'neutral', population: 'pooled' },
    workUp: DEMO_WORK_UP,
    bone: DEMO_BONE,
    kit: DEMO_KIT,
    forecast: DEMO_FORECAST,
    note: 'An invented case with computed films. First replacement elsewhere; pain and giving way for a year.',
  });
}
