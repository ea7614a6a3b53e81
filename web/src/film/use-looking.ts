import { type RefObject, useRef, useState } from 'react';
import type { KeyWish } from '../gestures/keys.ts';
import type { Wish } from '../gestures/pointer.ts';
import { dragWindow, type GreyWindow } from './grey.ts';
import { type FilmSize, fit, type Place, pan, refit, turn, type Viewport, zoom } from './viewport.ts';

/** What is looked at, how grey, and how both are changed. */
export interface Looked {
  readonly size: FilmSize;
  readonly view: Viewport;
  readonly setView: (next: Viewport) => void;
  readonly grey: GreyWindow;
  readonly setGrey: (next: GreyWindow) => void;
  readonly startGrey: GreyWindow;
  /** Span of the film's values. */
  readonly range: number;
}

export interface Looking {
  /** A hand moves the film at this moment. */
  readonly moving: boolean;
  /** A drag with the main button sets the grey window. */
  readonly windowing: boolean;
  /** Newest view and greys: gestures and keys come faster than renders. */
  readonly now: RefObject<{ view: Viewport; grey: GreyWindow }>;
  readonly look: (next: Viewport) => void;
  /** Carries out what only concerns the look of the film; false = it is somebody else's wish. */
  readonly carryOut: (wish: Wish | KeyWish, middle?: Place) => boolean;
}

const SETTLED_MS = 160;

/** Pan, zoom, turn, grey window: the same for every film that is looked at, with marks on it or without. */
export function useLooking({ size, view, setView, grey, setGrey, startGrey, range }: Looked): Looking {
  const [moving, setMoving] = useState(false);
  const [windowing, setWindowing] = useState(false);
  const rest = useRef(0);
  const now = useRef({ view, grey });
  now.current = { view, grey };

  const look = (next: Viewport): void => {
    now.current.view = next;
    setView(next);
    setMoving(true);
    window.clearTimeout(rest.current);
    rest.current = window.setTimeout(() => setMoving(false), SETTLED_MS);
  };
  const regrey = (next: GreyWindow): void => {
    now.current.grey = next;
    setGrey(next);
  };
  const carryOut = (wish: Wish | KeyWish, middle?: Place): boolean => {
    const { view: v, grey: g } = now.current;
    switch (wish.kind) {
      case 'pan':
        look(pan(v, wish, size));
        return true;
      case 'zoom': {
        const at = 'at' in wish ? wish.at : (middle ?? { x: v.width / 2, y: v.height / 2 });
        look(zoom(v, wish.factor, at, size));
        return true;
      }
      case 'turn':
        look(turn(v, wish.deg, size));
        return true;
      case 'upright':
        look(turn(v, -v.turnDeg, size));
        return true;
      case 'window':
        regrey(dragWindow(g, wish, range));
        return true;
      case 'fit':
        look(refit(v, size));
        return true;
      case 'reset':
        regrey(startGrey);
        look(fit(v, size, v.mirrored));
        return true;
      case 'invert':
        regrey({ ...g, inverted: !g.inverted });
        return true;
      case 'window-mode':
        setWindowing(!windowing);
        return true;
      default:
        return false;
    }
  };
  return { moving, windowing, now, look, carryOut };
}
