import { landmark } from '@gapline/core/landmarks/landmark-table.ts';
import type { Mark } from '@gapline/core/landmarks/mark.ts';
import { LEAST_OUTLINE } from '../case/marking.ts';

interface Props {
  readonly placing: { readonly landmark: Mark['landmark']; readonly side: Mark['side'] };
  /** Points of an outline placed so far. */
  readonly points: number;
}

/** What is to be placed on the film now. */
export function PlacingLine({ placing, points }: Props) {
  const { label, outline } = landmark(placing.landmark);
  return (
    <p className="placing-line" role="status">
      <strong>{label}</strong>, {placing.side}:{' '}
      {outline
        ? `press along the outline, ${LEAST_OUTLINE} points or more (${points} so far)`
        : 'press where it lies, or Enter for a crosshair'}
    </p>
  );
}
