import { useLayoutEffect, useRef } from 'react';
import { type GreyWindow, greyTable } from '../film/grey.ts';
import type { Viewport } from '../film/viewport.ts';
import { canvasTransform, colourSlice } from './paint-slice.ts';
import type { SliceValues } from './stack-shelf.ts';

interface Props {
  readonly values: SliceValues;
  readonly columns: number;
  readonly rows: number;
  /** Number of the slice from 0, told to whoever reads the page. */
  readonly slice: number;
  readonly view: Viewport;
  readonly grey: GreyWindow;
}

/** The colours of the slice painted last; the picture is laid over the screen by the browser itself. */
interface Painted {
  readonly canvas: OffscreenCanvas;
  readonly image: ImageData;
  values: SliceValues | null;
  grey: GreyWindow | null;
}

let lastTable: { readonly of: GreyWindow; readonly table: Uint32Array } | null = null;
function tableFor(grey: GreyWindow): Uint32Array {
  if (lastTable?.of !== grey) lastTable = { of: grey, table: greyTable(grey) };
  return lastTable.table;
}

/** One slice, painted anew whenever another slice, grey or part of it is wanted. */
export function SliceCanvas({ values, columns, rows, slice, view, grey }: Props) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const painted = useRef<Painted | null>(null);
  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d', { alpha: false });
    if (!canvas.current || !context) return;
    const ratio = window.devicePixelRatio || 1;
    const width = Math.max(Math.round(view.width * ratio), 1);
    const height = Math.max(Math.round(view.height * ratio), 1);
    if (canvas.current.width !== width || canvas.current.height !== height) {
      canvas.current.width = width;
      canvas.current.height = height;
    }
    painted.current = coloured(painted.current, { values, columns, rows, grey });
    context.resetTransform();
    context.fillStyle = '#141210';
    context.fillRect(0, 0, width, height);
    context.setTransform(canvasTransform(view, ratio));
    context.imageSmoothingEnabled = true;
    context.drawImage(painted.current.canvas, 0, 0);
    canvas.current.dataset.slice = String(slice);
  }, [values, columns, rows, slice, view, grey]);
  return <canvas ref={canvas} className="film-pixels slice-pixels" />;
}

function coloured(before: Painted | null, now: Pick<Props, 'values' | 'columns' | 'rows' | 'grey'>): Painted {
  const fits = before?.image.width === now.columns && before.image.height === now.rows;
  const painted: Painted =
    before && fits
      ? before
      : {
          canvas: new OffscreenCanvas(now.columns, now.rows),
          image: new ImageData(now.columns, now.rows),
          values: null,
          grey: null,
        };
  if (painted.values === now.values && painted.grey === now.grey) return painted;
  colourSlice(now.values, tableFor(now.grey), new Uint32Array(painted.image.data.buffer));
  painted.canvas.getContext('2d', { alpha: false })?.putImageData(painted.image, 0, 0);
  painted.values = now.values;
  painted.grey = now.grey;
  return painted;
}
