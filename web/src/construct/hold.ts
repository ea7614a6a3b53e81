import type { LengthPin } from '@gapline/core/gaps/pinned/pinned.ts';
import type { Reach } from '@gapline/core/gaps/pinned/reach.ts';

/** What a hand can take hold of on a film. */
export type Grip = 'femur' | 'tray' | 'slope' | 'insert' | 'femoral-stem' | 'tibial-stem';

/** A place in the frame of a component on its film, mm. */
export interface Mm {
  readonly across: number;
  readonly up: number;
}

/** One component in the hand: where it stood when it was taken, and which way it goes since. */
export interface Hold {
  readonly grip: Grip;
  readonly from: Mm;
  /** Not decided before the hand has moved a little. */
  readonly way: keyof Mm | null;
  /** How far the length that is moved can go; null = not asked yet, or no length. */
  readonly reach: (Reach & { readonly pin: LengthPin }) | null;
  /** What stops it where it stands now, in words. */
  readonly stop: string | null;
}

/** Moved less than this, mm, a hand has not chosen its way yet. */
const UNDECIDED_MM = 0.7;

/** Tenths of a millimetre, as a hand fixes a length. */
export const tenth = (mm: number): number => {
  const rounded = Math.round(mm * 10) / 10;
  return rounded === 0 ? 0 : rounded;
};

/**
 * The hold after the hand has gone to `to`: a component goes along or across, never both at once, in the way in which
 * the hand went first; across only where the solver leaves it that freedom.
 */
export function holdOn(hold: Hold, to: Mm, goesAcross: boolean): Hold {
  if (hold.way !== null) return hold;
  const by = { across: Math.abs(to.across - hold.from.across), up: Math.abs(to.up - hold.from.up) };
  if (Math.max(goesAcross ? by.across : 0, by.up) < UNDECIDED_MM) return hold;
  return { ...hold, way: goesAcross && by.across > by.up ? 'across' : 'up' };
}

export const takenUp = (grip: Grip, from: Mm): Hold => ({ grip, from, way: null, reach: null, stop: null });

/** The length that a grip moves in one way; null = it moves none. */
export function lengthOf(grip: Grip, way: keyof Mm): LengthPin | null {
  if (grip === 'femur') return way === 'up' ? 'femurProximalMm' : 'femurAnteriorMm';
  return grip === 'tray' && way === 'up' ? 'trayMm' : null;
}

/** A length within its reach: where it ends up, and whether it was stopped. */
export function withinReach(wantedMm: number, reach: Reach): { readonly mm: number; readonly stopped: boolean } {
  const mm = Math.min(Math.max(tenth(wantedMm), reach.lowMm), reach.highMm);
  return { mm, stopped: mm !== tenth(wantedMm) };
}

/** Of some values the nearest to the wanted one, the first of two equally near. */
export function nearest<T>(values: readonly T[], far: (value: T) => number): T | null {
  let best: T | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const value of values) {
    const by = far(value);
    if (by >= least) continue;
    least = by;
    best = value;
  }
  return best;
}
