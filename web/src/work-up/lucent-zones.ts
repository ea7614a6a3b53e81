import type { LucentComponent } from '@gapline/core/failure/lucent-lines.ts';

/** Our own plain drawing of a component: its outline, and the interface to bone of each zone in order. */
export interface LucentDrawing {
  readonly label: string;
  /** What stands at the left and the right edge, for a left knee seen from the front, or in profile. */
  readonly edges: readonly [string, string];
  readonly outline: string;
  readonly zones: readonly { readonly path: string; readonly at: readonly [number, number] }[];
}

const zone = (path: string, x: number, y: number) => ({ path, at: [x, y] as const });

/** Zones numbered as `ZONES` counts them; drawn in a box of 160 by 130. */
export const LUCENT_DRAWINGS: Readonly<Record<LucentComponent, LucentDrawing>> = {
  femur: {
    label: 'Femur, lateral',
    edges: ['front', 'back'],
    outline: 'M38 12H48L52 62 66 80H74V36H86V80H94L112 66 118 44H128C134 70 124 104 84 110 44 112 34 70 38 12Z',
    zones: [
      zone('M48 12 52 62', 62, 34),
      zone('M52 62 66 80', 50, 84),
      zone('M94 80 112 66', 110, 88),
      zone('M112 66 118 44', 104, 52),
      zone('M74 80V40', 66, 58),
      zone('M74 36H86', 80, 26),
      zone('M86 40V80', 94, 60),
    ],
  },
  'tibia-ap': {
    label: 'Tibia, AP',
    edges: ['medial', 'lateral'],
    outline: 'M16 18H144V32H90V104Q80 114 70 104V32H16Z',
    zones: [
      zone('M16 34H42', 28, 48),
      zone('M44 34H68', 56, 48),
      zone('M92 34H116', 104, 48),
      zone('M118 34H144', 132, 48),
      zone('M68 38V98', 58, 76),
      zone('M68 104Q80 118 92 104', 80, 126),
      zone('M92 38V98', 102, 76),
    ],
  },
  'tibia-lateral': {
    label: 'Tibia, lateral',
    edges: ['front', 'back'],
    outline: 'M34 18H126V32H90V104Q80 114 70 104V32H34Z',
    zones: [zone('M34 34H68', 48, 48), zone('M92 34H126', 112, 48), zone('M68 38V104Q80 118 92 104V38', 80, 126)],
  },
  patella: {
    label: 'Patella, skyline',
    edges: ['medial', 'lateral'],
    outline: 'M24 74Q80 124 136 74H124V58H112V74H86V52H74V74H48V58H36V74Z',
    zones: [
      zone('M24 72H34V56H50V72', 34, 46),
      zone('M51 72H72', 61, 60),
      zone('M72 70V50H88V70', 80, 40),
      zone('M88 72H109', 99, 60),
      zone('M110 72V56H126V72H136', 126, 46),
    ],
  },
};
