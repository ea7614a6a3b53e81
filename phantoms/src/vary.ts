import type { Side } from '@gapline/core/landmarks/side.ts';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import type { Sex } from './anthropometry.ts';

/** Every choice that a phantom takes besides its seed. Absent = drawn, or the usual value named in VARY_HELP. */
export interface Vary {
  readonly ideal?: boolean;
  readonly side?: Side;
  readonly sex?: Sex;
  /** Magnification wanted at the knee on the short films. */
  readonly mag?: number;
  /** External rotation of the limb + and flexion of the knee on the films from in front, deg. */
  readonly rotation?: number;
  readonly flexion?: number;
  /** Rotation of the limb on the film from the side, external +, deg; absent = a true lateral. */
  readonly siderotation?: number;
  /** How far the calibration ball lies in front of (+) or behind the knee's plane, mm. */
  readonly balldepth?: number;
  readonly ball?: boolean;
  readonly monochrome1?: boolean;
  readonly cr?: boolean;
  /** How the file states scale. */
  readonly scale?: 'none' | 'ermf' | 'geometry' | 'fiducial';
  /** What the case takes its scale from. */
  readonly known?: 'ball' | 'tray';
  readonly bits?: 12 | 14;
  /** Pixels of the films as a share of the usual number, for quick looks and tests. */
  readonly resolution?: number;
  /** Native knee: nothing replaced. */
  readonly native?: boolean;
  readonly other?: 'native' | 'replaced';
  readonly jointline?: number;
  readonly varus?: number;
  readonly subsidence?: number;
  readonly tibialloss?: number;
  readonly femoralloss?: number;
  readonly lucent?: number;
  /** Insert in place, mm. */
  readonly insert?: number;
  readonly hardware?: 'none' | 'screws' | 'staple';
  /** Also an AP film of the knee before its first replacement. */
  readonly earlier?: boolean;
  readonly marks?: 'truth' | 'jittered';
  /** Canals traced on the films. */
  readonly canals?: boolean;
  readonly noise?: boolean;
}

type Reader = (text: string) => unknown;

const flag: Reader = (t) => (t === 'yes' || t === 'true' ? true : t === 'no' || t === 'false' ? false : undefined);
const within =
  (low: number, high: number): Reader =>
  (t) => {
    const v = Number(t);
    return t.trim() !== '' && Number.isFinite(v) && v >= low && v <= high ? v : undefined;
  };
const oneOf =
  (...names: string[]): Reader =>
  (t) =>
    names.includes(t) ? t : undefined;

/** The grammar: name, what it accepts in words, what it does, and how it is read. */
const GRAMMAR: Readonly<Record<keyof Vary, readonly [accepts: string, does: string, read: Reader]>> = {
  ideal: ['yes, no', 'nearly parallel rays, no rotation, no flexion, no lean: films show the true angles', flag],
  side: ['right, left', 'side of the replaced knee', oneOf('right', 'left')],
  sex: ['female, male', 'sex of the person drawn', oneOf('female', 'male')],
  mag: ['1.02 to 1.4', 'magnification at the knee on the short films', within(1.02, 1.4)],
  rotation: ['-30 to 30 deg', 'rotation of the limb on films from in front, external +', within(-30, 30)],
  siderotation: ['-20 to 20 deg', 'rotation of the limb on the film from the side, external +', within(-20, 20)],
  flexion: ['0 to 40 deg', 'flexion of the knee on films from in front', within(0, 40)],
  balldepth: ['-60 to 60 mm', 'ball in front of (+) or behind (-) the plane of the knee', within(-60, 60)],
  ball: ['yes, no', 'calibration ball of 25 mm on the films', flag],
  monochrome1: ['yes, no', 'pixels stored with bone dark (MONOCHROME1)', flag],
  cr: ['yes, no', 'written as Computed Radiography instead of Digital X-Ray', flag],
  scale: [
    'none, ermf, geometry, fiducial',
    'what the file says of scale: detector spacing alone, with a magnification factor, or a calibrated spacing',
    oneOf('none', 'ermf', 'geometry', 'fiducial'),
  ],
  known: ['ball, tray', 'object of known size from which case.json takes its scale', oneOf('ball', 'tray')],
  bits: ['12, 14', 'bits stored', (t) => (t === '12' ? 12 : t === '14' ? 14 : undefined)],
  resolution: ['0.05 to 1', 'share of the usual number of pixels along each side', within(0.05, 1)],
  native: ['yes, no', 'no replacement in either knee', flag],
  other: ['native, replaced', 'the other knee', oneOf('native', 'replaced')],
  jointline: ['-6 to 14 mm', 'femoral component raised (+) over the native joint line', within(-6, 14)],
  varus: ['-8 to 12 deg', 'tray in varus (+)', within(-8, 12)],
  subsidence: ['0 to 10 mm', 'tray sunk at its middle', within(0, 10)],
  tibialloss: ['0 to 20 mm', 'bone lost under the medial half of the tray', within(0, 20)],
  femoralloss: ['0 to 15 mm', 'bone lost behind the distal part of the component, medially', within(0, 15)],
  insert: ['8 to 26 mm', 'height of the insert in place', within(8, 26)],
  lucent: ['0 to 3 mm', 'lucent line under the tray', within(0, 3)],
  hardware: ['none, screws, staple', 'old hardware in the tibia', oneOf('none', 'screws', 'staple')],
  earlier: ['yes, no', 'also a film of the knee before its first replacement', flag],
  marks: [
    'truth, jittered',
    'marks in case.json: the true points, or as a person would place them',
    oneOf('truth', 'jittered'),
  ],
  canals: ['yes, no', 'walls of both canals traced on the films', flag],
  noise: ['yes, no', 'quantum noise', flag],
};

/** One line a name, for `--help`. */
export const VARY_HELP: string = Object.entries(GRAMMAR)
  .map(([name, [accepts, does]]) => `  ${`${name}=`.padEnd(14)}${does} (${accepts})`)
  .join('\n');

const isName = (name: string): name is keyof Vary => Object.hasOwn(GRAMMAR, name);

/**
 * Reads `name=value` texts, as given to `--vary`. Refuses an unknown name, a missing value, a value outside its
 * range and a name given twice, and says what is accepted.
 */
export function parseVary(texts: readonly string[]): Outcome<Vary> {
  const found: Record<string, unknown> = {};
  for (const text of texts) {
    const [name = '', value, ...rest] = text.split('=');
    if (!isName(name))
      return cannot({
        code: 'unknown-variation',
        message: `There is no variation called "${name}".`,
        field: text,
        mend: `Choose one of: ${Object.keys(GRAMMAR).join(', ')}.`,
      });
    const [accepts, , read] = GRAMMAR[name];
    const got = value === undefined || rest.length > 0 ? undefined : read(value);
    if (got === undefined)
      return cannot({
        code: 'variation-out-of-range',
        message: `"${text}" is not understood: ${name} takes ${accepts}.`,
        field: name,
        mend: `Write ${name}= and one of: ${accepts}.`,
      });
    if (Object.hasOwn(found, name))
      return cannot({
        code: 'variation-twice',
        message: `${name} is given twice.`,
        field: name,
        mend: `Give ${name} once.`,
      });
    found[name] = got;
  }
  return ok(found as Vary);
}
