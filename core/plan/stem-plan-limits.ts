import type { MetaphysisMap } from '../bone/bone-map.ts';
import type { Catalogue } from '../catalogue/catalogue.ts';
import type { CavityFit, StemLimit } from '../gaps/bone-state.ts';
import { type CavityVerdict, cavityIsMeasured, fitCavity } from '../metaphysis/fit-cavity.ts';
import { partsFor } from '../metaphysis/metaphyseal-part.ts';
import type { StemVerdict } from '../stems/judge-stem.ts';
import type { OffsetNeeded } from '../stems/offset-direction.ts';

/** Length from which a stem counts as long (STM-3), mm. */
const LONG_MM = 100;

const isShort = (v: StemVerdict): boolean => v.bypass.some((b) => b.standing === 'not-met');

/** How far off the bone's middle a component may stand after the best coupler, mm (STM-15): as far as parts may overhang. */
const MOST_REST_MM = 3;

/** Those that do better, or all where none does: a wish that nothing meets excludes nothing. */
function unlessAll<T>(all: readonly T[], isWorse: (one: T) => boolean): readonly T[] {
  const better = all.filter((one) => !isWorse(one));
  return better.length > 0 ? better : all;
}

/**
 * What the solver may choose from (STM-15): stems that pass. What is not known is left to it only where no stem of 100 mm and more is known
 * to pass, for what is missing is never negative. Stems that end short of a weak spot are left out unless all do, and then those
 * that leave their component more than 3 mm off the bone's middle, unless all do. With `tray`, for a tibia: where each stem sets
 * the tray, and how much longer it may be (GAP-31, GAP-32).
 */
export function stemLimits(verdicts: readonly StemVerdict[], tray?: TrayOnFilms): readonly StemLimit[] {
  const open = verdicts.filter((v) => v.verdict !== 'does-not-pass');
  const longOnes = open.some((v) => v.verdict === 'passes' && v.lengthMm >= LONG_MM);
  const held = longOnes ? open.filter((v) => v.verdict === 'passes') : open;
  const beyond = unlessAll(held, isShort);
  const central = unlessAll(beyond, (v) => (v.offset?.choice.restMm ?? 0) > MOST_REST_MM);
  const allowed = new Set(central.map((v) => v.ref));
  return verdicts.map((v) => ({
    ref: v.ref,
    passes: allowed.has(v.ref),
    longestPassingMm: least(v.ap?.longestMm, v.lateral?.longestMm),
    looseMm: v.looseMm,
    forcedTiltDeg: { coronal: v.component.coronalDeg, sagittal: v.component.sagittalDeg },
    ...(tray ? { offset: offsetUnder(tray, v), mostAddedMm: mostAdded(v) } : {}),
  }));
}

/** Whether the middle of a tibia is marked on an AP film, so that what is across from it can be told. */
export interface TrayOnFilms {
  readonly middleIsMarkedOn: (film: string) => boolean;
}

/** What the tray needs to stand over the middle of its bone (GAP-31); null where that middle is not marked (GAP-33). */
const offsetUnder = (tray: TrayOnFilms, { ap, offset }: StemVerdict): OffsetNeeded | null =>
  ap && offset && tray.middleIsMarkedOn(ap.film) ? offset.needed : null;

/** By how much a stem may grow before the canal stops it, mm; null where the trace ends first in every view. */
const mostAdded = ({ ap, lateral, lengthMm }: StemVerdict): number | null =>
  least(
    ...[ap, lateral].map((view) =>
      view?.longestMm == null || view.longestEndsWithTrace ? null : Math.max(0, view.longestMm - lengthMm),
    ),
  );

function least(...lengths: readonly (number | null | undefined)[]): number | null {
  const known = lengths.filter((l) => l !== null && l !== undefined);
  return known.length === 0 ? null : Math.min(...known);
}

/** Every cone and sleeve of the catalogue in one measured cavity; null where it is not measured. */
export const cavityVerdicts = (
  bone: 'femur' | 'tibia',
  cavity: MetaphysisMap | undefined,
  catalogue: Catalogue,
): readonly CavityVerdict[] | null =>
  cavityIsMeasured(cavity) ? partsFor(catalogue, bone).map((part) => fitCavity(part, cavity)) : null;

/** What the solver may choose from: what fits, and what is not known to fail. */
export const cavityFits = (verdicts: readonly CavityVerdict[]): readonly CavityFit[] =>
  verdicts.map((v) => ({
    ref: v.ref,
    fits: v.verdict !== 'does-not-fit',
    reasons: v.verdict === 'does-not-fit' ? v.against : [...v.lies, ...v.notKnown.map((n) => `not known: ${n}`)],
  }));
