import type { Catalogue, Femur, Tray } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import type { Construct } from '../gaps/construct.ts';
import { partsOf } from '../gaps/parts-of.ts';
import type { Side } from '../landmarks/side.ts';

/** How the two components hold their stems, mm and deg; heights from the target joint line outwards along each bone. */
export interface StemSeats {
  readonly femur: {
    /** Where the stem begins. */
    readonly seatMm: number;
    /** Stem to the perpendicular of the distal face, valgus +, deg. */
    readonly valgusDeg: number;
    /** From the flange's face back to the stem's axis, mm; null = the catalogue does not say. */
    readonly behindFlangeMm: number | null;
  };
  readonly tibia: {
    readonly seatMm: number;
    /** Where the middle of the tray's upper face lies: the tray turns about it. */
    readonly faceMm: number;
    readonly slopeDeg: number;
  };
  /** From which parts, in words. */
  readonly from: string;
}

/** What is known when the stems are judged. */
export interface SeatInputs {
  readonly side: Side;
  readonly catalogue: Catalogue;
  readonly state: BoneState | null;
  readonly slopeDeg: number;
}

/** Part whose width comes nearest to a bone's (ties: the smaller); the middle one while the width is not known. */
function nearestWidth<T extends { readonly widthMm: number; readonly ref: string }>(
  parts: readonly T[],
  widthMm: number | null,
): T | null {
  const sorted = parts.toSorted((a, b) => a.widthMm - b.widthMm || (a.ref < b.ref ? -1 : 1));
  if (widthMm === null) return sorted[Math.floor(sorted.length / 2)] ?? null;
  return sorted.reduce<T | null>(
    (best, part) =>
      best === null || Math.abs(part.widthMm - widthMm) < Math.abs(best.widthMm - widthMm) - 1e-9 ? part : best,
    null,
  );
}

const femurSeat = (femur: Femur, proximalMm: number): StemSeats['femur'] => ({
  seatMm: proximalMm + femur.boxDepthMm,
  valgusDeg: femur.stemValgusDeg,
  behindFlangeMm: femur.stemBehindFlangeMm ?? null,
});

const tibiaSeat = (
  tray: Tray,
  boneFaceMm: number,
  { slopeDeg, addedMm }: { readonly slopeDeg: number; readonly addedMm: number },
): StemSeats['tibia'] => ({
  seatMm: boneFaceMm + tray.keelMm + addedMm,
  faceMm: boneFaceMm - tray.thicknessMm,
  slopeDeg,
});

/**
 * Before any construct is chosen (STM-9): components of the bones' own width, the femur on the target joint line, the tray on the
 * better supported side of the tibia or, while that is not known, under the thinnest insert. Other sizes of one system
 * shift the seat by a few millimetres. Null where the catalogue has no femur or no tray for the side.
 */
export function expectedSeats({ side, catalogue, state, slopeDeg }: SeatInputs): StemSeats | null {
  const femurs = catalogue.femurs.filter((f) => f.side === side || f.side === 'both');
  const femur = nearestWidth(femurs, state?.femurWidthMm ?? null);
  const tray = nearestWidth(catalogue.trays, state?.tibiaWidthMm ?? null);
  if (!femur || !tray) return null;
  const thinnest = Math.min(...catalogue.inserts.map((i) => i.heightMm), 20);
  const faceMm = state ? Math.min(state.tibiaMm.medial, state.tibiaMm.lateral) : thinnest + tray.thicknessMm;
  return {
    femur: femurSeat(femur, 0),
    tibia: tibiaSeat(tray, faceMm, { slopeDeg, addedMm: 0 }),
    from: `${femur.name}; ${tray.name}: the sizes of these bones, on the target joint line`,
  };
}

/** As the chosen construct seats: its own parts, J, U, slope, and the length that an offset coupler adds. */
export function seatsOf(construct: Construct, catalogue: Catalogue): StemSeats {
  const { femur, femoralSegment, femoralOffset, tray, tibialOffset } = partsOf(construct, catalogue);
  const j = construct.femurProximalMm;
  const added = femoralOffset?.addedLengthMm ?? 0;
  const held = femurSeat(femur, j + added);
  return {
    // A segment ends at the cut of the shaft, and its stem begins there.
    femur: femoralSegment ? { ...held, seatMm: j + added + femur.distalMm } : held,
    tibia: tibiaSeat(tray, -construct.trayMm, {
      slopeDeg: construct.slopeDeg,
      addedMm: tibialOffset?.addedLengthMm ?? 0,
    }),
    from: `${femur.name}; ${tray.name}: as the proposed construct seats`,
  };
}
