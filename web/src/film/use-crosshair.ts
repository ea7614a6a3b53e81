import { useEffect, useState } from 'react';
import type { Place, Viewport } from './viewport.ts';

/** Places on the screen from 0 to the far end. */
const within = (x: number, most: number): number => Math.min(Math.max(x, 0), most);

/**
 * Where a mark is about to be placed: the crosshair that keys move, and the loupe on it or under the pointer. Screen pixels
 * of the picture; both go away when nothing is placed any more.
 */
export function useCrosshair(placing: boolean) {
  const [at, setAt] = useState<Place | null>(null);
  const [loupe, setLoupe] = useState<Place | null>(null);
  const leave = (): void => {
    setLoupe(null);
    setAt(null);
  };
  useEffect(() => {
    if (placing) return;
    setLoupe(null);
    setAt(null);
  }, [placing]);
  return {
    at,
    loupe,
    setLoupe,
    show: setAt,
    leave,
    /** A pointer moves over the picture, or leaves it; `close` = what lies under it is to be seen large. */
    hover: (over: Place | null, close: boolean): void => {
      if (over) setLoupe(close ? over : null);
      else if (!at) setLoupe(null);
    },
    /** Moves it, from the middle of the picture at first. */
    move: ({ dx, dy }: { readonly dx: number; readonly dy: number }, view: Viewport): void => {
      const from = at ?? { x: view.width / 2, y: view.height / 2 };
      const next = { x: within(from.x + dx, view.width), y: within(from.y + dy, view.height) };
      setAt(next);
      setLoupe(next);
    },
  };
}
