import type { GreyWindow } from '../film/grey.ts';
import { ZoomButtons } from '../film/ZoomButtons.tsx';
import { namedWindow, WINDOW_WORDS, type WindowName } from './slice-windows.ts';
import type { StackKeyWish } from './stack-keys.ts';

interface Props {
  readonly grey: GreyWindow;
  /** Brightest value of the stack so far. */
  readonly most: number;
  readonly windowing: boolean;
  readonly onWish: (wish: StackKeyWish) => void;
}

const NAMES: readonly WindowName[] = ['bone', 'metal', 'soft'];

/** The few buttons over a stack; each has a key as well. */
export function StackTools({ grey, most, windowing, onWish }: Props) {
  return (
    <div className="film-tools is-open stack-tools" role="toolbar" aria-label="View of the slices">
      {NAMES.map((name, i) => (
        <button
          key={name}
          type="button"
          title={`Grey window for ${WINDOW_WORDS[name].toLowerCase()} (${i + 1})`}
          aria-pressed={isOn(grey, name, most)}
          onClick={() => onWish({ kind: 'named-window', name })}
        >
          {WINDOW_WORDS[name]}
        </button>
      ))}
      <button
        type="button"
        title="Drag or wheel sets brightness and contrast (W; or drag with the second button)"
        aria-pressed={windowing}
        onClick={() => onWish({ kind: 'window-mode' })}
      >
        Grey
      </button>
      <ZoomButtons what="slice" onWish={onWish} />
      <button
        type="button"
        title="One slice up, towards the head (Page up)"
        onClick={() => onWish({ kind: 'slices', by: 1 })}
      >
        <span aria-hidden="true">▲</span>
        <span className="unseen">Slice up</span>
      </button>
      <button
        type="button"
        title="One slice down, towards the feet (Page down)"
        onClick={() => onWish({ kind: 'slices', by: -1 })}
      >
        <span aria-hidden="true">▼</span>
        <span className="unseen">Slice down</span>
      </button>
    </div>
  );
}

function isOn(grey: GreyWindow, name: WindowName, most: number): boolean {
  const { low, high } = namedWindow(name, most);
  return grey.low === low && (name === 'metal' || grey.high === high);
}
