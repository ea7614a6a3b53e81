import type { KeyWish } from '../gestures/keys.ts';

interface Props {
  readonly windowing: boolean;
  readonly inverted: boolean;
  readonly onWish: (wish: KeyWish) => void;
  /** Shows the knee large; null while nothing tells where it is. */
  readonly onKnee: (() => void) | null;
}

/** The few buttons over the film; each has a key as well. */
export function FilmTools({ windowing, inverted, onWish, onKnee }: Props) {
  return (
    <div className="film-tools" role="toolbar" aria-label="View of the film">
      <button type="button" title="Smaller (−)" onClick={() => onWish({ kind: 'zoom', factor: 0.8 })}>
        <span aria-hidden="true">−</span>
        <span className="unseen">Smaller</span>
      </button>
      <button type="button" title="Larger (+)" onClick={() => onWish({ kind: 'zoom', factor: 1.25 })}>
        <span aria-hidden="true">+</span>
        <span className="unseen">Larger</span>
      </button>
      <button type="button" title="Whole film (0)" onClick={() => onWish({ kind: 'fit' })}>
        Whole
      </button>
      {onKnee && (
        <button type="button" onClick={onKnee}>
          Knee
        </button>
      )}
      <button
        type="button"
        title="Drag sets brightness and contrast (W; or drag with the second button)"
        aria-pressed={windowing}
        onClick={() => onWish({ kind: 'window-mode' })}
      >
        Grey
      </button>
      <button
        type="button"
        title="Black and white changed over (I)"
        aria-pressed={inverted}
        onClick={() => onWish({ kind: 'invert' })}
      >
        Invert
      </button>
      <button type="button" title="View and greys as at the start (R)" onClick={() => onWish({ kind: 'reset' })}>
        Reset
      </button>
    </div>
  );
}
