import type { StemVerdict } from '@gapline/core/stems/judge-stem.ts';
import { number } from '../../parts/words.ts';

interface Props {
  readonly offset: NonNullable<StemVerdict['offset']>;
  readonly bone: 'femur' | 'tibia';
  readonly side: 'right' | 'left';
}

const [SIZE, MIDDLE, RADIUS] = [148, 74, 46];
/** Drawn length of one millimetre of offset, and the longest hand. */
const [MM, LONGEST] = [6, 40];

/** Size and clock hour of an offset on a dial seen from the joint: 12 is the front. */
export function OffsetDial({ offset, bone, side }: Props) {
  const { clock, sizeMm, words, choice } = offset;
  const lateralIsRight = (bone === 'tibia') === (side === 'right');
  const angle = clock === null ? null : (clock * Math.PI) / 6;
  const hand = Math.min(sizeMm * MM, LONGEST);
  const tip = angle === null ? null : { x: MIDDLE + hand * Math.sin(angle), y: MIDDLE - hand * Math.cos(angle) };
  const hour = clock === null ? 'direction not known' : `${clockWords(clock)} o'clock`;
  return (
    <figure className="offset-dial">
      <svg viewBox={`0 0 ${SIZE} ${SIZE}`} role="img" aria-label={`Offset ${number(sizeMm)} mm, ${hour}: ${words}`}>
        <circle className="dial-face" cx={MIDDLE} cy={MIDDLE} r={RADIUS} />
        {Array.from({ length: 12 }, (_, i) => {
          const a = (i * Math.PI) / 6;
          const long = i % 3 === 0 ? 8 : 4;
          const [s, c] = [Math.sin(a), -Math.cos(a)];
          return (
            <path
              key={a}
              className="dial-tick"
              d={`M${MIDDLE + RADIUS * s} ${MIDDLE + RADIUS * c}L${MIDDLE + (RADIUS - long) * s} ${MIDDLE + (RADIUS - long) * c}`}
            />
          );
        })}
        <text x={MIDDLE} y="14" textAnchor="middle">
          front
        </text>
        <text x={MIDDLE} y={SIZE - 5} textAnchor="middle">
          back
        </text>
        <text x={SIZE - 2} y={MIDDLE + 4} textAnchor="end">
          {lateralIsRight ? 'lat' : 'med'}
        </text>
        <text x="2" y={MIDDLE + 4}>
          {lateralIsRight ? 'med' : 'lat'}
        </text>
        {tip && <path className="dial-hand" d={`M${MIDDLE} ${MIDDLE}L${tip.x.toFixed(1)} ${tip.y.toFixed(1)}`} />}
        {tip && <circle className="dial-tip" cx={tip.x} cy={tip.y} r="5" />}
        <circle className="dial-stem" cx={MIDDLE} cy={MIDDLE} r="4" />
      </svg>
      <figcaption>
        <strong>
          {number(sizeMm)} mm{clock === null ? '' : ` at ${clockWords(clock)}`}
        </strong>
        <span>{words}</span>
        <small>
          {choice.coupler?.name ?? 'No coupler'}, {number(choice.restMm)} mm left
        </small>
      </figcaption>
    </figure>
  );
}

const clockWords = (clock: number): string => {
  const hour = Math.floor(clock);
  return Number.isInteger(clock) ? String(clock) : `${hour === 0 ? 12 : hour} and a half`;
};
