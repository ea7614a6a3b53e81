import type { Mesh } from './mesh.ts';
import { lofted, plate, rod } from './solids.ts';
import type { Point3 } from './space.ts';

export interface TraySize {
  readonly widthMm: number;
  readonly apMm: number;
  readonly thicknessMm: number;
  readonly keelMm: number;
}

/** Tray in its own frame: origin at the middle of the upper face, x lateral, y anterior, z proximal. */
export interface TibialComponent {
  readonly metal: readonly Mesh[];
  /** The plate alone, for its edges. */
  readonly plate: Mesh;
  readonly insert: readonly Mesh[];
  readonly cement: readonly Mesh[];
}

/** Outline of a tray seen from above: rounded in front, hollowed behind. */
export function trayOutline(widthMm: number, apMm: number, steps = 72): (readonly [number, number])[] {
  return Array.from({ length: steps }, (_, k) => {
    const a = (2 * Math.PI * k) / steps;
    const [c, s] = [Math.cos(a), Math.sin(a)];
    const flat = (v: number, power: number) => Math.sign(v) * Math.abs(v) ** power;
    const y = (apMm / 2) * flat(s, s < 0 ? 0.55 : 0.85);
    const x = (widthMm / 2) * flat(c, 0.72);
    const hollow = s < 0 ? 7 * Math.exp(-((x / (0.13 * widthMm)) ** 2)) : 0;
    return [x, y + hollow] as const;
  });
}

const scaled = (outline: readonly (readonly [number, number])[], k: number) =>
  outline.map(([x, y]) => [x * k, y * k] as const);

/** Fin of the keel: a thin plate from the underside down the stem, on one side. */
function fin(side: 1 | -1, size: TraySize): Mesh {
  const { thicknessMm: tt, keelMm: k, widthMm: W } = size;
  const ring = (z: number, reach: number): Point3[] => [
    [side * 5, -8, z],
    [side * reach, -10, z],
    [side * reach, -7.6, z],
    [side * 5, -5.4, z],
  ];
  return lofted([ring(-tt, 0.25 * W), ring(-tt - 0.35 * k, 0.19 * W), ring(-tt - 0.75 * k, 7.5)]);
}

/** A titanium tray with keel, its radiolucent insert of height `insertMm`, and a cement mantle of `cementMm`. */
export function tibialComponent(size: TraySize, insertMm: number, cementMm: number): TibialComponent {
  const { widthMm: W, apMm: AP, thicknessMm: tt, keelMm } = size;
  const outline = trayOutline(W, AP);
  const top = plate(outline, -tt, 0);
  const stem = rod(
    [
      [0, -2, -tt],
      [0, -3, -tt - 0.5 * keelMm],
      [0, -3.5, -tt - keelMm + 4],
      [0, -3.6, -tt - keelMm],
    ],
    [8, 7, 6.2, 3.5],
  );
  const mantle = plate(scaled(outline, 0.975), -tt - cementMm, -tt);
  const plug = rod(
    [
      [0, -2, -tt - cementMm],
      [0, -3, -tt - 0.5 * keelMm],
      [0, -3.6, -tt - keelMm - 5],
    ],
    [11, 9.2, 6.5],
  );
  const post = rod(
    [
      [0, -1, insertMm],
      [0, -1, insertMm + 13],
    ],
    [7, 5.5],
  );
  return {
    metal: [top, stem, fin(-1, size), fin(1, size)],
    plate: top,
    insert: [plate(scaled(outline, 0.97), 0, insertMm + 1.5), post],
    cement: [mantle, plug],
  };
}
