import type { DrawnLayer, FilmDrawing, Plan, PlanFilm } from '@gapline/core/plan/plan.ts';
import { type Cut, cutPng, type SheetPicture } from './film-picture.ts';
import { type Box, type Page, PT_PER_MM, write } from './page.ts';
import { readableView } from './readable-view.ts';

/** Dots per inch of the printed film. */
const PRINT_DPI = 240;
/** Room around what is drawn, mm in the patient. */
const ROOM_MM = 9;
/** Least height of knee that is shown, mm in the patient. */
const LEAST_MM = 120;

export interface FilmOnSheet {
  readonly film: PlanFilm;
  readonly drawing: FilmDrawing | undefined;
  readonly picture: SheetPicture | undefined;
}

/** The films that go on the sheet: from in front (a film of the knee before a long-leg film) and from the side. */
export function filmsForSheet(plan: Plan, pictures: ReadonlyMap<string, SheetPicture>): readonly FilmOnSheet[] {
  const found = (views: readonly string[]): FilmOnSheet[] => {
    const candidates = plan.films
      .filter((f) => views.includes(f.view) && (f.side === 'both' || f.side === plan.side))
      .map((film) => ({
        film,
        drawing: plan.drawings.find((d) => d.film === film.id),
        picture: pictures.get(film.id),
      }));
    const rank = (f: FilmOnSheet) => (f.drawing?.layers.some((l) => l.kind === 'component') ? 0 : f.drawing ? 1 : 2);
    return candidates
      .map((f, i) => ({ f, i }))
      .sort((a, b) => rank(a.f) - rank(b.f) || views.indexOf(a.f.film.view) - views.indexOf(b.f.film.view) || a.i - b.i)
      .slice(0, 1)
      .map(({ f }) => f);
  };
  return [...found(['ap', 'long-leg']), ...found(['lateral'])];
}

/** One film with the plan on it, to scale, with what is needed to read it: side, view, day, scale, a bar of 50 mm. */
export function filmPanel(page: Page, { film, drawing, picture }: FilmOnSheet, box: Box): void {
  const inner: Box = { ...box, height: box.height - 14 };
  const layers = drawing?.layers ?? [];
  const mmPerPx = film.calibration.source === 'none' ? null : film.calibration.mmPerPx;
  const cut = cutFor(layers, { film, picture, inner, mmPerPx });
  page.save();
  page.rect(inner.x, inner.y, inner.width, inner.height).clip();
  page.rect(inner.x, inner.y, inner.width, inner.height).fill('black');
  const place = (p: { readonly x: number; readonly y: number }): readonly [number, number] => [
    inner.x + ((p.x + 0.5 - cut.x) * inner.width) / cut.width,
    inner.y + ((p.y + 0.5 - cut.y) * inner.height) / cut.height,
  ];
  if (picture) {
    const png = cutPng(picture, cut, (inner.width / 72) * PRINT_DPI);
    page.image(Buffer.from(png), inner.x, inner.y, { width: inner.width, height: inner.height });
  }
  for (const layer of layers) drawLayer(page, layer, place);
  if (mmPerPx) scaleBar(page, inner, (50 / mmPerPx.x) * (inner.width / cut.width));
  sideLetter(page, inner, film);
  page.restore();
  caption(page, { film, picture }, { box, ratio: mmPerPx && ratioOf(cut, inner, mmPerPx.x) });
}

interface CutWanted {
  readonly film: PlanFilm;
  readonly picture: SheetPicture | undefined;
  readonly inner: Box;
  readonly mmPerPx: { readonly x: number; readonly y: number } | null;
}

/** The part of the film that holds all that is drawn of the plan, in the shape of the panel, pixels of any shape made square. */
function cutFor(layers: readonly DrawnLayer[], { picture, inner, mmPerPx }: CutWanted): Cut {
  const wanted = layers.filter((l) => l.belongs === 'plan');
  const shown = wanted.length > 0 ? wanted : layers.filter((l) => l.kind === 'tangent');
  const points = shown.flatMap((l) => l.points);
  if (points.length === 0) return whole(picture, inner);
  const room = mmPerPx ? ROOM_MM / mmPerPx.x : 40;
  const aspect = mmPerPx ? mmPerPx.y / mmPerPx.x : 1;
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y * aspect);
  const [left, right] = [Math.min(...xs) - room, Math.max(...xs) + room];
  const [top, bottom] = [Math.min(...ys) - room, Math.max(...ys) + room];
  const least = mmPerPx ? LEAST_MM / mmPerPx.x : 0;
  const height = Math.max(bottom - top, least, ((right - left) * inner.height) / inner.width);
  const width = (height * inner.width) / inner.height;
  const [midX, midY] = [(left + right) / 2, (top + bottom) / 2];
  return { x: midX - width / 2, y: (midY - height / 2) / aspect, width, height: height / aspect };
}

