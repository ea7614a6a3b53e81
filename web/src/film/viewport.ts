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
}

const LARGEST = 20;
/** Rim kept free around a fitted film, share of the area. */
const RIM = 0.02;

const across = (v: Viewport): number => (v.mirrored ? -v.scale : v.scale);

export const toScreen = (v: Viewport, film: Place): Place => ({
  x: v.width / 2 + (film.x - v.centre.x) * across(v),
  y: v.height / 2 + (film.y - v.centre.y) * v.scale * v.aspect,
});

export const toFilm = (v: Viewport, screen: Place): Place => ({
  x: v.centre.x + (screen.x - v.width / 2) / across(v),
  y: v.centre.y + (screen.y - v.height / 2) / (v.scale * v.aspect),
});

/** SVG transform from film pixels to the screen. */
export function svgTransform(v: Viewport): string {
  const origin = toScreen(v, { x: 0, y: 0 });
  return `matrix(${across(v)} 0 0 ${v.scale * v.aspect} ${origin.x} ${origin.y})`;
}

/** Where the pixel centres of a canvas of `ratio` device pixels a CSS pixel lie on the film. */
export function samplingOf(v: Viewport, ratio: number): Sampling {
  const corner = toFilm(v, { x: 0.5 / ratio, y: 0.5 / ratio });
  return {
    left: corner.x,
    top: corner.y,
    stepX: 1 / (across(v) * ratio),
    stepY: 1 / (v.scale * v.aspect * ratio),
  };
}

const fittingScale = (area: { width: number; height: number }, film: FilmSize): number =>
  (1 - 2 * RIM) * Math.min(area.width / film.columns, area.height / (film.rows * film.aspect));

/** The whole film in the middle of the area. */
export function fit(area: { width: number; height: number }, film: FilmSize, mirrored: boolean): Viewport {
  return {
    width: area.width,
    height: area.height,
    centre: { x: (film.columns - 1) / 2, y: (film.rows - 1) / 2 },
    scale: Math.max(fittingScale(area, film), 1e-4),
    aspect: film.aspect,
    mirrored,
  };
}

/** A part of the film, given by its corners, as large as it goes. */
export function show(v: Viewport, part: { from: Place; to: Place }, film: FilmSize): Viewport {
  const columns = Math.max(Math.abs(part.to.x - part.from.x), 1);
  const rows = Math.max(Math.abs(part.to.y - part.from.y), 1);
  const scale = fittingScale(v, { columns, rows, aspect: v.aspect });
  const centre = { x: (part.from.x + part.to.x) / 2, y: (part.from.y + part.to.y) / 2 };
  return within({ ...v, centre, scale: Math.min(scale, LARGEST) }, film);
}

/** The film follows the hand by `dx`, `dy` screen pixels. */
export const pan = (v: Viewport, by: { dx: number; dy: number }, film: FilmSize): Viewport =>
  within({ ...v, centre: { x: v.centre.x - by.dx / across(v), y: v.centre.y - by.dy / (v.scale * v.aspect) } }, film);

/** Larger or smaller by `factor`; what lies under the screen place `at` stays there. */
export function zoom(v: Viewport, factor: number, at: Place, film: FilmSize): Viewport {
  const smallest = fittingScale(v, film) / 2;
  const scale = Math.min(Math.max(v.scale * factor, smallest), LARGEST);
  const held = toFilm(v, at);
  const next = { ...v, scale };
  const moved = toFilm(next, at);
  return within({ ...next, centre: { x: v.centre.x + held.x - moved.x, y: v.centre.y + held.y - moved.y } }, film);
}

/** The same middle and scale in an area of another size. */
export const resized = (v: Viewport, area: { width: number; height: number }): Viewport => ({ ...v, ...area });

/** The middle of the area never leaves the film, so that it cannot get lost. */
const within = (v: Viewport, film: FilmSize): Viewport => ({
  ...v,
  centre: {
    x: Math.min(Math.max(v.centre.x, 0), film.columns - 1),
    y: Math.min(Math.max(v.centre.y, 0), film.rows - 1),
  },
});
