import type { Outlines } from '../../core/catalogue/catalogue.ts';
import { arc, closed, mirrored, type Point } from './curve.ts';

export interface TrayShape {
  readonly widthMm: number;
  readonly apMm: number;
  readonly thicknessMm: number;
  readonly keelMm: number;
}

/** From the front: plate, fins that run down to the keel, keel with a rounded end. */
function coronal({ widthMm, thicknessMm: t, keelMm }: TrayShape) {
  const half = widthMm / 2;
  const barrel = 7.5;
  const right: Point[] = [
    [0, 0],
    [half - 0.8, 0],
    [half, -0.8],
    [half, -t + 0.6],
    [half - 1.4, -t],
    [0.34 * widthMm, -t],
    [barrel + 0.8, -t - 0.62 * keelMm],
    [barrel, -t - 0.66 * keelMm],
    ...arc([0, -t - keelMm + 3], [barrel - 0.7, 3], { from: 0, to: -90, steps: 4 }),
  ];
  return [closed([...right, ...mirrored(right)])];
}

/** From the side: plate and keel, the keel's fin sloping backwards. */
function sagittal({ apMm, thicknessMm: t, keelMm }: TrayShape) {
  const half = apMm / 2;
  const barrel = 7.5;
  return [
    closed([
      [-half + 0.8, 0],
      [half - 0.8, 0],
      [half, -0.8],
      [half - 0.6, -t],
      [0.2 * apMm, -t],
      [barrel + 1, -t - 0.3 * keelMm],
      ...arc([1, -t - keelMm + 3], [barrel - 0.7, 3], { from: 0, to: -180, steps: 8 }),
      [-barrel, -t - 0.55 * keelMm],
      [-0.24 * apMm, -t],
      [-half + 0.6, -t],
      [-half, -0.8],
    ]),
  ];
}

/** Outlines of an invented tibial tray of these dimensions. */
export const trayOutlines = (shape: TrayShape): Outlines => ({ coronal: coronal(shape), sagittal: sagittal(shape) });
