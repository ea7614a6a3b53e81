import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Catalogue, ConstraintLevel, Femur, Insert, Segment, Sleeve, Stem, Tray } from '../core/catalogue/catalogue.ts';
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
    stemBehindFlangeMm: 13 + 0.5 * (size - 1),
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

/** Radius of the bowed stems, mm: within the published radii of femora, 826 to 1200 mm. */
const BOW_RADIUS_MM = 1000;

const bowedStem = (diameterMm: number, lengthMm: number): Stem => ({
  ref: `EX-SB${diameterMm}-${lengthMm}`,
  name: `Stem, press-fit, bowed, ${diameterMm} x ${lengthMm} mm`,
  bone: 'femur',
  fixation: 'press-fit',
  diameterMm,
  lengthMm,
  shape: 'bowed',
  bowRadiusMm: BOW_RADIUS_MM,
});

const stems = (): Stem[] => [
  ...[10, 12, 14, 16].flatMap((d) => [30, 50, 80, 100, 150].map((l) => stem('cemented', d, l))),
  ...Array.from({ length: 15 }, (_, i) => 10 + i).flatMap((d) => [75, 100, 150, 200].map((l) => stem('press-fit', d, l))),
  ...Array.from({ length: 15 }, (_, i) => 10 + i).flatMap((d) => [150, 200].map((l) => bowedStem(d, l))),
];

const BONES = ['femur', 'tibia'] as const;

const cones = () =>
  BONES.flatMap((bone) =>
    [
      { letter: 'S', widthMm: bone === 'femur' ? 36 : 40, apMm: 30, heightMm: 25, boreMm: 24, sizes: [1, 2, 3] },
      { letter: 'M', widthMm: bone === 'femur' ? 46 : 50, apMm: 36, heightMm: 30, boreMm: 28, sizes: [4, 5, 6] },
      { letter: 'L', widthMm: bone === 'femur' ? 56 : 60, apMm: 42, heightMm: 35, boreMm: 34, sizes: [7, 8] },
    ].map(({ letter, ...shape }) => ({
      ref: `EX-C${bone === 'femur' ? 'F' : 'T'}${letter}`,
      name: `Cone, ${bone}, ${letter}`,
      bone,
      ...shape,
    })),
  );

/** Five steps of sleeve a bone, with the sizes of femur or tray that each takes. */
const SLEEVE_SIZES: readonly (readonly number[])[] = [
  [1, 2, 3],
  [1, 2, 3, 4],
  [3, 4, 5, 6],
  [4, 5, 6, 7, 8],
  [6, 7, 8],
];

const sleeves = (): Sleeve[] =>
  BONES.flatMap((bone) =>
    SLEEVE_SIZES.map((sizes, i) => ({
      ref: `EX-M${bone === 'femur' ? 'F' : 'T'}${i + 1}`,
      name: `Metaphyseal sleeve, ${bone}, ${i + 1}`,
      bone,
      widthMm: bone === 'femur' ? 22 + 6 * i : 30 + 7.5 * i,
      apMm: bone === 'femur' ? 20 + 4 * i : 24 + 4 * i,
      heightMm: 25 + 5 * i,
      sizes,
    })),
  );

/** Lengths of the pieces that stand between a segmental component and its stem, mm. */
const STEPS_MM = [30, 40, 50, 60, 70, 80, 90, 100, 110, 120];

const segments = (): Segment[] =>
  [2, 4, 6].flatMap((size) => [
    {
      ref: `EX-DF${size}`,
      name: `Distal femoral component ${size}`,
      bone: 'femur' as const,
      side: 'both' as const,
      size,
      levels: ['hinge' as const],
      replacesMm: 65,
      stepsMm: STEPS_MM,
      widthMm: femurWidth(size) - 6,
      apMm: femurAp(size),
      apFreeMm: 6,
      stemValgusDeg: 6,
    },
    {
      ref: `EX-PT${size}`,
      name: `Proximal tibial component ${size}`,
      bone: 'tibia' as const,
      side: 'both' as const,
      size,
      levels: ['hinge' as const],
      replacesMm: 70,
      stepsMm: STEPS_MM,
      widthMm: trayWidth(size) - 6,
      apMm: trayAp(size),
      apFreeMm: 0,
    },
  ]);

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
    sleeves: sleeves(),
    segments: segments(),
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
