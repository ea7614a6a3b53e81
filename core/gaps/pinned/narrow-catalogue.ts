import type { Catalogue, Stem } from '../../catalogue/catalogue.ts';
import { isSame } from './is-same.ts';
import { NO_STEM, type Pinned } from './pinned.ts';

/** Pins that leave only some parts of the catalogue. */
const OF_PARTS = ['level', 'femurSize', 'traySize', 'insertMm', 'slopeDeg', 'femoralStem', 'tibialStem'] as const;

/** Narrowed catalogues that are kept for one catalogue; a hand goes through few of them. */
const MOST_KEPT = 60;
const narrowed = new WeakMap<Catalogue, Map<string, Catalogue>>();

/**
 * The catalogue with those parts only that what is fixed by hand leaves (GAP-40); the catalogue itself where no part is
 * fixed. The same catalogue and parts give the same object, so that a drag does not sort the catalogue anew.
 */
export function narrowedBy(catalogue: Catalogue, pinned: Pinned): Catalogue {
  const key = JSON.stringify(OF_PARTS.map((id) => pinned[id] ?? null));
  if (OF_PARTS.every((id) => pinned[id] === undefined)) return catalogue;
  const kept = narrowed.get(catalogue) ?? new Map<string, Catalogue>();
  narrowed.set(catalogue, kept);
  const known = kept.get(key);
  if (known) return known;
  if (kept.size >= MOST_KEPT) kept.clear();
  const made = narrow(catalogue, pinned);
  kept.set(key, made);
  return made;
}

function narrow(catalogue: Catalogue, pinned: Pinned): Catalogue {
  const { level, femurSize, traySize, insertMm, slopeDeg } = pinned;
  const takes = <T>(wanted: T | undefined, is: T): boolean => wanted === undefined || wanted === is;
  return {
    ...catalogue,
    femurs: catalogue.femurs.filter((f) => takes(femurSize, f.size)),
    trays: catalogue.trays.filter((t) => takes(traySize, t.size)),
    inserts: catalogue.inserts.filter(
      (i) => takes(level, i.level) && (insertMm === undefined || isSame(i.labelMm, insertMm)),
    ),
    stems: stemsLeft(catalogue.stems, pinned),
    ...(catalogue.segments
      ? { segments: catalogue.segments.filter((s) => takes(s.bone === 'femur' ? femurSize : traySize, s.size)) }
      : {}),
    limits: {
      ...catalogue.limits,
      slopeDeg: catalogue.limits.slopeDeg.filter((deg) => slopeDeg === undefined || isSame(deg, slopeDeg)),
    },
  };
}

/** A stem that is fixed in one bone is the only one there; elsewhere the others stay. */
function stemsLeft(stems: readonly Stem[], { femoralStem, tibialStem }: Pinned): Stem[] {
  const wanted = { femur: femoralStem, tibia: tibialStem };
  const goes = (stem: Stem, bone: 'femur' | 'tibia'): boolean => {
    const ref = wanted[bone];
    return (stem.bone === 'both' || stem.bone === bone) && (ref === undefined || ref === NO_STEM || ref === stem.ref);
  };
  return stems.flatMap((stem): Stem[] => {
    const [femur, tibia] = [goes(stem, 'femur'), goes(stem, 'tibia')];
    if (femur && tibia) return [stem];
    return femur ? [{ ...stem, bone: 'femur' }] : tibia ? [{ ...stem, bone: 'tibia' }] : [];
  });
}
