import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { memo } from 'react';
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

/**
 * The marks on the film: each point a ring with a clear middle, so that what is marked stays visible. They
 * take the focus for the keyboard; pointers are answered by the film as a whole.
 */
export function MarkHandles({ marks, view, selected, pointedAt, onSelect }: Props) {
  return marks.flatMap((mark) => {
    const key = markKey(mark);
    return mark.points.map((point, index) => {
      const at = toScreen(view, point);
      return (
        <MarkHandle
          key={handleName(key, index)}
          mark={mark}
          index={index}
          left={at.x}
          top={at.y}
          isOutside={at.x < 0 || at.y < 0 || at.x > view.width || at.y > view.height}
          isFar={view.scale < FAR}
          isInRightHalf={at.x > view.width / 2}
          isSelected={selected?.key === key && selected.index === index}
          isPointedAt={pointedAt.has(mark.landmark)}
          onSelect={onSelect}
        />
      );
    });
  });
}

const handleName = (key: string, index: number): string => `${key} ${index}`;

interface HandleProps {
  readonly mark: Mark;
  readonly index: number;
  /** Screen pixels of the film area. */
  readonly left: number;
  readonly top: number;
  readonly isOutside: boolean;
  readonly isFar: boolean;
  /** Then its name stands to its left. */
  readonly isInRightHalf: boolean;
  readonly isSelected: boolean;
  readonly isPointedAt: boolean;
  readonly onSelect: (point: MarkPoint) => void;
}

const MarkHandle = memo(function MarkHandle(props: HandleProps) {
  const { mark, index, isSelected } = props;
  const { label, outline } = landmark(mark.landmark);
  const classes = [
    'mark',
    outline && 'is-outline',
    props.isFar && 'is-far',
    props.isInRightHalf && 'is-in-right-half',
    isSelected && 'is-selected',
    props.isPointedAt && 'is-pointed-at',
    props.isOutside && 'is-outside',
  ];
  return (
    <button
      type="button"
      className={classes.filter(Boolean).join(' ')}
      style={{ left: props.left, top: props.top }}
      aria-pressed={isSelected}
      aria-label={told(mark, index)}
      data-mark={mark.landmark}
      data-side={mark.side}
      data-index={index}
      onFocus={() => props.onSelect({ key: markKey(mark), index })}
    >
      <svg viewBox="-20 -20 40 40" aria-hidden="true">
        <circle className="mark-shade" r="7" />
        <circle className="mark-ring" r="7" />
        <circle className="mark-dot" r="1.3" />
        {isSelected && <path className="mark-cross" d="M-19 0h9M10 0h9M0-19v9M0 10v9" />}
      </svg>
      {isSelected && <span className="mark-label">{outline ? `${label} ${index + 1}` : label}</span>}
    </button>
  );
});

/** What is read out for one point of a mark. */
function told(mark: Mark, index: number): string {
  const { label, outline } = landmark(mark.landmark);
  const point = mark.points[index];
  const which = outline ? `, point ${index + 1} of ${mark.points.length}` : '';
  const where = point ? `Column ${number(point.x, 'px')}, row ${number(point.y, 'px')}. ` : '';
  return `${label}, ${mark.side}${which}. ${where}Arrow keys move it.`;
}
