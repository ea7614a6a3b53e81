import type { PixelMap } from '@gapline/core/plane/register-films.ts';
import { useLayoutEffect, useRef } from 'react';
import { type GreyWindow, greyTable } from './grey.ts';
import { paint, samplingThrough } from './paint.ts';
import type { Level } from './pyramid.ts';
import { samplingOf, type Viewport } from './viewport.ts';

/** More device pixels than this are painted at half resolution while the film moves. */
const MANY_PIXELS = 2_600_000;

interface Props {
  readonly levels: readonly Level[];
  readonly view: Viewport;
  readonly grey: GreyWindow;
  /** True while a hand moves the film. */
  readonly moving?: boolean;
  /** From the film that is looked at to the one that is painted in its place. */
  readonly through?: PixelMap;
}

/** Of every window that is in use, for as long as it is. */
const tables = new WeakMap<GreyWindow, Uint32Array>();
function tableFor(grey: GreyWindow): Uint32Array {
  const table = tables.get(grey) ?? greyTable(grey);
  tables.set(grey, table);
  return table;
}

/** The film's pixels, painted anew on every change. */
export function FilmCanvas({ levels, view, grey, moving = false, through }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const image = useRef<ImageData | null>(null);
  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d', { alpha: false });
    if (!canvas.current || !context) return;
    const full = window.devicePixelRatio || 1;
    const coarse = moving && view.width * view.height * full * full > MANY_PIXELS;
    const ratio = coarse ? full / 2 : full;
    const width = Math.max(Math.round(view.width * ratio), 1);
    const height = Math.max(Math.round(view.height * ratio), 1);
    if (canvas.current.width !== width || canvas.current.height !== height) {
      canvas.current.width = width;
      canvas.current.height = height;
    }
    if (image.current?.width !== width || image.current.height !== height) {
      image.current = context.createImageData(width, height);
    }
    const colours = new Uint32Array(image.current.data.buffer);
    const sampling = samplingOf(view, ratio);
    const seen = through ? samplingThrough(sampling, through) : sampling;
    paint({ width, height, colours }, levels, seen, tableFor(grey));
    context.putImageData(image.current, 0, 0);
  }, [levels, view, grey, moving, through]);
  return <canvas ref={canvas} className="film-pixels" />;
}
