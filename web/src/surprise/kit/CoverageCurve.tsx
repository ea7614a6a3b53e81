import type { KitStep } from '@gapline/core/kit/kit-answer.ts';
import { money, pct } from '@gapline/core/plan/told/shares.ts';
import { useMemo, useRef } from 'react';
import { useWidth } from '../use-width.ts';
import { curveScale } from './curve-scale.ts';

interface Props {
  readonly curve: readonly KitStep[];
  /** The room that is chosen, which need not lie on the curve. */
  readonly chosen: { readonly cost: number; readonly share: number; readonly bring: readonly string[] };
  /** Share asked for, 0 to 1. */
  readonly asked: number;
  readonly currency: string;
  readonly nameOf: (ref: string) => string;
  readonly onChoose: (step: KitStep) => void;
}

const HEIGHT = 250;
const BOX = { left: 62, top: 14, bottom: HEIGHT - 42 };

/** Cost against coverage: every step is the cheapest room that covers as much, and can be chosen by a tap or by arrow keys. */
export function CoverageCurve(props: Props) {
  const { curve, chosen, asked, currency, nameOf, onChoose } = props;
  const box = useRef<HTMLFieldSetElement>(null);
  const width = useWidth(box, 600);
  const scale = useMemo(() => curveScale([...curve, chosen], { ...BOX, right: width - 20 }), [curve, chosen, width]);
  const { x, y } = scale;
  const onCurve = curve.find((step) => sameRoom(step.bring, chosen.bring));
  return (
    <>
      <fieldset className="curve" ref={box}>
        <legend>Cost against coverage: choose a room</legend>
        <svg width={width} height={HEIGHT} aria-hidden="true">
          <Axes scale={scale} width={width} currency={currency} />
          <path className="curve-asked" d={`M${x(asked)} ${BOX.top}V${BOX.bottom}`} />
          <text className="curve-word" x={x(asked) - 5} y={BOX.top + 11} textAnchor="end">
            asked {pct(asked)}
          </text>
          <path className="curve-line" d={stairs(curve, scale)} />
          {!onCurve && <path className="curve-by-hand" d={diamond(x(chosen.share), y(chosen.cost))} />}
        </svg>
        {curve.map((step) => (
          <label
            key={`${step.cost} ${step.share}`}
            className={`curve-point${step === onCurve ? ' is-chosen' : ''}${step.proven ? '' : ' is-open'}`}
            style={{ left: x(step.share), top: y(step.cost) }}
            title={stepWords(step, currency)}
          >
            <input
              type="radio"
              name="kit-curve"
              checked={step === onCurve}
              onChange={() => onChoose(step)}
              aria-label={stepWords(step, currency)}
            />
          </label>
        ))}
      </fieldset>
      <p className="table-note">
        Each point is the cheapest room that answers as many openings; a full point is proven, an open one may still be
        beaten. The scale is stretched towards 100 %.{!onCurve && ' The diamond is the room chosen by hand.'}
      </p>
      <details className="curve-table">
        <summary>The curve in numbers</summary>
        <table>
          <thead>
            <tr>
              <th scope="col">Answered</th>
              <th scope="col">Cost</th>
              <th scope="col">Against the step before</th>
            </tr>
          </thead>
          <tbody>
            {curve.map((step, i) => (
              <tr key={`${step.cost} ${step.share}`} className={step === onCurve ? 'is-chosen' : undefined}>
                <td className="share-number">{pct(step.share)}</td>
                <td className="share-number">{money(step.cost, currency)}</td>
                <td>{difference(curve[i - 1]?.bring ?? [], step.bring, nameOf)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  );
}

const stepWords = (step: KitStep, currency: string): string =>
  `${pct(step.share)} answered, ${money(step.cost, currency)}, ${step.bring.length} sets${step.proven ? '' : ', not proven'}`;

export const sameRoom = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((ref) => b.includes(ref));

/** What comes and what goes from one room to the next. */
function difference(before: readonly string[], after: readonly string[], nameOf: (ref: string) => string): string {
  const come = after.filter((ref) => !before.includes(ref)).map((ref) => `+ ${nameOf(ref)}`);
  const gone = before.filter((ref) => !after.includes(ref)).map((ref) => `− ${nameOf(ref)}`);
  return [...come, ...gone].join(', ');
}

/** From step to step: the cost holds until more is covered. */
function stairs(curve: readonly KitStep[], { x, y }: ReturnType<typeof curveScale>): string {
  return curve.map((s, i) => (i === 0 ? `M${x(s.share)} ${y(s.cost)}` : `V${y(s.cost)}H${x(s.share)}`)).join('');
}

const diamond = (x: number, y: number): string => `M${x} ${y - 8}L${x + 8} ${y}L${x} ${y + 8}L${x - 8} ${y}Z`;

function Axes(props: {
  readonly scale: ReturnType<typeof curveScale>;
  readonly width: number;
  readonly currency: string;
}) {
  const { x, y, shareTicks, costTicks } = props.scale;
  return (
    <g className="curve-axes">
      {costTicks.map((cost) => (
        <g key={cost}>
          <path className="curve-grid" d={`M${BOX.left} ${y(cost)}H${props.width - 20}`} />
          <text className="curve-word" x={BOX.left - 8} y={y(cost) + 4} textAnchor="end">
            {cost.toLocaleString('en')}
          </text>
        </g>
      ))}
      {shareTicks.map((share) => (
        <g key={share}>
          <path className="curve-tick" d={`M${x(share)} ${BOX.bottom}v5`} />
          <text className="curve-word" x={x(share)} y={BOX.bottom + 19} textAnchor="middle">
            {Math.round(share * 1000) / 10} %
          </text>
        </g>
      ))}
      <text className="curve-word" x={BOX.left - 8} y={BOX.top} textAnchor="end">
        {props.currency}
      </text>
      <text className="curve-word" x={props.width - 20} y={BOX.bottom + 36} textAnchor="end">
        openings with an answer
      </text>
    </g>
  );
}
