import type { DrawnLayer } from '@gapline/core/plan/plan.ts';
import { memo } from 'react';
import { type Place, svgTransform, toScreen, type Viewport } from './viewport.ts';

/** Painted from the ground up: areas first, lines over them. */
const ORDER: readonly DrawnLayer['kind'][] = [
  'joint-line-band',
  'component',
  'augment',
  'stem',
  'circle',
  'axis',
  'tangent',
  'distance',
  'angle',
  'joint-line',
];

const inOrder = (layers: readonly DrawnLayer[]): readonly DrawnLayer[] =>
  [...layers].sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));

const path = (layer: DrawnLayer): string =>
  layer.points.map((p, i) => `${i === 0 ? 'M' : 'L'}${p.x} ${p.y}`).join('') + (layer.closed ? 'Z' : '');

interface Props {
  readonly layers: readonly DrawnLayer[];
  readonly view: Viewport;
  /** Id of the layer that stands out. */
  readonly standsOut: string | null;
}

/** Axes, joint line and components over the film: shapes in film pixels, strokes and words in screen pixels. */
export function PlanLayers({ layers, view, standsOut }: Props) {
  return (
    <>
      <g transform={svgTransform(view)}>
        <Shapes layers={layers} standsOut={standsOut} />
      </g>
      <Labels layers={layers} view={view} />
    </>
  );
}

const belongsTo = (layer: DrawnLayer, id: string | null): boolean =>
  id !== null && (layer.id === id || layer.id.startsWith(`${id}-`) || layer.id.startsWith(`${id}:`));

/** Kept apart so that a pan or zoom changes one transform and no shape. */
const Shapes = memo(function Shapes({ layers, standsOut }: Pick<Props, 'layers' | 'standsOut'>) {
  return inOrder(layers).map((layer) => {
    const d = path(layer);
    const name = `${layer.belongs} ${layer.side} ${layer.kind} ${layer.id}`;
    return (
      <g
        key={name}
        className={`drawn drawn-${layer.kind} of-${layer.belongs}${belongsTo(layer, standsOut) ? ' stands-out' : ''}`}
        data-layer={layer.id}
      >
        <path className="drawn-shade" d={d} />
        <path className="drawn-line" d={d} />
      </g>
    );
  });
});

/** Least distance between two labels, screen pixels. */
const LINE = 16;

function Labels({ layers, view }: Pick<Props, 'layers' | 'view'>) {
  const taken: Place[] = [];
  return inOrder(layers).flatMap((layer) => {
    if (!layer.label || layer.points.length === 0) return [];
    const wanted = labelPlace(layer, view);
    if (wanted.x < 0 || wanted.y < 0 || wanted.x > view.width || wanted.y > view.height) return [];
    const at = free(wanted, taken);
    taken.push(at);
    return [
      <text
        key={`${layer.belongs} ${layer.side} ${layer.id}`}
        className={`drawn-label of-${layer.belongs}`}
        x={at.x + 8}
        y={at.y - 5}
      >
        {layer.label}
      </text>,
    ];
  });
}

/** At the end of a line that lies farthest to the right, in the middle of an area's right side. */
function labelPlace(layer: DrawnLayer, view: Viewport): Place {
  const places = layer.points.map((p) => toScreen(view, p));
  if (layer.closed || layer.kind === 'angle' || layer.kind === 'circle') {
    const right = Math.max(...places.map((p) => p.x));
    const ys = places.map((p) => p.y);
    return { x: right, y: (Math.min(...ys) + Math.max(...ys)) / 2 };
  }
  return places.reduce((best, p) => (p.x > best.x ? p : best));
}

/** Moved down line by line until it stands on no other label. */
function free(wanted: Place, taken: readonly Place[]): Place {
  let at = wanted;
  const clash = (): boolean => taken.some((t) => Math.abs(t.x - at.x) < 120 && Math.abs(t.y - at.y) < LINE);
  for (let tries = 0; clash() && tries < 40; tries++) at = { x: at.x, y: at.y + LINE / 2 };
  return at;
}
