import type { MarkPoint } from '../gestures/pointer.ts';
import type { ToolHandle } from './tool-in-hand.ts';
import { toScreen, type Viewport } from './viewport.ts';

interface Props {
  readonly handles: readonly ToolHandle[];
  readonly view: Viewport;
  readonly selected: MarkPoint | null;
  readonly onSelect: (point: MarkPoint) => void;
}

/** Points of what is being drawn or traced: small squares, so that they are not taken for marks. */
export function ToolHandles({ handles, view, selected, onSelect }: Props) {
  return handles.map((handle) => {
    const { key, index } = handle;
    const at = toScreen(view, handle.at);
    const isSelected = selected?.key === key && selected.index === index;
    return (
      <button
        key={`${key} ${index}`}
        type="button"
        className={`mark tool-handle${isSelected ? ' is-selected' : ''}${handle.fixed ? ' is-fixed' : ''}`}
        style={{ left: at.x, top: at.y }}
        aria-pressed={isSelected}
        aria-label={`${handle.label}. Arrow keys move it.`}
        data-handle={`${key} ${index}`}
        onFocus={() => onSelect({ key, index })}
      >
        <svg viewBox="-20 -20 40 40" aria-hidden="true">
          <rect className="tool-handle-shade" x="-4.5" y="-4.5" width="9" height="9" />
          <rect className="tool-handle-box" x="-4.5" y="-4.5" width="9" height="9" />
          {isSelected && <path className="mark-cross" d="M-19 0h9M10 0h9M0-19v9M0 10v9" />}
        </svg>
      </button>
    );
  });
}
