import type { Outlines } from '../../catalogue/catalogue.ts';
import type { Trial } from './trial.ts';

type Spot = readonly [number, number];
const RAD = Math.PI / 180;

/** How far a set of points reaches towards the tibia at flexion t. */
const reach = (spots: readonly Spot[], t: number): number =>
  Math.max(...spots.map(([y, z]) => -y * Math.sin(t * RAD) - z * Math.cos(t * RAD)));

/** The same for the outline moved so that it touches z = 0 from above and y = 0 from before. */
function moved(spots: readonly Spot[]): (t: number) => number {
  const y0 = Math.min(...spots.map((s) => s[0]));
  const z0 = Math.min(...spots.map((s) => s[1]));
  const there = spots.map(([y, z]): Spot => [y - y0, z - z0]);
  return (t) => reach(there, t);
}

/** Turns the posterior surface proximally about the highest point, the foremost of these. */
function turned(spots: readonly Spot[], deg: number): readonly Spot[] {
  const top = Math.max(...spots.map((s) => s[1]));
  const front = Math.max(...spots.filter((s) => s[1] === top).map((s) => s[0]));
  const c = Math.cos(deg * RAD);
  const s = Math.sin(deg * RAD);
  return spots.map(([y, z]): Spot => [front + c * (y - front) + s * (z - top), top - s * (y - front) + c * (z - top)]);
}

/** What the shape of a component does besides where it stands. */
export interface Profile {
  /** Looser by so much at each angle of mid-flexion. */
  readonly looser: readonly number[];
  /** The posterior surface reaches so much further back. */
  readonly back: number;
}

export const ANGLES = [30, 45, 60] as const;
const PLAIN: Profile = { looser: [0, 0, 0], back: 0 };

export function profileOf(t: Trial, outlines: Outlines | undefined, flexionDeg: number): Profile {
  const spots = (outlines?.sagittal ?? []).flat();
  const target = t.state.targetOutline?.map(({ y, z }): Spot => [y, z]);
  if (spots.length === 0 || (flexionDeg === 0 && !target)) return PLAIN;
  const stands = flexionDeg === 0 ? spots : turned(spots, flexionDeg);
  const wanted = moved(target ?? spots);
  const has = moved(stands);
  return {
    looser: ANGLES.map((a) => wanted(a) - has(a)),
    back: Math.min(...spots.map((s) => s[0])) - Math.min(...stands.map((s) => s[0])),
  };
}
