import type { Catalogue, OffsetCoupler, Stem } from '../catalogue/catalogue.ts';
import { leastConstraint, levelRank } from '../constraint/least-constraint.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import { pricesOf } from '../gaps/price.ts';
import { boundsOf } from '../gaps/solver/bounds.ts';
import { prepare } from '../gaps/solver/prepare.ts';
import { type Kind, Search } from '../gaps/solver/search.ts';
import { Tables } from '../gaps/solver/tables.ts';
import { constructOf } from '../gaps/solver/to-construct.ts';
import { partsNeeded } from './parts-needed.ts';
import type { Covering } from './room-solver.ts';
import type { Pieces } from './set-contents.ts';

/** A room, and what it may be built from. */
export interface SingleRoom {
  readonly covering: Covering;
  readonly pieces: Pieces;
  readonly room: Catalogue;
}

/**
 * An acceptable construct that uses each piece of the room once, exactly, for the knees whose best construct would
 * use a piece twice (KIT-3). A stem that fits both bones is tried in the one and in the other; of augments and blocks of
 * which one is there, pairs are left out of the search, for each femur and tray on its own.
 *
 * @returns the pieces, or null where there is none.
 */
export function withSingleParts(single: SingleRoom, state: BoneState): Pieces | null {
  const found = leastWithoutPairs(single, state);
  if (!found) return null;
  const short = [...found].find(([ref, count]) => count > (single.pieces.get(ref) ?? 0))?.[0];
  if (short === undefined) return found;
  for (const bone of ['femur', 'tibia'] as const) {
    const keep = <T extends Stem | OffsetCoupler>(part: T): T => (part.ref === short ? { ...part, bone } : part);
    const { stems, offsetCouplers } = single.room;
    const room = { ...single.room, stems: stems.map(keep), offsetCouplers: offsetCouplers.map(keep) };
    const other = withSingleParts({ ...single, room }, state);
    if (other) return other;
  }
  return null;
}

/** Every femur with every tray, each with a search of its own. */
function leastWithoutPairs({ covering, pieces, room }: SingleRoom, state: BoneState): Pieces | null {
  const { weights, settings, acceptableCost } = covering;
  const prices = pricesOf(weights);
  const bounds = boundsOf(room, settings, levelRank(leastConstraint(state).level));
  for (const one of jointsOf(room)) {
    const prepared = prepare(one);
    const tables = new Tables({ prepared, state, prices, bounds });
    const found = new Search(tables, noPairs(one, pieces), { ceiling: acceptableCost }).run();
    if (found && found.cost <= acceptableCost) return partsNeeded(constructOf(found, tables));
  }
  return null;
}

/** The catalogue of the room with one femur and one tray, for each two. */
function jointsOf(room: Catalogue): Catalogue[] {
  const segments = (bone: 'femur' | 'tibia') => (room.segments ?? []).filter((s) => s.bone === bone);
  const femoral: Partial<Catalogue>[] = [
    ...room.femurs.map((femur) => ({ femurs: [femur], segments: [] })),
    ...segments('femur').map((segment) => ({ femurs: [], segments: [segment] })),
  ];
  return femoral.flatMap((part) => [
    ...room.trays.map((tray) => ({ ...room, ...part, trays: [tray] })),
    ...segments('tibia').map((segment) => ({
      ...room,
      ...part,
      trays: [],
      segments: [...(part.segments ?? []), segment],
    })),
  ]);
}

/** Of augments and blocks of which one is there, no pair. */
function noPairs(one: Catalogue, pieces: Pieces): Kind {
  const [femur, tray] = [one.femurs[0], one.trays[0]];
  const single = (parts: readonly { readonly ref: string; readonly thicknessMm: number }[]) =>
    new Set([0, ...parts.filter((p) => (pieces.get(p.ref) ?? 0) < 2).map((p) => p.thicknessMm)]);
  const onFace = (face: 'distal' | 'posterior') =>
    one.femoralAugments.filter((a) => a.face === face && femur && a.femurSizes.includes(femur.size));
  const under = one.tibialAugments.filter((a) => tray && a.traySizes.includes(tray.size));
  const without = (parts: ReturnType<typeof onFace> | typeof under) => {
    const thin = single(parts);
    return (choice: { readonly medial: number; readonly lateral: number; readonly thicknessMm: number }): boolean =>
      choice.medial === 0 || choice.medial !== choice.lateral || !thin.has(choice.thicknessMm / 2);
  };
  return { distal: without(onFace('distal')), posterior: without(onFace('posterior')), blocks: without(under) };
}
