import type { Mesh } from './mesh.ts';
import { block, rod, shell } from './solids.ts';
import type { Point3 } from './space.ts';

/** Sizes of a femoral component, mm; of no system, invented here. */
export interface FemoralComponentSize {
  readonly widthMm: number;
  /** Inner face of the flange to the posterior surface. */
  readonly apMm: number;
  readonly distalMm: number;
  readonly posteriorMm: number;
}

/** Parts of a component in its own frame: origin at mid-width on the distal surface, y = 0 at the posterior surface. */
export interface FemoralComponent {
  readonly metal: readonly Mesh[];
  /** The two condyles alone, for tangents. */
  readonly condyles: { readonly medial: Mesh; readonly lateral: Mesh };
  /** Side profile of the bearing, from posterior to the front: (y, z). */
  readonly profile: readonly (readonly [number, number])[];
  /** Height over which the flange reaches, and where each cut of the bone runs (y or z). */
  readonly cuts: { readonly distalZ: number; readonly posteriorY: number; readonly anteriorY: number };
  /** Ends of the straight distal inner face. */
  readonly innerDistal: { readonly front: Point3; readonly back: Point3 };
  readonly boxTopMm: number;
  readonly condyleMiddleMm: number;
}

type Pair = readonly [readonly [number, number], readonly [number, number]];

/** Side view: pairs of an outer and an inner point, from the posterior tip round to the top of the flange. */
function sideView(s: FemoralComponentSize): Pair[] {
  const { apMm: A, distalMm: td, posteriorMm: tp } = s;
  const r = 0.37 * A;
  const arc = (t: number): readonly [number, number] => [r - r * Math.cos(t), r - r * Math.sin(t)];
  const pairs: Pair[] = [
    [
      [tp * 0.62, 0.66 * A * 0.72],
      [tp, 0.62 * A * 0.72],
    ],
    [
      [0.9, 0.43 * A],
      [tp, 0.41 * A],
    ],
    [arc(0), [tp, r + 0.01 * A]],
  ];
  const chamfer = 0.16 * A;
  for (let k = 1; k <= 12; k++) {
    const share = k / 12;
    const along = share * (chamfer * 2 + 4);
    const inner: readonly [number, number] =
      along < 4
        ? [tp, td + chamfer + 4 - along]
        : along < 4 + chamfer * 2 * 0.75
          ? [tp + (chamfer * (along - 4)) / (chamfer * 1.5), td + chamfer - (chamfer * (along - 4)) / (chamfer * 1.5)]
          : [tp + chamfer + (along - 4 - chamfer * 1.5) * 0.8, td];
    pairs.push([arc((share * Math.PI) / 2), inner]);
  }
  const front: Pair[] = [
    [
      [0.47 * A, 0.05],
      [0.42 * A, td],
    ],
    [
      [0.58 * A, 0.6],
      [0.55 * A, td],
    ],
    [
      [0.7 * A, 2.6],
      [0.7 * A, td],
    ],
    [
      [0.81 * A, 6.2],
      [A - 0.17 * A, td + 0.4],
    ],
    [
      [0.91 * A, 12],
      [A - 0.09 * A, td + 0.08 * A],
    ],
    [
      [A + 2.2, 0.32 * A],
      [A - 0.02 * A, td + 0.19 * A],
    ],
    [
      [A + 5, 0.43 * A],
      [A, 0.4 * A],
    ],
    [
      [A + 5.4, 0.56 * A],
      [A + 0.3, 0.55 * A],
    ],
    [
      [A + 4.2, 0.68 * A],
      [A + 0.6, 0.67 * A],
    ],
    [
      [A + 2.4, 0.76 * A],
      [A + 0.9, 0.755 * A],
    ],
  ];
  return [...pairs, ...front];
}

/** One strip of the shell between two widths, its outer face rounded about `crown` and hollowed by `groove`. */
function strip(
  view: readonly Pair[],
  widths: readonly number[],
  shape: {
    readonly recess: (x: number, i: number) => number;
    /** Share of the width kept at each point of the side view. */
    readonly narrow: (i: number) => number;
  },
): Mesh {
  return shell(
    widths.map((x) => ({
      outer: view.map(([o, n], i): Point3 => {
        const d: readonly [number, number] = [n[0] - o[0], n[1] - o[1]];
        const l = Math.hypot(d[0], d[1]) || 1;
        const k = Math.min(shape.recess(x, i), 0.75 * l) / l;
        return [x * shape.narrow(i), o[0] + k * d[0], o[1] + k * d[1]];
      }),
      inner: view.map(([, n], i): Point3 => [x * shape.narrow(i), n[0], n[1]]),
    })),
  );
}

const span = (from: number, to: number, steps: number): number[] =>
  Array.from({ length: steps + 1 }, (_, i) => from + ((to - from) * i) / steps);

/**
 * A posterior-stabilised femoral component of cobalt-chrome: two rounded condyles, a grooved flange, a box and
 * two pegs. Distal and posterior surfaces touch z = 0 and y = 0 at the middle of each condyle.
 */
export function femoralComponent(size: FemoralComponentSize): FemoralComponent {
  const { widthMm: W, apMm: A, distalMm: td } = size;
  const view = sideView(size);
  const notch = 0.13 * W;
  const crown = (W / 2 + notch) / 2;
  const joined = view.length - 8;
  const round = (x: number, i: number) => (Math.abs(Math.abs(x) - crown) ** 2 / 46) * (i < joined ? 1 : 0.75);
  const last = view.length - 1;
  const narrow = (i: number) => (i < joined + 1 ? 1 : 1 - 0.34 * ((i - joined - 1) / (last - joined - 1)) ** 2.2);
  const condyle = (side: 1 | -1) => strip(view, span(side * notch, (side * W) / 2, 14), { recess: round, narrow });
  const flange = strip(view.slice(joined), span(-notch, notch, 8), {
    recess: (x, i) => round(notch, i + joined) + 1.6 * (1 - (x / notch) ** 2),
    narrow: (i) => narrow(i + joined),
  });
  const boxTop = td + 7.5;
  const [y0, y1] = [0.3 * A, 0.74 * A];
  const wall = (side: 1 | -1) => {
    const [a, b] = [side * notch, side * (notch - 2.2)].sort((p, q) => p - q);
    return block([a!, y0, td * 0.4], [b!, y1, boxTop]);
  };
  const peg = (side: 1 | -1) =>
    rod(
      [
        [side * crown, 0.5 * A, td],
        [side * crown, 0.5 * A, td + 7],
        [side * crown, 0.5 * A, td + 10],
      ],
      [3.2, 3.2, 1.8],
    );
  const medial = condyle(-1);
  const lateral = condyle(1);
  const roof = block([-notch + 2.2, y0 + 5, boxTop - 2], [notch - 2.2, y1, boxTop]);
  return {
    metal: [medial, lateral, flange, wall(-1), wall(1), roof, peg(-1), peg(1)],
    condyles: { medial, lateral },
    profile: view.map(([o]) => o),
    cuts: { distalZ: td, posteriorY: size.posteriorMm, anteriorY: A },
    innerDistal: { back: [0, size.posteriorMm + 0.16 * A, td], front: [0, 0.83 * A, td] },
    boxTopMm: boxTop,
    condyleMiddleMm: crown,
  };
}
