import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';

interface Props {
  readonly count: number;
  readonly slice: number;
  readonly marks: readonly Mark[];
  readonly onSlice: (next: number) => void;
}

/** The whole stack as one upright bar, head on top, with a line wherever something is marked. */
export function SliceSlider({ count, slice, marks, onSlice }: Props) {
  const marked = new Map<number, string>();
  for (const m of marks) {
    if (m.slice === undefined) continue;
    const before = marked.get(m.slice);
    marked.set(m.slice, before ? `${before}; ${landmark(m.landmark).label}` : landmark(m.landmark).label);
  }
  return (
    <div className="slice-slider">
      <div className="slice-marks" aria-hidden="true">
        {[...marked].map(([at, label]) => (
          <i key={at} title={label} style={{ bottom: `${(100 * at) / Math.max(count - 1, 1)}%` }} />
        ))}
      </div>
      <input
        type="range"
        aria-label="Slice"
        aria-valuetext={`Slice ${slice + 1} of ${count}`}
        min={1}
        max={count}
        value={slice + 1}
        onChange={(event) => onSlice(Number(event.target.value) - 1)}
      />
    </div>
  );
}
