import type { ConstraintLevel } from '../../catalogue/catalogue.ts';
import type { ChosenStem } from '../../stems/choose-stem.ts';
import type { BoneState } from '../bone-state.ts';
import { fixationsOf, metaphysealParts } from '../fixation.ts';
import { charge, type Prices } from '../price.ts';
import { boneFacts, canalDecides, stemFor } from '../stem-limits.ts';
import type { Bounds } from './bounds.ts';
import type { Load, Ways, WaysOf } from './holds.ts';
import type { Prepared, PreparedFemur, PreparedTray } from './prepared.ts';
import { remember, rememberAt } from './remember.ts';

/** Lists beyond these are forgotten, so that the memory stays small. */
const MOST_KEPT = 1000;

/** One bone of one state at one level. */
interface AtLevel {
  readonly stem: ChosenStem | null;
  readonly looseStem: number;
  /** Kept from state to state, by hold table. */
  readonly kept: Ways['under'][];
  /** Of this state, by hold table. */
  readonly here: Ways[];
}

/**
 * Ways to hold a bone, kept from state to state: they hang on few facts (class, quality, level, the stem), so the states
 * of a forecast share them. How well the stem fits differs from canal to canal and is charged on top.
 */
export class HoldMemory {
  private ways = new Map<string, Ways['under'][]>();
  private stems = new Map<string, ChosenStem | null>();
  private measured: readonly unknown[] = [];

  /** Forgets everything where canal walls or cavities are those of another knee. */
  private enter(state: BoneState): void {
    const now = [state.femoralStemLimits, state.tibialStemLimits, state.femurCavity, state.tibiaCavity];
    const full = this.ways.size > MOST_KEPT || this.stems.size > MOST_KEPT;
    if (now.every((x, i) => x === this.measured[i]) && !full) return;
    this.ways = new Map();
    this.stems = new Map();
    this.measured = now;
  }

  /** For one state: the ways to hold a component at a level. */
  of(question: { prepared: Prepared; state: BoneState; prices: Prices; bounds: Bounds }): WaysOf {
    this.enter(question.state);
    const levels: Record<'femur' | 'tibia', Partial<Record<ConstraintLevel, AtLevel>>> = { femur: {}, tibia: {} };
    return (part, level) => {
      const bone = 'femur' in part ? 'femur' : 'tibia';
      const ofBone = levels[bone];
      ofBone[level] ??= this.at({ bone, level }, question);
      const at = ofBone[level];
      return rememberAt(at.here, part.holdTable, () => ({
        under: rememberAt(at.kept, part.holdTable, () => underEach(part, { level, stem: at.stem }, question)),
        looseStem: at.looseStem,
      }));
    };
  }

  private at(
    asked: { readonly bone: 'femur' | 'tibia'; readonly level: ConstraintLevel },
    { prepared, state, prices, bounds }: { prepared: Prepared; state: BoneState; prices: Prices; bounds: Bounds },
  ): AtLevel {
    const { bone, level } = asked;
    const { boneClass, quality, canalMm } = boneFacts(state, bone);
    const facts = `${bone}|${level}|${boneClass}|${quality}`;
    const choose = () => stemFor(asked, { state, catalogue: prepared.catalogue }, prices['stem-conflict']);
    // A stem that was chosen by the diameter of the canal holds for that diameter alone.
    const canal = canalDecides(state, bone) ? `|${canalMm}` : '';
    const chosen = remember(this.stems, facts + canal, choose);
    const stem = chosen && (chosen.looseMm === null ? chosen : { ...chosen, looseMm: 0 });
    const name = stem ? `${stem.stem.ref}|${stem.looseMm}` : '';
    return {
      stem,
      looseStem: charge(chosen?.looseMm ?? 0, prices['stem-fit']),
      kept: remember(this.ways, `${facts}|${bounds.stemsDemanded}|${bounds.zonesDemanded}|${name}`, () => []),
      here: [],
    };
  }
}

/** Under each load the ways to hold a component with the stem that goes there. */
function underEach(
  part: PreparedFemur | PreparedTray,
  { level, stem }: { readonly level: ConstraintLevel; readonly stem: ChosenStem | null },
  { prepared, state, prices, bounds }: { prepared: Prepared; state: BoneState; prices: Prices; bounds: Bounds },
): Ways['under'] {
  const bone = 'femur' in part ? 'femur' : 'tibia';
  const asked = 'femur' in part ? part.femur : { size: part.tray.size, boxWidthMm: 0 };
  const { cones, sleeves } = metaphysealParts({ ...asked, bone }, { state, catalogue: prepared.catalogue });
  const under = (load: Load) =>
    fixationsOf(
      {
        bone,
        level,
        augments: load === 'augmented' ? 1 : 0,
        offsetCoupler: load === 'coupled',
        stem,
        cones,
        sleeves,
        segment: part.segment !== null,
        stemsDemanded: bounds.stemsDemanded,
        zonesDemanded: bounds.zonesDemanded,
      },
      state,
      prices,
    );
  return { plain: under('plain'), augmented: under('augmented'), coupled: under('coupled') };
}
