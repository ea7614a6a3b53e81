import type { Catalogue, ConstraintLevel, Stem } from '../catalogue/catalogue.ts';
import { type ChosenStem, chooseStem, stemLooseMm } from '../stems/choose-stem.ts';
import type { BoneState, StemLimit } from './bone-state.ts';
import { charge } from './price.ts';
import type { Weight } from './weights.ts';

type Bone = 'femur' | 'tibia';

/** The bone's own facts. */
export const boneFacts = (state: BoneState, bone: Bone) =>
  bone === 'femur'
    ? { boneClass: state.femurClass, quality: state.femurQuality, canalMm: state.femurCanalMm }
    : { boneClass: state.tibiaClass, quality: state.tibiaQuality, canalMm: state.tibiaCanalMm };

const limitsOf = (state: BoneState, bone: Bone): readonly StemLimit[] | undefined =>
  bone === 'femur' ? state.femoralStemLimits : state.tibialStemLimits;

/** What was judged of the stems of one canal, by ref, worked out once for each judgement. */
interface Judged {
  readonly limits: ReadonlyMap<string, StemLimit>;
  /** Stems that pass, with what they are too narrow in their own stretch of the canal, mm, where that was judged. */
  readonly narrowMm: ReadonlyMap<string, number>;
  /** Whether every stem that passes was judged in its own stretch. */
  readonly all: boolean;
}

const judged = new WeakMap<readonly StemLimit[], Judged>();

function judgedIn(state: BoneState, bone: Bone): Judged | null {
  const limits = limitsOf(state, bone);
  if (!limits) return null;
  const known = judged.get(limits);
  if (known) return known;
  const passing = limits.filter((limit) => limit.passes);
  const made: Judged = {
    limits: new Map([...limits].reverse().map((limit) => [limit.ref, limit])),
    narrowMm: new Map(limits.flatMap((l) => (typeof l.looseMm === 'number' ? [[l.ref, l.looseMm] as const] : []))),
    all: passing.every((limit) => typeof limit.looseMm === 'number'),
  };
  judged.set(limits, made);
  return made;
}

/** Whether the one diameter of the canal has a say in the choice of stem: not where every stem that passes was judged in its own stretch. */
export const canalDecides = (state: BoneState, bone: Bone): boolean => judgedIn(state, bone)?.all !== true;

/** What the measured canal says of a stem; null where the canal's walls, or this stem in it, were not judged. */
export const stemLimit = (state: BoneState, bone: Bone, ref: string): StemLimit | null =>
  judgedIn(state, bone)?.limits.get(ref) ?? null;

/** How much too narrow a stem is: as measured in its own stretch of the canal, else by the canal's one diameter; null = not known (STM-2). */
export const stemLooseIn = (state: BoneState, bone: Bone, stem: Stem): number | null =>
  stemLimit(state, bone, stem.ref)?.looseMm ?? stemLooseMm(stem, boneFacts(state, bone).canalMm);

/** Tilts that a stem forces on its component, deg, >= 0, in the views that were measured (GAP-28). */
export function forcedTiltsDeg(limit: StemLimit | null): readonly number[] {
  if (!limit) return [];
  const { coronal, sagittal } = limit.forcedTiltDeg;
  const found: number[] = [];
  if (coronal !== null) found.push(Math.abs(coronal));
  if (sagittal !== null) found.push(Math.abs(sagittal));
  return found;
}

/** Flexion that the femoral stem forces on its component, deg, + = flexed; 0 without a stem or where it is not known. */
export const forcedFlexionDeg = (state: BoneState, femoralStem: string | null): number =>
  femoralStem === null ? 0 : (stemLimit(state, 'femur', femoralStem)?.forcedTiltDeg.sagittal ?? 0);

/** What the forced tilts of one stem cost, >= 0. */
export const conflictCost = (limit: StemLimit | null, weight: Weight): number =>
  forcedTiltsDeg(limit).reduce((sum, tilt) => sum + charge(tilt, weight), 0);

/**
 * The stem for one bone at one level. Where the canal's walls were measured, only stems that were tried and pass come
 * into question, those of least conflict first (GAP-28); among equals, and where the walls are not known, as STM-2 and
 * STM-3 say.
 *
 * @returns null where no stem of the catalogue passes.
 */
export function stemFor(
  asked: { readonly bone: Bone; readonly level: ConstraintLevel },
  { state, catalogue }: { readonly state: BoneState; readonly catalogue: Catalogue },
  conflict: Weight,
): ChosenStem | null {
  const wanted = { ...asked, ...boneFacts(state, asked.bone) };
  const canal = judgedIn(state, asked.bone);
  if (!canal) return chooseStem(wanted, catalogue.stems);
  const passing = catalogue.stems.filter((stem) => canal.limits.get(stem.ref)?.passes);
  const costs = new Map(passing.map((s) => [s, conflictCost(canal.limits.get(s.ref) ?? null, conflict)]));
  const steps = [...new Set(costs.values())].sort((x, y) => x - y);
  for (const cost of steps) {
    const stems = steps.length === 1 ? passing : passing.filter((stem) => costs.get(stem) === cost);
    const stem = chooseStem({ ...wanted, measured: canal.narrowMm }, stems);
    if (stem) return stem;
  }
  return null;
}
