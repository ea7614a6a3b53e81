import { FilmCanvas } from './FilmCanvas.tsx';
import type { GreyWindow } from './grey.ts';
import type { Level } from './pyramid.ts';
import { type Place, toFilm, type Viewport } from './viewport.ts';

const SIZE = 148;
/** From the point to the loupe's edge: clear of a finger. */
const CLEAR = 44;
const MAGNIFIED = 3;

interface Props {
  readonly levels: readonly Level[];
  readonly view: Viewport;
  readonly grey: GreyWindow;
  /** Screen place that is looked at. */
  readonly at: Place;
}

/** A magnified look at the point under the hand, beside it, with a fine cross on the very point. */
export function Loupe({ levels, view, grey, at }: Props) {
  const inside: Viewport = {
    ...view,
    width: SIZE,
    height: SIZE,
    centre: toFilm(view, at),
    scale: view.scale * MAGNIFIED,
  };
  const above = at.y - CLEAR - SIZE > 0;
  const left = Math.min(Math.max(at.x - SIZE / 2, 6), Math.max(view.width - SIZE - 6, 6));
  const top = above ? at.y - CLEAR - SIZE : Math.min(at.y + CLEAR, view.height - SIZE);
  return (
    <div className="loupe" style={{ left, top, width: SIZE, height: SIZE }} aria-hidden="true">
      <FilmCanvas levels={levels} view={inside} grey={grey} />
      <svg viewBox="0 0 148 148" aria-hidden="true">
        <path className="loupe-cross-shade" d="M74 34v32M74 82v32M34 74h32M82 74h32" />
        <path className="loupe-cross" d="M74 34v32M74 82v32M34 74h32M82 74h32" />
        <circle className="loupe-cross" cx="74" cy="74" r="1" />
      </svg>
    </div>
  );
}
