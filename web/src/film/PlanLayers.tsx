import type { DrawnLayer } from '@gapline/core/plan/plan.ts';
import { memo } from 'react';
import { type Place, svgTransform, toScreen, type Viewport } from './viewport.ts';

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
}

/** Axes, joint line and components over the film: shapes in film pixels, strokes and words in screen pixels. */
export function PlanLayers({ layers, view, standsOut, names }: Props) {
  return (
    <>
      <g transform={svgTransform(view)}>
        <Shapes layers={layers} standsOut={standsOut} />
      </g>
      <Labels
        layers={layers.filter((l) => names || ALWAYS_NAMED.includes(l.kind) || belongsTo(l, standsOut))}
        view={view}
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

/** Height of a line of labels, screen pixels. */
const LINE = 17;
/** About the width of a letter, to keep a label within the area. */
const LETTER = 7;
/** Where the film's buttons stand open along its right edge: how wide they are, and the size of film from which they do. */
const TOOLS = { width: 70, fromWidth: 380, fromHeight: 400 } as const;

interface Placed {
  readonly layer: DrawnLayer;
  readonly text: string;
  /** Where the label's lead begins: on the drawing. */
  readonly anchor: Place;
  readonly at: Place;
  /** Where the lead ends: beside the text. */
  readonly from: Place;
}

/** Labels in a column beside the drawing, none over another, each with a thin lead to what it names. */
function Labels({ layers, view }: Pick<Props, 'layers' | 'view'>) {
  return labelColumn(layers, view).map(({ layer, text, anchor, at, from }) => (
    <g key={text} className={`drawn-label of-${layer.belongs}`}>
      <path className="drawn-lead" d={`M${anchor.x} ${anchor.y}L${from.x} ${from.y}`} />
      <text x={at.x} y={at.y}>
        {text}
      </text>
    </g>
  ));
}

function labelColumn(layers: readonly DrawnLayer[], view: Viewport): readonly Placed[] {
  const named = layers.flatMap((layer) => {
    const ends = layer.label ? sideEnds(layer, view) : null;
    return layer.label && ends && isInside(ends.right, view) ? [{ layer, text: layer.label, ends }] : [];
  });
  const once = named.filter((n, i) => named.findIndex((other) => other.text === n.text) === i);
  const longest = Math.max(0, ...once.map((n) => n.text.length)) * LETTER;
  const right = Math.max(0, ...once.map((n) => n.ends.right.x)) + 22;
  const left = Math.min(...once.map((n) => n.ends.left.x), view.width) - 22;
  const toolsOpen = view.width > TOOLS.fromWidth && view.height > TOOLS.fromHeight;
  const end = view.width - (toolsOpen ? TOOLS.width : 0);
  // To the right of the drawing where it fits beside the buttons, else to the left where that has more room.
  const onRight = right + longest + 8 <= end || end - right >= left;
  const x = onRight ? Math.max(Math.min(right, end - longest - 8), 8) : Math.max(left - longest, 8);
  const rows: Placed[] = [];
  let next = Number.NEGATIVE_INFINITY;
  const byHeight = once.map((n) => ({ ...n, anchor: onRight ? n.ends.right : n.ends.left }));
  byHeight.sort((a, b) => a.anchor.y - b.anchor.y || (a.text < b.text ? -1 : 1));
  for (const { layer, text, anchor } of byHeight) {
    const y = Math.max(anchor.y + 4, next);
    const from = onRight ? x - 4 : x + text.length * LETTER;
    rows.push({ layer, text, anchor, at: { x, y }, from: { x: from, y: y - 4 } });
    next = y + LINE;
  }
  // What ran over the lower edge moves the whole column up.
  const over = Math.max(0, next - LINE + 8 - view.height);
  return rows.map((row) => ({
    ...row,
    at: { x: row.at.x, y: row.at.y - over },
    from: { x: row.from.x, y: row.from.y - over },
  }));
}

const isInside = (at: Place, view: Viewport): boolean =>
  at.x >= 0 && at.y >= 0 && at.x <= view.width && at.y <= view.height;

/** The points farthest to the left and to the right on the screen. */
function sideEnds(layer: DrawnLayer, view: Viewport): { readonly left: Place; readonly right: Place } | null {
  const places = layer.points.map((p) => toScreen(view, p));
  const [first] = places;
  if (!first) return null;
  let [left, right] = [first, first];
  for (const place of places) {
    if (place.x < left.x) left = place;
    if (place.x > right.x) right = place;
  }
  return { left, right };
}
