import type { Sampling } from './paint.ts';

/** A place, in screen pixels of the film area or in film pixels, as the name beside it says. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

export interface FilmSize {
  readonly columns: number;
  readonly rows: number;
  /** Height of a film pixel over its width. */
  readonly aspect: number;
}

/** What part of a film is on the screen. */
export interface Viewport {
  /** Screen size of the film area, CSS pixels. */
  readonly width: number;
  readonly height: number;
  /** Film pixel in the middle of the area. */
  readonly centre: Place;
  /** CSS pixels for one film pixel, across. */
  readonly scale: number;
  readonly aspect: number;
  /** Shown from the other side, so that the patient's right is at the viewer's left. */
  readonly mirrored: boolean;
  /** The shown film turned clockwise about the middle of the area, deg in (-180, 180]; 0 = upright. */
  readonly turnDeg: number;
}

const LARGEST = 20;
/** Rim kept free around a fitted film, share of the area. */
const RIM = 0.02;

const across = (v: Viewport): number => (v.mirrored ? -v.scale : v.scale);

/** Cosine and sine of a turn, clockwise on the screen; exact for quarter turns, so that these lose no sharpness. */
function turnOf(deg: number): { readonly cos: number; readonly sin: number } {
  const exact = QUARTERS[(((deg / 90) % 4) + 4) % 4];
  if (exact) return exact;
  const rad = (deg * Math.PI) / 180;
  return { cos: Math.cos(rad), sin: Math.sin(rad) };
}
const QUARTERS = [
  { cos: 1, sin: 0 },
  { cos: 0, sin: 1 },
  { cos: -1, sin: 0 },
  { cos: 0, sin: -1 },
];

/** A way in film pixels, as a way on the screen. */
function onScreen(v: Viewport, way: Place): Place {
  const { cos, sin } = turnOf(v.turnDeg);
  const [x, y] = [way.x * across(v), way.y * v.scale * v.aspect];
  return { x: cos * x - sin * y, y: sin * x + cos * y };
}

/** A way on the screen, as a way in film pixels. */
function onFilm(v: Viewport, way: Place): Place {
  const { cos, sin } = turnOf(v.turnDeg);
  return { x: (cos * way.x + sin * way.y) / across(v), y: (cos * way.y - sin * way.x) / (v.scale * v.aspect) };
}

export function toScreen(v: Viewport, film: Place): Place {
  const way = onScreen(v, { x: film.x - v.centre.x, y: film.y - v.centre.y });
  return { x: v.width / 2 + way.x, y: v.height / 2 + way.y };
}

export function toFilm(v: Viewport, screen: Place): Place {
  const way = onFilm(v, { x: screen.x - v.width / 2, y: screen.y - v.height / 2 });
  return { x: v.centre.x + way.x, y: v.centre.y + way.y };
}

/** A step of whole film pixels in the direction of an arrow key on the screen, for a film turned or shown mirrored. */
export function alongArrow(v: Viewport, arrow: { dx: number; dy: number }): Place {
  const { cos, sin } = turnOf(v.turnDeg);
  const x = cos * arrow.dx + sin * arrow.dy;
  return { x: v.mirrored ? -x : x, y: cos * arrow.dy - sin * arrow.dx };
}

/** SVG transform from film pixels to the screen. */
export function svgTransform(v: Viewport): string {
  const [origin, x, y] = [toScreen(v, { x: 0, y: 0 }), onScreen(v, { x: 1, y: 0 }), onScreen(v, { x: 0, y: 1 })];
  return `matrix(${x.x} ${x.y} ${y.x} ${y.y} ${origin.x} ${origin.y})`;
}

/** Where the pixel centres of a canvas of `ratio` device pixels a CSS pixel lie on the film. */
export function samplingOf(v: Viewport, ratio: number): Sampling {
  const corner = toFilm(v, { x: 0.5 / ratio, y: 0.5 / ratio });
  const [column, row] = [onFilm(v, { x: 1 / ratio, y: 0 }), onFilm(v, { x: 0, y: 1 / ratio })];
  return { left: corner.x, top: corner.y, stepX: column.x, slantY: column.y, slantX: row.x, stepY: row.y };
}

