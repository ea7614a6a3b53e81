import type { Catalogue, ConstraintLevel, Stem } from '../catalogue/catalogue.ts';
import type { BoneState } from '../gaps/bone-state.ts';
import { type Prices, pricesOf } from '../gaps/price.ts';
import { remember } from '../gaps/solver/remember.ts';
import { boneFacts, canalDecides, conflictCost, stemFor, stemLimit } from '../gaps/stem-limits.ts';
import type { WeightTable } from '../gaps/weights.ts';
import { type TraysOfRoom, traySaving, traysArePlaced } from './tray-saving.ts';

export type Bone = 'femur' | 'tibia';
export const BONES: readonly Bone[] = ['femur', 'tibia'];

export interface PricedStem {
  readonly stem: Stem;
  /** Fit and conflict with the canal, in cost of a construct. */
  readonly cost: number;
}

/** Stems that lie in a room; `key` names them, so that rooms with the same share what is worked out. And what stands on them. */
export interface RoomStems extends TraysOfRoom {
  readonly stems: readonly Stem[];
  readonly key: string;
}

export const roomStems = (room: Catalogue): RoomStems => ({
  stems: room.stems,
  key: room.stems.map((s) => s.ref).join(' '),
  trays: room.trays,
  couplers: room.offsetCouplers,
  overhangMm: room.limits.overhangMm,
});

/** What another choice of stems than the preferred one could spare. */
export interface StemSaving {
  /** At most; 0 = nothing. */
  readonly most: number;
  /** Lists of stems to try instead, one alone in each bone. */
  readonly instead: readonly (readonly Stem[])[];
}

/** A level at which a stem may be short, and one at which it may not (STM-3). */
const LEVELS: readonly ConstraintLevel[] = ['ps', 'hinge'];

interface Kept {
  readonly alone: Map<string, readonly PricedStem[]>;
  readonly saved: Map<string, StemSaving>;
}
const newKept = (): Kept => ({ alone: new Map(), saved: new Map() });
/** Kinds of knee whose stems are remembered. */
const MOST_KEPT = 60;

/** Every choice of one stem of each list. */
const oneOfEach = (lists: readonly (readonly Stem[])[]): (readonly Stem[])[] =>
  lists.reduce<(readonly Stem[])[]>((ways, list) => ways.flatMap((way) => list.map((stem) => [...way, stem])), [[]]);

const NOTHING: StemSaving = { most: 0, instead: [] };

/**
 * What each stem of the catalogue costs in one knee after another: its fit and its conflict with the canal, a cost
 * that hangs on nothing else of the construct.
 */
export class StemPrices {
  private readonly catalogue: Catalogue;
  private readonly prices: Prices;
  /** By what stems hang on: knees that share it share what is worked out. */
  private readonly kept = new Map<string, Kept>();
  private measured: readonly unknown[] = [];
  private of: BoneState | null = null;
  private here: Kept = newKept();

  constructor(catalogue: Catalogue, weights: WeightTable) {
    this.catalogue = catalogue;
    this.prices = pricesOf(weights);
  }

  /** Every stem that passes in this bone at this level, cheapest first, then by reference. */
  passing(bone: Bone, level: ConstraintLevel, state: BoneState): readonly PricedStem[] {
    const { alone } = this.look(state);
    const key = `${bone} ${level === 'hinge' ? 'hinge' : 'ps'}`;
    const known = alone.get(key);
    if (known) return known;
    const all = this.catalogue.stems.flatMap((stem) => this.chosen(bone, level, { state, stems: [stem] }) ?? []);
    const made = all.sort((a, b) => a.cost - b.cost || (a.stem.ref < b.stem.ref ? -1 : 1));
    alone.set(key, made);
    return made;
  }

  /**
   * The stem that the rules prefer, by fixation first (STM-2), may fit worse than another one that lies in the room.
   * Nothing that lies there has to be used, so the other one is to be tried too, or a fuller room would cover less (KIT-2).
   */
  savingIn(room: RoomStems, state: BoneState): StemSaving {
    const { saved } = this.look(state);
    // Where stems set the tray hangs on the width of the tibia, which differs from knee to knee.
    if (traysArePlaced(state)) return this.saving(room, state);
    return remember(saved, room.key, () => this.saving(room, state));
  }

  private look(state: BoneState): Kept {
    if (this.of === state) return this.here;
    const measured = [state.femoralStemLimits, state.tibialStemLimits];
    if (measured.some((limits, i) => limits !== this.measured[i]) || this.kept.size > MOST_KEPT) this.kept.clear();
    const key = BONES.map((bone) => {
      const { boneClass, quality, canalMm } = boneFacts(state, bone);
      return `${boneClass} ${quality} ${canalDecides(state, bone) ? canalMm : ''}`;
    }).join('|');
    const known = this.kept.get(key);
    const kept = known ?? newKept();
    if (!known) this.kept.set(key, kept);
    this.of = state;
    this.measured = measured;
    this.here = kept;
    return kept;
  }

  private saving(room: RoomStems, state: BoneState): StemSaving {
    const inRoom = room.stems;
    const there = new Set(inRoom.map((s) => s.ref));
    let most = 0;
    const instead: (readonly Stem[])[] = [];
    for (const level of LEVELS) {
      let saving = 0;
      const ofBones: (readonly Stem[])[] = [];
      for (const bone of BONES) {
        const preferred = this.chosen(bone, level, { state, stems: inRoom });
        if (!preferred) continue;
        if (bone === 'tibia' && traysArePlaced(state)) {
          const passing = this.passing(bone, level, state).filter((p) => there.has(p.stem.ref));
          const placed = traySaving(preferred, passing, { state, prices: this.prices, room });
          saving += placed.most;
          ofBones.push([preferred.stem, ...placed.stems].map((stem) => ({ ...stem, bone })));
          continue;
        }
        const best = preferred.cost > 0 ? this.passing(bone, level, state).find((p) => there.has(p.stem.ref)) : null;
        const taken = best && best.cost < preferred.cost - 1e-9 ? best : preferred;
        saving += preferred.cost - taken.cost;
        ofBones.push([{ ...taken.stem, bone }]);
      }
      if (saving > 0) instead.push(...oneOfEach(ofBones));
      most = Math.max(most, saving);
    }
    return most > 0 ? { most, instead } : NOTHING;
  }

  private chosen(
    bone: Bone,
    level: ConstraintLevel,
    { state, stems }: { readonly state: BoneState; readonly stems: readonly Stem[] },
  ): PricedStem | null {
    const conflict = this.prices['stem-conflict'];
    const found = stemFor({ bone, level }, { state, catalogue: { ...this.catalogue, stems } }, conflict);
    if (!found) return null;
    const { stem, looseMm } = found;
    const fit = this.prices['stem-fit'].weight * (looseMm ?? 0);
    return { stem, cost: fit + conflictCost(stemLimit(state, bone, stem.ref), conflict) };
  }
}
