import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { markKey } from '../case/desk.tsx';
import type { MarkPoint } from '../gestures/pointer.ts';
import { number } from '../parts/words.ts';
import { toScreen, type Viewport } from './viewport.ts';

interface Props {
  readonly marks: readonly Mark[];
  readonly view: Viewport;
  readonly selected: MarkPoint | null;
  readonly pointedAt: ReadonlySet<string>;
  readonly onSelect: (point: MarkPoint) => void;
}

/** Below this many screen pixels for a film pixel the marks of a knee crowd: rings become dots. */
const FAR = 0.3;

interface Handle extends MarkPoint {
  readonly name: string;
  readonly mark: Mark;
  readonly title: string;
  readonly told: string;
}

/** One handle for each point of each mark. */
const handlesOf = (mark: Mark): readonly Handle[] =>
  mark.points.map((point, index) => {
    const key = markKey(mark);
    const { label, outline } = landmark(mark.landmark);
    const which = outline ? `, point ${index + 1} of ${mark.points.length}` : '';
    const where = `Column ${number(point.x, 'px')}, row ${number(point.y, 'px')}`;
    return {
      key,
      index,
      name: `${key} ${index}`,
      mark,
      title: outline ? `${label} ${index + 1}` : label,
      told: `${label}, ${mark.side}${which}. ${where}. Arrow keys move it.`,
    };
  });

/**
 * The marks on the film: each point a ring with a clear middle, so that what is marked stays visible. They
 * take the focus for the keyboard; pointers are answered by the film as a whole.
 */
export function MarkHandles({ marks, view, selected, pointedAt, onSelect }: Props) {
  return marks.flatMap(handlesOf).map((handle) => {
    const { mark, key, index } = handle;
    const point = mark.points[index];
    if (!point) return null;
    const at = toScreen(view, point);
    const isSelected = selected?.key === key && selected.index === index;
    const classes = ['mark', landmark(mark.landmark).outline ? 'is-outline' : ''];
    if (view.scale < FAR) classes.push('is-far');
    if (isSelected) classes.push('is-selected');
    if (pointedAt.has(mark.landmark)) classes.push('is-pointed-at');
    const outside = at.x < 0 || at.y < 0 || at.x > view.width || at.y > view.height;
    if (outside) classes.push('is-outside');
    return (
      <button
        key={handle.name}
        type="button"
        className={classes.join(' ')}
        style={{ left: at.x, top: at.y }}
        aria-pressed={isSelected}
        aria-label={handle.told}
        data-mark={mark.landmark}
        data-side={mark.side}
        data-index={index}
        onFocus={() => onSelect({ key, index })}
      >
        <svg viewBox="-20 -20 40 40" aria-hidden="true">
          <circle className="mark-shade" r="7" />
          <circle className="mark-ring" r="7" />
          <circle className="mark-dot" r="1.3" />
          {isSelected && <path className="mark-cross" d="M-19 0h9M10 0h9M0-19v9M0 10v9" />}
        </svg>
        {isSelected && <span className="mark-label">{handle.title}</span>}
      </button>
    );
  });
}
