import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Catalogue, ConstraintLevel, Femur, Insert, Stem, Tray } from '../core/catalogue/catalogue.ts';
import { femurOutlines } from './outline/femur.ts';
import { insertOutlines } from './outline/insert.ts';
import { trayOutlines } from './outline/tray.ts';

// The example system: invented from the anatomy of published knees (docs/catalogue.md), matching no system that
// exists. `node catalogues/make-demo.ts` writes catalogues/demo.json; a test compares the two.

const SIZES = [1, 2, 3, 4, 5, 6, 7, 8] as const;
const SIDES = ['right', 'left'] as const;
const LEVELS: readonly ConstraintLevel[] = ['ps', 'vvc', 'hinge'];
const LEVEL_NAME: Readonly<Record<ConstraintLevel, string>> = {
  ps: 'posterior-stabilised',
  vvc: 'varus-valgus constrained',
  hinge: 'rotating hinge',
};
/** Depth of the dish and of the lock below a label, mm: what the label overstates the polyethylene by. */
const LABEL_OVER_POLYETHYLENE_MM = 3.2;
const THICKNESS_MM = { femurDistal: 9, femurPosterior: 9, tray: 4.5 };

const near = (size: number, reach: number): number[] => SIZES.filter((s) => Math.abs(s - size) <= reach);
const femurAp = (size: number): number => 53 + 3 * (size - 1);
const femurWidth = (size: number): number => 57 + 3.5 * (size - 1);
const trayWidth = (size: number): number => 60 + 4 * (size - 1);
const trayAp = (size: number): number => 39 + 2.5 * (size - 1);

function femur(size: number, side: 'right' | 'left'): Femur {
  const shape = {
    widthMm: femurWidth(size),
    apMm: femurAp(size),
    distalMm: THICKNESS_MM.femurDistal,
    posteriorMm: THICKNESS_MM.femurPosterior,
    boxWidthMm: size <= 3 ? 18 : size <= 6 ? 20 : 22,
    boxDepthMm: size <= 3 ? 16 : size <= 6 ? 18 : 20,
  };
  return {
    ref: `EX-F${size}${side === 'right' ? 'R' : 'L'}`,
    name: `Femoral component ${size}, ${side}`,
    size,
    side,
    ...shape,
    stemValgusDeg: 6,
    levels: LEVELS,
    outlines: femurOutlines(shape),
  };
}

function tray(size: number): Tray {
  const shape = {
    thicknessMm: THICKNESS_MM.tray,
    widthMm: trayWidth(size),
    apMm: trayAp(size),
    keelMm: 28 + size,
  };
  return { ref: `EX-T${size}`, name: `Tibial tray ${size}`, size, ...shape, outlines: trayOutlines(shape) };
}

const LABELS: Readonly<Record<ConstraintLevel, readonly number[]>> = {
  ps: [9, 10, 11, 12, 13, 14, 16, 18, 20, 23, 26],
  vvc: [9, 10, 11, 12, 13, 14, 16, 18, 20, 23, 26],
  hinge: [10, 12, 14, 16, 18, 20, 23, 26],
};

function insert(size: number, level: ConstraintLevel, labelMm: number): Insert {
  // The bearing surface's low point lies half a millimetre under the label; the polyethylene begins above the lock.
  const heightMm = labelMm - 0.5;
  return {
    ref: `EX-I${size}${{ ps: 'P', vvc: 'V', hinge: 'H' }[level]}${labelMm}`,
    name: `Insert ${size}, ${LEVEL_NAME[level]}, ${labelMm} mm`,
    size,
    level,
    labelMm,
    heightMm,
    leastPolyethyleneMm: Math.round((labelMm - LABEL_OVER_POLYETHYLENE_MM) * 10) / 10,
    outlines: insertOutlines({ widthMm: trayWidth(size), apMm: trayAp(size), heightMm, level }),
  };
}

const stem = (fixation: Stem['fixation'], diameterMm: number, lengthMm: number): Stem => ({
  ref: `EX-S${fixation === 'cemented' ? 'C' : 'P'}${diameterMm}-${lengthMm}`,
  name: `Stem, ${fixation}, ${diameterMm} x ${lengthMm} mm`,
  bone: 'both',
  fixation,
  diameterMm,
  lengthMm,
});

