import type { Catalogue, Femur, Insert, Polyline, Tray } from '@gapline/core/catalogue/catalogue.ts';
import { cannot, type Outcome, ok } from '@gapline/core/measure/outcome.ts';
import { opened } from './chain.ts';
import { checkScale, type StatedSize } from './check-scale.ts';
import type { XY } from './flatten.ts';
import { readDxf } from './read-dxf.ts';
import { readPolylines } from './read-polylines.ts';
import { readSvgPath } from './read-svg-path.ts';

export type OutlineView = 'coronal' | 'sagittal';
export type OutlinePart =
  | { readonly kind: 'femur'; readonly part: Femur }
  | { readonly kind: 'tray'; readonly part: Tray }
  | { readonly kind: 'insert'; readonly part: Insert };

/** An outline holds some hundred points; far more is another kind of file. */
const MOST_POINTS = 20_000;
const LARGEST_CHARACTERS = 5_000_000;

const READERS = { json: readPolylines, dxf: readDxf, svg: readSvgPath } as const;
export type OutlineFormat = keyof typeof READERS;

/** The format by the ending of the file's name. */
export const formatOf = (fileName: string): OutlineFormat | null => {
  const ending = fileName.toLowerCase().split('.').at(-1);
  return ending === 'json' || ending === 'dxf' || ending === 'svg' ? ending : null;
};

/** What the catalogue states of a part in a view. A flange adds to a femur's depth what no catalogue states: a fifth at most. */
export function statedSize({ kind, part }: OutlinePart, view: OutlineView): StatedSize {
  switch (kind) {
    case 'femur':
      return { widthMm: view === 'coronal' ? part.widthMm : [part.apMm, part.apMm * 1.2] };
    case 'tray':
      return { widthMm: view === 'coronal' ? part.widthMm : part.apMm, heightMm: part.thicknessMm + part.keelMm };
    case 'insert':
      // Posts and lips rise over the low point of the surface.
      return { heightMm: [part.heightMm, part.heightMm * 3 + 10] };
  }
}

/** Lines moved to the origin of their part's own frame, as the catalogue has it; x lateral or anterior, y proximal. */
export function toOwnFrame(
  lines: readonly (readonly XY[])[],
  kind: OutlinePart['kind'],
  view: OutlineView,
): readonly Polyline[] {
  const xs = lines.flat().map(([x]) => x);
  const ys = lines.flat().map(([, y]) => y);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const x0 = kind === 'femur' && view === 'sagittal' ? left : (left + right) / 2;
  const y0 = kind === 'tray' ? Math.max(...ys) : Math.min(...ys);
  return lines.map((line) => opened(line).map(([x, y]): XY => [x - x0, y - y0]));
}

interface Asked {
  readonly fileName: string;
  readonly of: OutlinePart;
  readonly view: OutlineView;
  /** Absent = by the ending of the file's name. */
  readonly format?: OutlineFormat;
  /** Sizes of the outline where they are known better than the catalogue states them. */
  readonly stated?: StatedSize;
}

/**
 * Outlines of one part in one view from a text: polylines in JSON, DXF R12, or SVG path data. Millimetres, x lateral
 * (coronal) or anterior (sagittal), y proximal; wherever the drawing stands it is moved to the part's own origin. The scale is
 * checked against what the part states (GAP-45). `cannot` names the file, the fault and the mend.
 */
export function readOutlines(
  text: string,
  { fileName, of, view, format, stated }: Asked,
): Outcome<readonly Polyline[]> {
  const refuse = (code: string, message: string, mend: string) =>
    cannot({ code, message: `${fileName}: ${message}`, file: fileName, mend });
  const read = format ?? formatOf(fileName);
  if (!read) return refuse('outline-format', 'It is not told in what format this is.', 'Name it .json, .dxf or .svg.');
  if (text.length > LARGEST_CHARACTERS)
    return refuse('file-too-large', 'Far larger than an outline can be.', 'Give the outline alone.');
  const lines = READERS[read](text);
  if (!lines.ok) return refuse(lines.reason.code, lines.reason.message, lines.reason.mend ?? '');
  const points = lines.value.reduce((sum, line) => sum + line.length, 0);
  if (points > MOST_POINTS)
    return refuse('outline-too-fine', `${points} points are too many.`, 'Simplify the outline.');
  if (lines.value.some((line) => opened(line).length < 3))
    return refuse(
      'outline-open',
      'A line of it has fewer than three corners and encloses nothing.',
      'Join its pieces to closed lines.',
    );
  const size = checkScale(lines.value, stated ?? statedSize(of, view));
  if (!size.ok) return refuse(size.reason.code, size.reason.message, size.reason.mend ?? '');
  return ok(toOwnFrame(lines.value, of.kind, view));
}

/** The catalogue with the outlines of one part in one view replaced. */
export function withOutlines(
  catalogue: Catalogue,
  { of, view, lines }: { of: OutlinePart; view: OutlineView; lines: readonly Polyline[] },
): Catalogue {
  const outlines = { ...(of.part.outlines ?? { coronal: [], sagittal: [] }), [view]: lines };
  const put = <T extends { readonly ref: string }>(parts: readonly T[]): T[] =>
    parts.map((p) => (p.ref === of.part.ref ? { ...p, outlines } : p));
  switch (of.kind) {
    case 'femur':
      return { ...catalogue, femurs: put(catalogue.femurs) };
    case 'tray':
      return { ...catalogue, trays: put(catalogue.trays) };
    case 'insert':
      return { ...catalogue, inserts: put(catalogue.inserts) };
  }
}
