import type { Side } from '@gapline/core/landmarks/side.ts';
import type { Scar } from '@gapline/core/work-up/history.ts';
import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react';
import { useSession } from '../case/desk.tsx';
import { Remove } from './HistoryFacts.tsx';
import { Fold, NumberLine } from './inputs.tsx';
import { movedPoint, onOutline, type ScarPoint, thinned } from './scar-points.ts';
import { addTo, fieldOf, itemOf, newId, type Slot, useSlot } from './slot.ts';
import { Three } from './Tri.tsx';

const [WIDTH, HEIGHT] = [220, 300];

/** Scars on an outline of the knee seen from the front, drawn by mouse, finger or pen, or set by keys. */
export function ScarFacts() {
  const list = useSlot<readonly Scar[]>('/workUp/history/scars');
  const side = useSession((s) => s.shown.side);
  const all = list.value ?? [];
  return (
    <Fold title="Scars" said={all.length || 'none drawn'}>
      <div className="scars">
        <KneeOutline side={side} list={list} />
        <div className="scar-list">
          {all.map((scar, i) => (
            <ScarLine key={scar.id} number={i + 1} side={side} slot={itemOf(list, scar.id)} />
          ))}
          <button
            type="button"
            onClick={() =>
              addTo(list, {
                id: newId(),
                points: [
                  [0.5, 0.2],
                  [0.5, 0.8],
                ],
              })
            }
          >
            Add by keyboard
          </button>
        </div>
      </div>
    </Fold>
  );
}

/** Where medial stands on the picture: of a right knee seen from the front it is on the right. */
const drawnX = (x: number, side: Side): number => WIDTH * (side === 'right' ? 1 - x : x);
const place = ([x, y]: ScarPoint, side: Side): string => `${drawnX(x, side).toFixed(1)} ${(y * HEIGHT).toFixed(1)}`;
const pathOf = (points: readonly ScarPoint[], side: Side): string =>
  points.map((p, i) => `${i === 0 ? 'M' : 'L'}${place(p, side)}`).join('');

function KneeOutline({ side, list }: { readonly side: Side; readonly list: Slot<readonly Scar[]> }) {
  const [stroke, setStroke] = useState<readonly ScarPoint[]>([]);
  const drawing = useRef(false);
  const at = (event: PointerEvent<SVGSVGElement>): ScarPoint => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = (event.clientX - box.left) / box.width;
    return onOutline([side === 'right' ? 1 - x : x, (event.clientY - box.top) / box.height]);
  };
  const end = (): void => {
    if (!drawing.current) return;
    drawing.current = false;
    const points = thinned(stroke);
    setStroke([]);
    if (points.length >= 2) addTo(list, { id: newId(), points });
  };
  const all = list.value ?? [];
  return (
    <figure className="knee-outline">
      <figcaption className="knee-sides">
        <span>{side === 'right' ? 'lateral' : 'medial'}</span>
        <span>{side === 'right' ? 'Right' : 'Left'} knee, from the front</span>
        <span>{side === 'right' ? 'medial' : 'lateral'}</span>
      </figcaption>
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={`Outline of the ${side} knee from the front with ${all.length} scars. Draw with mouse, finger or pen; by keyboard use Add by keyboard.`}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          drawing.current = true;
          setStroke([at(event)]);
        }}
        onPointerMove={(event) => {
          if (drawing.current) setStroke([...stroke, at(event)]);
        }}
        onPointerUp={end}
        onPointerCancel={() => {
          drawing.current = false;
          setStroke([]);
        }}
      >
        <g transform={side === 'right' ? `translate(${WIDTH} 0) scale(-1 1)` : undefined}>
          <path
            className="outline"
            d="M38 0C44 60 34 100 40 140 46 180 62 220 60 300M184 0C178 60 192 104 184 144 178 184 158 226 152 300"
          />
          <ellipse className="outline is-patella" cx="110" cy="128" rx="30" ry="34" />
          <path className="outline is-faint" d="M100 163 103 208M120 163 117 208M98 208Q110 222 122 208" />
        </g>
        {all.map((scar, i) => (
          <g key={scar.id}>
            <path className="scar" d={pathOf(scar.points, side)} />
            {scar.points[0] && (
              <text
                className="scar-number"
                x={drawnX(scar.points[0][0], side) + 6}
                y={Math.max(14, scar.points[0][1] * HEIGHT)}
              >
                {i + 1}
              </text>
            )}
          </g>
        ))}
        {stroke.length > 1 && <path className="scar is-new" d={pathOf(stroke, side)} />}
      </svg>
    </figure>
  );
}

function ScarLine({ number, side, slot }: { readonly number: number; readonly side: Side; readonly slot: Slot<Scar> }) {
  return (
    <div className="scar-line">
      <strong>Scar {number}</strong>
      <NumberLine label="Year" slot={fieldOf(slot, 'year')} />
      <EndButton which="start" number={number} side={side} slot={slot} />
      <EndButton which="end" number={number} side={side} slot={slot} />
      <Three label="Adherent" slot={fieldOf(slot, 'adherent')} words={{ yes: ['yes', 'yes'], no: ['no', 'no'] }} />
      <Remove what={`scar ${number}`} onRemove={() => slot.set(undefined)} />
    </div>
  );
}

/** One end of a scar, moved by the arrow keys: 2 % of the outline a press, 10 % with Shift. */
function EndButton({
  which,
  number,
  side,
  slot,
}: {
  readonly which: 'start' | 'end';
  readonly number: number;
  readonly side: Side;
  readonly slot: Slot<Scar>;
}) {
  const points = slot.value?.points ?? [];
  const index = which === 'start' ? 0 : points.length - 1;
  const point = points[index];
  const onKeyDown = (event: KeyboardEvent): void => {
    const moved = point && movedPoint(point, { key: event.key, shift: event.shiftKey, side });
    if (!moved || !slot.value) return;
    event.preventDefault();
    slot.set({ ...slot.value, points: points.with(index, moved) });
  };
  if (!point) return null;
  const [x, y] = point.map((n) => Math.round(100 * n));
  return (
    <button
      type="button"
      className="scar-end"
      onKeyDown={onKeyDown}
      title="Move with the arrow keys; Shift for larger steps"
    >
      <span className="unseen">Scar {number}, </span>
      {which}{' '}
      <small>
        {x} % from medial, {y} % down
      </small>
    </button>
  );
}