/** What a film takes up on the screen at a scale of 1, turned as it is. */
function extent(film: FilmSize, turnDeg: number): { readonly width: number; readonly height: number } {
  const { cos, sin } = turnOf(turnDeg);
  const [w, h] = [film.columns, film.rows * film.aspect];
  return { width: w * Math.abs(cos) + h * Math.abs(sin), height: w * Math.abs(sin) + h * Math.abs(cos) };
}

function fittingScale(area: { width: number; height: number }, film: FilmSize, turnDeg: number): number {
  const { width, height } = extent(film, turnDeg);
  return (1 - 2 * RIM) * Math.min(area.width / width, area.height / height);
}

/** The whole film, upright, in the middle of the area. */
export const fit = (area: { width: number; height: number }, film: FilmSize, mirrored: boolean): Viewport =>
  refit(
    {
      width: area.width,
      height: area.height,
      centre: { x: 0, y: 0 },
      scale: 1,
      aspect: film.aspect,
      mirrored,
      turnDeg: 0,
    },
    film,
  );

/** The whole film in the middle of the area, turned as it is. */
export const refit = (v: Viewport, film: FilmSize): Viewport => ({
  ...v,
  centre: { x: (film.columns - 1) / 2, y: (film.rows - 1) / 2 },
  scale: Math.max(fittingScale(v, film, v.turnDeg), 1e-4),
});

/** A part of the film, given by its corners, as large as it goes. */
export function show(v: Viewport, part: { from: Place; to: Place }, film: FilmSize): Viewport {
  const columns = Math.max(Math.abs(part.to.x - part.from.x), 1);
  const rows = Math.max(Math.abs(part.to.y - part.from.y), 1);
  const scale = fittingScale(v, { columns, rows, aspect: v.aspect }, v.turnDeg);
  const centre = { x: (part.from.x + part.to.x) / 2, y: (part.from.y + part.to.y) / 2 };
  return within({ ...v, centre, scale: Math.min(scale, LARGEST) }, film);
}

/** The film follows the hand by `dx`, `dy` screen pixels. */
export function pan(v: Viewport, by: { dx: number; dy: number }, film: FilmSize): Viewport {
  const way = onFilm(v, { x: by.dx, y: by.dy });
  return within({ ...v, centre: { x: v.centre.x - way.x, y: v.centre.y - way.y } }, film);
}

/** Larger or smaller by `factor`; what lies under the screen place `at` stays there. */
export function zoom(v: Viewport, factor: number, at: Place, film: FilmSize): Viewport {
  const smallest = fittingScale(v, film, v.turnDeg) / 2;
  const scale = Math.min(Math.max(v.scale * factor, smallest), LARGEST);
  const held = toFilm(v, at);
  const next = { ...v, scale };
  const moved = toFilm(next, at);
  return within({ ...next, centre: { x: v.centre.x + held.x - moved.x, y: v.centre.y + held.y - moved.y } }, film);
}

/** Turned clockwise by `deg` about the middle of the area; a film that was whole in sight stays so. */
export function turn(v: Viewport, deg: number, film: FilmSize): Viewport {
  const next = { ...v, turnDeg: -((((180 - v.turnDeg - deg) % 360) + 360) % 360) + 180 };
  return isWhole(v, film) ? refit(next, film) : next;
}

/** The same scale with the film pixel `film` at `way` screen pixels from the middle of the area. */
export function placed(v: Viewport, film: Place, way: Place): Viewport {
  const off = onFilm(v, way);
  return { ...v, centre: { x: film.x - off.x, y: film.y - off.y } };
}

/** The same middle and scale in an area of another size; a film that was whole in sight is whole there too. */
export function resized(v: Viewport, area: { width: number; height: number }, film: FilmSize): Viewport {
  const next = { ...v, ...area };
  return isWhole(v, film) ? refit(next, film) : next;
}

/** Whether the film is in sight from edge to edge, as it is after `fit`. */
const isWhole = (v: Viewport, film: FilmSize): boolean => v.scale <= fittingScale(v, film, v.turnDeg) * 1.001;

/** The middle of the area never leaves the film, so that it cannot get lost. */
const within = (v: Viewport, film: FilmSize): Viewport => ({
  ...v,
  centre: {
    x: Math.min(Math.max(v.centre.x, 0), film.columns - 1),
    y: Math.min(Math.max(v.centre.y, 0), film.rows - 1),
  },
});
