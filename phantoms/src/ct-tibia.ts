import { between, CORTEX, ellipse, METAL, PLASTIC, type Place, SPONGE, shell, turnedIn } from './ct-tissue.ts';
import { rad } from './space.ts';

/** Levels under the joint line, mm: middle of the tray, bone just below it, tip of the tubercle. */
export const TRAY_MM = -10;
export const PLATEAU_MM = -14;
export const TUBERCLE_MM = -38;

const PLATEAU = { wide: 37, deep: 25 } as const;
const TRAY = { wide: 34, deep: 24, back: -21, marked: 14 } as const;
/** The tip lies this far from the centre of the plateau, and as far lateral of its front as the native component axis is internal. */
const TIP = { mm: 34, lateralDeg: 18, thick: 7 } as const;

export const PLATEAU_CENTRE: Place = [0, 0];
const towardsTip: Place = [Math.sin(rad(TIP.lateralDeg)), Math.cos(rad(TIP.lateralDeg))];
export const TUBERCLE_TIP: Place = [TIP.mm * towardsTip[0], TIP.mm * towardsTip[1]];

/** The tray's frame, turned by so many degrees against the line to the tubercle, internal negative. */
const trayFrame = (externalDeg: number) => ({ middle: PLATEAU_CENTRE, turn: -rad(TIP.lateralDeg + externalDeg) });

/** Two places on the back edge of the tray, in the limb. */
export function trayBacks(externalDeg: number): { readonly medial: Place; readonly lateral: Place } {
  const { turn } = trayFrame(externalDeg);
  const at = (x: number): Place => [
    Math.cos(turn) * x - Math.sin(turn) * TRAY.back,
    Math.sin(turn) * x + Math.cos(turn) * TRAY.back,
  ];
  return { medial: at(-TRAY.marked), lateral: at(TRAY.marked) };
}

/** Outline of the plateau just below the tray, points all round. */
export const plateauOutline = (points: number): readonly Place[] =>
  Array.from({ length: points }, (_, i) => {
    const a = (2 * Math.PI * (i + 0.3)) / points;
    return [PLATEAU.wide * Math.cos(a), PLATEAU.deep * Math.sin(a)] as const;
  });

/** How far the tubercle stands out at a level, 0 to 1. */
const prominence = (z: number): number => Math.exp(-(((z - TUBERCLE_MM) / 9) ** 2));

/** Tibia, fibula, tray and insert at a place of the limb; null where there is none. */
export function tibiaAt(x: number, y: number, z: number, externalDeg: number): number | null {
  const [u, v] = turnedIn([x, y], trayFrame(externalDeg));
  const onTray = v > TRAY.back && ellipse([u, v], TRAY.wide, TRAY.deep) < 1;
  if (between(z, -12, -8) && onTray) return METAL;
  if (between(z, -8, 0) && onTray) return PLASTIC;
  if (z > -12) return null;
  if (z > -36 && ((Math.abs(u) < 22 + 0.5 * z && Math.abs(v) < 2) || Math.hypot(u, v) < 6)) return METAL;
  if (Math.hypot(x - 33, y + 24) < 7) return Math.hypot(x - 33, y + 24) > 5 ? CORTEX : SPONGE;
  const waist = 1 - 0.35 * Math.min(Math.max((-14 - z) / 36, 0), 1);
  const e = Math.sqrt(ellipse([x, y], PLATEAU.wide * waist, PLATEAU.deep * waist));
  // The distance from an ellipse, near enough for a shell of two millimetres.
  const fromPlateau = (e - 1) * PLATEAU.deep * waist;
  const reach = (TIP.mm - TIP.thick) * prominence(z);
  const along = Math.min(Math.max(x * towardsTip[0] + y * towardsTip[1], 0), reach);
  const fromTubercle = Math.hypot(x - along * towardsTip[0], y - along * towardsTip[1]) - TIP.thick;
  return shell(Math.min(fromPlateau, fromTubercle), 2);
}
