import type { Catalogue } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct } from '../gaps/construct.ts';
import { partsOf } from '../gaps/parts-of.ts';
import { trayPlaceIn } from '../gaps/tray-place.ts';
import { judgeStem, type StemVerdict } from '../stems/judge-stem.ts';
import { mapsOf } from './bone-stock.ts';
import type { StemDrawing } from './draw-stems.ts';
import type { Plan } from './plan.ts';
import { surroundingsOf } from './stem-plan.ts';
import type { StemScene } from './stem-plan-canals.ts';
import { seatsOf } from './stem-plan-seats.ts';

/** What the stems of any construct, the proposed one or an alternative, are drawn from. */
export interface StemsDrawnFrom extends Pick<StemScene, 'file' | 'evidence' | 'tilt'> {
  readonly catalogue: Catalogue;
  readonly targetMm: number;
  readonly stock: Plan['boneStock'];
  /** Null = not known. */
  readonly state: BoneState | null;
}

/** A construct's stems judged where they lie, ready for drawing on any film. */
export function stemDrawing(from: StemsDrawnFrom, construct: Construct): StemDrawing {
  const { file, evidence, tilt, targetMm, catalogue, stock, state } = from;
  const parts = partsOf(construct, catalogue);
  const seats = seatsOf(construct, catalogue);
  const scene: StemScene = { file, evidence, tilt, targetMm, seats, maps: mapsOf(stock) };
  const judged = (bone: 'femur' | 'tibia'): StemVerdict | null => {
    const stem = bone === 'femur' ? parts.femoralStem : parts.tibialStem;
    if (!stem) return null;
    const { around } = surroundingsOf(bone, scene, catalogue, parts);
    return around.canal.ap || around.canal.lateral ? judgeStem(stem, around) : null;
  };
  const trayPlace = state ? trayPlaceIn(parts, state) : null;
  return { scene, construct, parts, trayPlace, chosen: { femur: judged('femur'), tibia: judged('tibia') } };
}
