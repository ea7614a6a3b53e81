import type { BoneClass, BoneQuality } from '../bone/bone-class.ts';
import type { ConstraintLevel, Stem } from '../catalogue/catalogue.ts';

export interface StemWanted {
  readonly bone: 'femur' | 'tibia';
  /** Inner canal diameter, mm; null = not measured. */
  readonly canalMm: number | null;
  readonly boneClass: BoneClass;
  readonly quality: BoneQuality | 'unknown';
  readonly level: ConstraintLevel;
  /**
   * Stems that were judged in their own stretch of the canal and pass, by ref, with what they are too narrow there, mm; the one
   * diameter of the canal does not count for them.
   */
  readonly measured?: ReadonlyMap<string, number>;
}

export interface ChosenStem {
  readonly stem: Stem;
  /** Missing width against the fit that is asked, mm, >= 0; null = canal not measured. */
  readonly looseMm: number | null;
}

/** Mantle on each side of a cemented stem, mm, and play of a press-fit one, mm (STM-2). */
export const CEMENT_MANTLE_MM = 2;
export const PRESS_FIT_PLAY_MM = 0.5;
/** Least length for types 1 and 2, and for type 3 or a hinge, mm (STM-3). */
const LENGTH_MM = { usual: 50, long: 100 };
/** Thickness of cement beyond which a cemented stem is called loose in its canal, each side, mm (STM-2). */
const MOST_MANTLE_MM = 4;

const needsLength = ({ boneClass, level }: StemWanted): number =>
  boneClass === '3' || level === 'hinge' ? LENGTH_MM.long : LENGTH_MM.usual;

const byRef = (a: Stem, b: Stem): number => (a.ref < b.ref ? -1 : a.ref > b.ref ? 1 : 0);

/**
 * How much narrower a stem is than its canal asks for, mm, >= 0; 0 = fits. Null where the canal was not measured.
 * Press-fit: the canal less 0.5 mm; cemented: no more than 4 mm of cement on each side (STM-2).
 */
export function stemLooseMm(stem: Pick<Stem, 'fixation' | 'diameterMm'>, canalMm: number | null): number | null {
  if (canalMm === null) return null;
  return stem.fixation === 'press-fit'
    ? Math.max(0, canalMm - PRESS_FIT_PLAY_MM - stem.diameterMm)
    : Math.max(0, canalMm - 2 * MOST_MANTLE_MM - stem.diameterMm);
}

function passes(stem: Stem, canalMm: number): boolean {
  return stem.fixation === 'press-fit' ? stem.diameterMm <= canalMm : stem.diameterMm <= canalMm - 2 * CEMENT_MANTLE_MM;
}

/**
 * The stem for one bone out of those of a catalogue (STM-2, STM-3): long enough for the defect and the constraint, then the
 * fixation that the bone asks for (cemented in osteoporotic bone, else press-fit), then the best fit of the canal,
 * then the shortest, then by reference. Where the canal was not measured: the thinnest cemented one as a place
 * holder, and its fit is `null`, not known.
 *
 * @returns null where no stem of the catalogue passes the canal. Widths in mm.
 * Source: press-fit to the endosteum less 0 to 0.5 mm, cemented 4 mm less than the canal: planning defaults, grade D.
 */
export function chooseStem(wanted: StemWanted, stems: readonly Stem[]): ChosenStem | null {
  const { canalMm, measured, bone, quality } = wanted;
  const least = needsLength(wanted);
  const prefers = quality === 'osteoporotic' ? 'cemented' : 'press-fit';
  let best: Ranked | null = null;
  for (const stem of stems) {
    if ((stem.bone !== 'both' && stem.bone !== bone) || stem.lengthMm < least) continue;
    const measuredMm = measured?.get(stem.ref);
    const goes = canalMm === null ? stem.fixation === 'cemented' : passes(stem, canalMm);
    if (measuredMm === undefined && !goes) continue;
    const next = { stem, looseMm: measuredMm ?? stemLooseMm(stem, canalMm), other: stem.fixation !== prefers };
    if (!best || comesBefore(next, best)) best = next;
  }
  return best && { stem: best.stem, looseMm: best.looseMm };
}

interface Ranked extends ChosenStem {
  /** Not of the fixation that the bone asks for. */
  readonly other: boolean;
}

/** Order of preference; what was not measured comes last, the thinnest first. */
function comesBefore(a: Ranked, b: Ranked): boolean {
  if (a.looseMm === null || b.looseMm === null) {
    if (a.looseMm !== b.looseMm) return b.looseMm === null;
    const byWidth = a.stem.diameterMm - b.stem.diameterMm || a.stem.lengthMm - b.stem.lengthMm;
    return (byWidth || byRef(a.stem, b.stem)) < 0;
  }
  if (a.other !== b.other) return b.other;
  const byFit = a.looseMm - b.looseMm || a.stem.lengthMm - b.stem.lengthMm || b.stem.diameterMm - a.stem.diameterMm;
  return (byFit || byRef(a.stem, b.stem)) < 0;
}
