import type { DrawnLayer } from '@gapline/core/plan/plan.ts';
import { memo } from 'react';
import { labelColumn } from './label-column.ts';
import { type Place, svgTransform, type Viewport } from './viewport.ts';

/** Painted from the ground up: areas first, lines over them. */
const ORDER: readonly DrawnLayer['kind'][] = [
  'joint-line-band',
  'canal',
  'cone',
  'component',
  'augment',
  'stem',
  'weak-spot',
  'contact',
  'circle',
  'axis',
  'tangent',
  'distance',
  'angle',
  'joint-line',
  'contact',
];

/** Few words: only what carries a number or the plan's own line is named unasked. */
const ALWAYS_NAMED: readonly DrawnLayer['kind'][] = ['joint-line', 'joint-line-band', 'angle', 'distance'];

const inOrder = (layers: readonly DrawnLayer[]): readonly DrawnLayer[] =>
  [...layers].sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));

const path = (layer: DrawnLayer): string =>
  layer.points.map((p, i) => `${i === 0 ? 'M' : 'L'}${p.x} ${p.y}`).join('') + (layer.closed ? 'Z' : '');

interface Props {
  readonly layers: readonly DrawnLayer[];
  readonly view: Viewport;
  /** Id of the layer that stands out. */
  readonly standsOut: string | null;
  /** Whether axes and components carry their names too. */
  readonly names: boolean;
  /** Marks on the film, which labels keep clear of; film pixels. */
  readonly marks: readonly Place[];
}

/** Axes, joint line and components over the film: shapes in film pixels, strokes and words in screen pixels. */
export function PlanLayers({ layers, view, standsOut, names, marks }: Props) {
  return (
    <>
      <g transform={svgTransform(view)}>
        <Shapes layers={layers} standsOut={standsOut} />
      </g>
      <Labels
        layers={layers.filter((l) => names || ALWAYS_NAMED.includes(l.kind) || belongsTo(l, standsOut))}
        view={view}
        marks={marks}
      />
    </>
  );
}

const belongsTo = (layer: DrawnLayer, id: string | null): boolean =>
  id !== null && (layer.id === id || layer.id.startsWith(`${id}-`) || layer.id.startsWith(`${id}:`));

/** Kept apart so that a pan or zoom changes one transform and no shape. */
const Shapes = memo(function Shapes({ layers, standsOut }: Pick<Props, 'layers' | 'standsOut'>) {
  return inOrder(layers).map((layer) => (
    <Shape
      key={`${layer.belongs} ${layer.side} ${layer.kind} ${layer.id}`}
      layer={layer}
      standsOut={belongsTo(layer, standsOut)}
    />
  ));
});

const Shape = memo(function Shape({ layer, standsOut }: { readonly layer: DrawnLayer; readonly standsOut: boolean }) {
  const d = path(layer);
  return (
    <g
      className={`drawn drawn-${layer.kind} of-${layer.belongs}${standsOut ? ' stands-out' : ''}`}
      data-layer={layer.id}
    >
      <path className="drawn-shade" d={d} />
      <path className="drawn-line" d={d} />
    </g>
  );
});

/** Labels in a column beside the drawing, none over another, each with a thin lead to what it names. */
function Labels({ layers, view, marks }: Pick<Props, 'layers' | 'view' | 'marks'>) {
  return labelColumn(layers, { view, marks }).map(({ layer, text, anchor, at, from }) => (
    <g key={text} className={`drawn-label of-${layer.belongs}`}>
      <path className="drawn-lead" d={`M${anchor.x} ${anchor.y}L${from.x} ${from.y}`} />
      <text x={at.x} y={at.y}>
        {text}
      </text>
    </g>
  ));
}
