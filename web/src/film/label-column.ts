import type { DrawnLayer } from '@gapline/core/plan/plan.ts';
import { type Place, toScreen, type Viewport } from './viewport.ts';

/** Height of a line of labels, screen pixels. */
const LINE = 17;
/** About the width of a letter, to keep a label within the area. */
const LETTER = 7;
/** Between a label and what it names, and between a label and the rim, screen pixels. */
const LEAD = 22;
const RIM = 8;
/** How near to a label a mark still touches it, screen pixels. */
const NEAR = 6;
/** Where side, view and date stand in the upper left corner, and how high the words of direction and scale reach, screen pixels. */
const HEAD = { width: 130, height: 145 } as const;
const FOOT = 108;
/** The button in the upper right corner that opens the others. */
const CORNER = { width: 72, height: 50 } as const;
/** Where the film's buttons stand open along its right edge: how wide they are, and the size of film from which they do. */
const TOOLS = { width: 70, fromWidth: 380, fromHeight: 400 } as const;

/** A label beside a drawing, screen pixels. */
export interface PlacedLabel {
  readonly layer: DrawnLayer;
  readonly text: string;
  /** Where the label's lead begins: on the drawing. */
  readonly anchor: Place;
  /** Left end of the text, on its base line. */
  readonly at: Place;
  /** Where the lead ends: beside the text. */
  readonly from: Place;
}

interface Named {
  readonly layer: DrawnLayer;
  readonly text: string;
  readonly ends: { readonly left: Place; readonly right: Place };
}

/** How far the column moves up or down to come clear of marks, lines: the nearest first, below before above. */
const SHIFTS = [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6, 7, -7, 8, -8];

/**
 * Labels in a column beside the drawing, none over another: on the right where they fit, else on the left, where they fit on
 * neither on the side with more room, within the area. Of the sides on which they fit and of a few heights the one that
 * covers the fewest marks and words of side, date and scale, the nearest first.
 *
 * @param marks places to keep clear of, film pixels.
 */
export function labelColumn(
  layers: readonly DrawnLayer[],
  { view, marks }: { readonly view: Viewport; readonly marks: readonly Place[] },
): readonly PlacedLabel[] {
  const named = layers.flatMap((layer): Named[] => {
    const ends = layer.label ? sideEnds(layer, view) : null;
    return layer.label && ends && isInside(ends.right, view) ? [{ layer, text: layer.label, ends }] : [];
  });
  const once = named.filter((n, i) => named.findIndex((other) => other.text === n.text) === i);
  if (once.length === 0) return [];
  const places = marks.map((mark) => toScreen(view, mark));
  let best: readonly PlacedLabel[] = [];
  let fewest = Number.POSITIVE_INFINITY;
  const sides = sidesFor(once, view);
  for (const lines of SHIFTS)
    for (const side of sides) {
      const column = rows(once, side, { shift: lines * LINE, view });
      const count = covered(column, places) + onWords(column, view);
      if (count < fewest) [best, fewest] = [column, count];
      if (fewest === 0) return best;
    }
  return best;
}

/** One side of the drawing, and where its labels begin, screen pixels. */
interface LabelSide {
  readonly side: 'left' | 'right';
  readonly x: number;
}

/** The sides on which the labels fit, the right one first; where they fit on neither, that with more room. */
function sidesFor(named: readonly Named[], view: Viewport): readonly LabelSide[] {
  const longest = Math.max(...named.map((n) => n.text.length)) * LETTER;
  const right = Math.max(...named.map((n) => n.ends.right.x)) + LEAD;
  const left = Math.min(...named.map((n) => n.ends.left.x), view.width) - LEAD;
  const toolsOpen = view.width > TOOLS.fromWidth && view.height > TOOLS.fromHeight;
  const end = view.width - (toolsOpen ? TOOLS.width : 0);
  const onRight: LabelSide = { side: 'right', x: Math.max(Math.min(right, end - longest - RIM), RIM) };
  const onLeft: LabelSide = { side: 'left', x: Math.max(left - longest, RIM) };
  const fitting = [...(right + longest + RIM <= end ? [onRight] : []), ...(left - longest >= RIM ? [onLeft] : [])];
  return fitting.length > 0 ? fitting : [end - right >= left ? onRight : onLeft];
}

function rows(
  named: readonly Named[],
  { side, x }: LabelSide,
  { shift, view }: { readonly shift: number; readonly view: Viewport },
): readonly PlacedLabel[] {
  const found: PlacedLabel[] = [];
  let next = LINE;
  const byHeight = named.map((n) => ({ ...n, anchor: n.ends[side] }));
  byHeight.sort((a, b) => a.anchor.y - b.anchor.y || (a.text < b.text ? -1 : 1));
  for (const { layer, text, anchor } of byHeight) {
    const y = Math.max(anchor.y + 4 + shift, next);
    const from = side === 'right' ? x - 4 : x + text.length * LETTER;
    found.push({ layer, text, anchor, at: { x, y }, from: { x: from, y: y - 4 } });
    next = y + LINE;
  }
  // What ran over the lower edge moves the whole column up.
  const over = Math.max(0, next - LINE + RIM - view.height);
  return found.map((row) => ({
    ...row,
    at: { x: row.at.x, y: row.at.y - over },
    from: { x: row.from.x, y: row.from.y - over },
  }));
}

/** How many of the places lie under a label. */
const covered = (labels: readonly PlacedLabel[], places: readonly Place[]): number =>
  places.filter((p) =>
    labels.some(
      ({ at, text }) =>
        p.x >= at.x - NEAR &&
        p.x <= at.x + text.length * LETTER + NEAR &&
        p.y >= at.y - LINE - NEAR &&
        p.y <= at.y + NEAR,
    ),
  ).length;

/** How many labels lie over the words that tell side, date and scale, or under the button in the corner. */
const onWords = (labels: readonly PlacedLabel[], view: Viewport): number =>
  labels.filter(
    ({ at, text }) =>
      at.y > view.height - FOOT ||
      (at.x < HEAD.width && at.y - LINE < HEAD.height) ||
      (at.x + text.length * LETTER > view.width - CORNER.width && at.y - LINE < CORNER.height),
  ).length;

const isInside = (at: Place, view: Viewport): boolean =>
  at.x >= 0 && at.y >= 0 && at.x <= view.width && at.y <= view.height;

/** The points farthest to the left and to the right on the screen. */
function sideEnds(layer: DrawnLayer, view: Viewport): Named['ends'] | null {
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
