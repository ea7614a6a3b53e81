import type { Place } from '../film/viewport.ts';
import type { Wish } from './pointer.ts';

/** Two fingers on the film: their middle drags it, their distance zooms it. */
export interface Pinch {
  readonly fingers: ReadonlyMap<number, Place>;
}

const middle = (a: Place, b: Place): Place => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
const apart = (a: Place, b: Place): number => Math.hypot(a.x - b.x, a.y - b.y);

/** The pinch after one of its fingers moved, and what that asks for. */
export function movePinch(pinch: Pinch, id: number, at: Place): { pinch: Pinch; wishes: readonly Wish[] } {
  if (!pinch.fingers.has(id)) return { pinch, wishes: [] };
  const next: Pinch = { fingers: new Map(pinch.fingers).set(id, at) };
  const [a, b] = [...pinch.fingers.values()];
  const [c, d] = [...next.fingers.values()];
  if (!a || !b || !c || !d) return { pinch: next, wishes: [] };
  const [from, to] = [middle(a, b), middle(c, d)];
  const wishes: Wish[] = [{ kind: 'pan', dx: to.x - from.x, dy: to.y - from.y }];
  // Fingers that touch give no distance to compare with.
  if (apart(a, b) > 1) wishes.push({ kind: 'zoom', factor: apart(c, d) / apart(a, b), at: to });
  return { pinch: next, wishes };
}