function whole(picture: SheetPicture | undefined, inner: Box): Cut {
  const [columns, rows] = picture ? [picture.columns, picture.rows] : [inner.width, inner.height];
  const height = Math.max(rows, (columns * inner.height) / inner.width);
  const width = (height * inner.width) / inner.height;
  return { x: (columns - width) / 2, y: (rows - height) / 2, width, height };
}

interface Pen {
  readonly width: number;
  readonly dash?: readonly [number, number];
  readonly fill?: number;
}

/** White lines on a dark edge can be told apart on paper without colour: by weight, dash and fill. */
const PENS: Readonly<Record<DrawnLayer['kind'], Pen>> = {
  axis: { width: 0.5, dash: [5, 3] },
  tangent: { width: 0.6, dash: [1.5, 2] },
  angle: { width: 0.5 },
  distance: { width: 0.5 },
  circle: { width: 0.5, dash: [1.5, 2] },
  'joint-line-band': { width: 0.4, dash: [2, 2], fill: 0.22 },
  'joint-line': { width: 1.7 },
  component: { width: 1.1, fill: 0.1 },
  augment: { width: 1.1, fill: 0.4 },
  stem: { width: 0.9, dash: [4, 1.5] },
  canal: { width: 0.5 },
  contact: { width: 1.2 },
  cone: { width: 0.9, fill: 0.15 },
  'weak-spot': { width: 0.7, dash: [2.5, 2.5] },
};

function drawLayer(
  page: Page,
  { kind, points, closed }: DrawnLayer,
  place: (p: { readonly x: number; readonly y: number }) => readonly [number, number],
): void {
  const [first, ...rest] = points.map(place);
  if (!first) return;
  const pen = PENS[kind];
  const trace = () => {
    page.moveTo(...first);
    for (const p of rest) page.lineTo(...p);
    if (closed) page.closePath();
    return page;
  };
  if (pen.fill !== undefined) trace().fillColor('white', pen.fill).fill();
  trace()
    .undash()
    .lineWidth(pen.width + 1.1)
    .strokeColor('black', 0.75)
    .stroke();
  if (pen.dash) page.dash(pen.dash[0], { space: pen.dash[1] });
  trace().lineWidth(pen.width).strokeColor('white', 1).stroke();
  page.undash().fillColor('black', 1).strokeColor('black', 1);
}

function scaleBar(page: Page, inner: Box, points: number): void {
  const [x, y] = [inner.x + 8, inner.y + inner.height - 10];
  for (const [width, colour] of [
    [3.4, 'black'],
    [1.4, 'white'],
  ] as const) {
    page.lineWidth(width).strokeColor(colour).undash();
    page
      .moveTo(x, y)
      .lineTo(x + points, y)
      .stroke();
    page
      .moveTo(x, y - 3)
      .lineTo(x, y + 3)
      .stroke();
    page
      .moveTo(x + points, y - 3)
      .lineTo(x + points, y + 3)
      .stroke();
  }
  write(page, '50 mm', {
    box: { x: x + points + 4, y: y - 5, width: 40, height: 10 },
    style: { size: 7.5, weight: 'bold', grey: 'white' },
  });
}

/** The planned side as a letter where a marker would lie, so that a panel cut from the sheet still says it. */
function sideLetter(page: Page, inner: Box, film: PlanFilm): void {
  if (film.side === 'both') return;
  const size = 20;
  const [x, y] = [inner.x + 6, inner.y + 6];
  page.rect(x, y, size, size).fill('white');
  write(page, film.side === 'right' ? 'R' : 'L', {
    box: { x, y: y + 2.5, width: size, height: size },
    style: { size: 14, weight: 'bold', align: 'center' },
  });
}

const ratioOf = (cut: Cut, inner: Box, mmPerPx: number): number => (cut.width * mmPerPx) / (inner.width / PT_PER_MM);

function caption(
  page: Page,
  { film, picture }: Pick<FilmOnSheet, 'film' | 'picture'>,
  { box, ratio }: { readonly box: Box; readonly ratio: number | null },
): void {
  const scale =
    ratio === null
      ? 'no scale: no millimetres'
      : `printed 1 : ${ratio.toFixed(2)}, scale from ${SCALE_WORDS[film.calibration.source]}`;
  const text = [
    readableView(film.view),
    film.takenOn ?? 'undated',
    scale,
    ...(picture ? [] : ['picture not at hand']),
  ].join(' · ');
  write(page, text, {
    box: { ...box, y: box.y + box.height - 11, height: 10 },
    style: { size: 7.5, least: 6 },
  });
}

const SCALE_WORDS: Readonly<Record<PlanFilm['calibration']['source'], string>> = {
  volumetric: 'the volume',
  'known-implant': 'implant in place',
  marker: 'ball',
  'stated-magnification': 'stated magnification',
  'assumed-distance': 'assumed distance',
  none: 'nothing',
};