const stems = (): Stem[] => [
  ...[10, 12, 14, 16].flatMap((d) => [30, 50, 80, 100, 150].map((l) => stem('cemented', d, l))),
  ...Array.from({ length: 15 }, (_, i) => 10 + i).flatMap((d) => [75, 100, 150, 200].map((l) => stem('press-fit', d, l))),
];

const cones = () =>
  (['femur', 'tibia'] as const).flatMap((bone) =>
    [
      { letter: 'S', widthMm: bone === 'femur' ? 36 : 40, heightMm: 25, sizes: [1, 2, 3] },
      { letter: 'M', widthMm: bone === 'femur' ? 46 : 50, heightMm: 30, sizes: [4, 5, 6] },
      { letter: 'L', widthMm: bone === 'femur' ? 56 : 60, heightMm: 35, sizes: [7, 8] },
    ].map(({ letter, ...shape }) => ({
      ref: `EX-C${bone === 'femur' ? 'F' : 'T'}${letter}`,
      name: `Cone, ${bone}, ${letter}`,
      bone,
      ...shape,
    })),
  );

/** The whole example system. */
export function demoCatalogue(): Catalogue {
  return {
    format: 'gapline-catalogue',
    version: '1.0',
    id: 'example',
    name: 'Example system',
    invented: true,
    retrievedOn: '2026-11-25',
    sourceDocument: 'Invented by this project (catalogues/make-demo.ts); matches no system that exists.',
    femurs: SIDES.flatMap((side) => SIZES.map((size) => femur(size, side))),
    femoralAugments: SIZES.flatMap((size) => [
      ...[4, 8, 12, 16].map((mm) => ({
        ref: `EX-D${size}-${mm}`,
        name: `Distal augment ${size}, ${mm} mm`,
        face: 'distal' as const,
        thicknessMm: mm,
        femurSizes: [size],
      })),
      ...[4, 8].map((mm) => ({
        ref: `EX-P${size}-${mm}`,
        name: `Posterior augment ${size}, ${mm} mm`,
        face: 'posterior' as const,
        thicknessMm: mm,
        femurSizes: [size],
      })),
    ]),
    trays: SIZES.map(tray),
    tibialAugments: SIZES.flatMap((size) =>
      [5, 10, 15, 20].map((mm) => ({
        ref: `EX-B${size}-${mm}`,
        name: `Tibial block ${size}, ${mm} mm`,
        thicknessMm: mm,
        traySizes: [size],
      })),
    ),
    inserts: SIZES.flatMap((size) => LEVELS.flatMap((level) => LABELS[level].map((mm) => insert(size, level, mm)))),
    stems: stems(),
    offsetCouplers: [2, 4, 6].map((mm) => ({
      ref: `EX-O${mm}`,
      name: `Offset coupler, ${mm} mm`,
      bone: 'both' as const,
      offsetMm: mm,
      addedLengthMm: 20,
    })),
    cones: cones(),
    compatibility: {
      femurInsert: SIZES.flatMap((femurSize) =>
        LEVELS.flatMap((level) =>
          near(femurSize, level === 'ps' ? 1 : 0).map((insertSize) => ({ femurSize, insertSize, level })),
        ),
      ),
      insertTray: SIZES.flatMap((insertSize) => near(insertSize, 1).map((traySize) => ({ insertSize, traySize }))),
      femurTray: SIZES.flatMap((femurSize) => near(femurSize, 2).map((traySize) => ({ femurSize, traySize }))),
    },
    limits: { cementMm: 4, cutMm: 3, overhangMm: 3, flangeGapMm: 2, slopeDeg: [0, 3] },
  };
}

/** One part a line, so that a change of one part is a change of one line. */
export function catalogueText(catalogue: Catalogue): string {
  const value = (v: unknown): string =>
    Array.isArray(v) && v.length > 0 && typeof v[0] === 'object' ? `[\n    ${v.map((x) => JSON.stringify(x)).join(',\n    ')}\n  ]` : JSON.stringify(v);
  const lines = Object.entries(catalogue).map(([key, v]) => `  ${JSON.stringify(key)}: ${value(v)}`);
  return `{\n${lines.join(',\n')}\n}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(new URL('demo.json', import.meta.url), catalogueText(demoCatalogue()));
