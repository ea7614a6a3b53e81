import { useLayoutEffect, useRef } from 'react';
import { type GreyWindow, greyTable } from './grey.ts';
import { paint } from './paint.ts';
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
}

let lastTable: { readonly of: GreyWindow; readonly table: Uint32Array } | null = null;
function tableFor(grey: GreyWindow): Uint32Array {
  if (lastTable?.of !== grey) lastTable = { of: grey, table: greyTable(grey) };
  return lastTable.table;
}

/** The film's pixels, painted anew on every change. */
export function FilmCanvas({ levels, view, grey, moving = false }: Props) {
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
    paint({ width, height, colours }, levels, samplingOf(view, ratio), tableFor(grey));
    context.putImageData(image.current, 0, 0);
  }, [levels, view, grey, moving]);
  return <canvas ref={canvas} className="film-pixels" />;
}
