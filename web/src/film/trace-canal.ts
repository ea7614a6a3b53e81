import type { CanalLevel, CanalTrace } from '@gapline/core/stems/canal-trace.ts';
import type { Place } from './viewport.ts';

/** The walls of one level, in the order in which they are pressed: across the bone, from one side to the other. */
export type Wall = keyof CanalLevel;

/** A level of a canal in the making, film pixels. */
export interface Tracing {
  readonly bone: CanalTrace['bone'];
  /** Whether the outer walls are pressed as well. */
  readonly outer: boolean;
  readonly presses: readonly Place[];
}

const INNER: readonly Wall[] = ['innerA', 'innerB'];
const ALL: readonly Wall[] = ['outerA', 'innerA', 'innerB', 'outerB'];

export const wallsAsked = (tracing: Tracing): readonly Wall[] => (tracing.outer ? ALL : INNER);

/** The wall that is asked for now. */
export const nextWall = (tracing: Tracing): Wall => wallsAsked(tracing)[tracing.presses.length] ?? 'innerA';

/** One more press: the level once both walls (or all four) are there. */
export function traceStep(
  tracing: Tracing,
  at: Place,
): { readonly tracing: Tracing; readonly level: CanalLevel | null } {
  const presses = [...tracing.presses, at];
  const [a, b, c, d] = presses;
  if (!tracing.outer && a && b) return { tracing: { ...tracing, presses: [] }, level: { innerA: a, innerB: b } };
  if (a && b && c && d)
    return { tracing: { ...tracing, presses: [] }, level: { innerA: b, innerB: c, outerA: a, outerB: d } };
  return { tracing: { ...tracing, presses }, level: null };
}

/** Takes back the last press of the level under way. */
export const takeBack = (tracing: Tracing): Tracing => ({ ...tracing, presses: tracing.presses.slice(0, -1) });
