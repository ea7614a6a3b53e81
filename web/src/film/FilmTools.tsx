import { useState } from 'react';
import type { KeyWish } from '../gestures/keys.ts';
import { ZoomButtons } from './ZoomButtons.tsx';

interface Props {
  readonly windowing: boolean;
  readonly inverted: boolean;
  readonly turnDeg: number;
  readonly onWish: (wish: KeyWish) => void;
  /** Shows the knee large; null while nothing tells where it is. */
  readonly onKnee?: (() => void) | null;
}

/** The few buttons over the film; each has a key as well. On a small film they wait behind one button. */
export function FilmTools({ windowing, inverted, turnDeg, onWish, onKnee = null }: Props) {
  const [open, setOpen] = useState(false);
  const [turning, setTurning] = useState(false);
  return (
    <div className={`film-tools${open ? ' is-open' : ''}`} role="toolbar" aria-label="View of the film">
      <button type="button" className="film-tools-all" aria-expanded={open} onClick={() => setOpen(!open)}>
        View
      </button>
      <ZoomButtons what="film" onWish={onWish} />
      {onKnee && (
        <button type="button" onClick={onKnee}>
          Knee
        </button>
      )}
      <button
        type="button"
        title="Drag or wheel sets brightness and contrast (W; or drag with the second button, or wheel with Alt)"
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
      <button
        type="button"
        title="Turn the film (T by a quarter, Q and E by a degree)"
        aria-expanded={turning}
        onClick={() => setTurning(!turning)}
      >
        Turn
      </button>
      {turning && <Turns turnDeg={turnDeg} onWish={onWish} />}
      <button type="button" title="View and greys as at the start (R)" onClick={() => onWish({ kind: 'reset' })}>
        Reset
      </button>
    </div>
  );
}

const TURNS = [
  [-90, '↺ 90°', 'A quarter anticlockwise'],
  [90, '90° ↻', 'A quarter clockwise'],
  [-1, '↺ 1°', 'One degree anticlockwise'],
  [1, '1° ↻', 'One degree clockwise'],
] as const;

function Turns({ turnDeg, onWish }: Pick<Props, 'turnDeg' | 'onWish'>) {
  return (
    <div className="film-turns">
      {TURNS.map(([deg, sign, words]) => (
        <button key={deg} type="button" onClick={() => onWish({ kind: 'turn', deg })}>
          <span aria-hidden="true">{sign}</span>
          <span className="unseen">{words}</span>
        </button>
      ))}
      <button type="button" disabled={turnDeg === 0} onClick={() => onWish({ kind: 'upright' })}>
        Upright
      </button>
    </div>
  );
}
