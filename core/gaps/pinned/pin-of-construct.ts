import type { Catalogue } from '../../catalogue/catalogue.ts';
import { LEVEL_WORDS } from '../../constraint/level-words.ts';
import type { PerCompartment } from '../../landmarks/side.ts';
import type { Construct } from '../construct.ts';
import { partsOf } from '../parts-of.ts';
import { NO_STEM, type PinId, type Pinned } from './pinned.ts';

type Thick = PerCompartment<{ readonly thicknessMm: number } | null>;

const thicknesses = ({ medial, lateral }: Thick): PerCompartment<number> => ({
  medial: medial?.thicknessMm ?? 0,
  lateral: lateral?.thicknessMm ?? 0,
});

/** Everything that can be fixed, as one construct has it: pinning all of it gives the same construct again. */
export function pinsOfConstruct(construct: Construct, catalogue: Catalogue): Required<Pinned> {
  const parts = partsOf(construct, catalogue);
  return {
    level: construct.level,
    femurSize: parts.femur.size,
    femurProximalMm: construct.femurProximalMm,
    femurAnteriorMm: construct.femurAnteriorMm,
    distalAugmentsMm: thicknesses(parts.distal),
    posteriorAugmentsMm: thicknesses(parts.posterior),
    femoralOffsetMm: parts.femoralOffset?.offsetMm ?? 0,
    femoralStem: construct.femoralStem ?? NO_STEM,
    traySize: parts.tray.size,
    trayMm: construct.trayMm,
    tibialAugmentsMm: thicknesses(parts.blocks),
    tibialStem: construct.tibialStem ?? NO_STEM,
    insertMm: parts.insert.labelMm,
    slopeDeg: construct.slopeDeg,
  };
}

/** One of them. */
export const pinOfConstruct = (id: PinId, construct: Construct, catalogue: Catalogue): Pinned => ({
  [id]: pinsOfConstruct(construct, catalogue)[id],
});

const plain = (x: number): string => `${Number(Math.abs(x).toFixed(1))}`;
const mm = (x: number): string => `${plain(x)} mm`;
const way = (x: number, [less, more]: readonly [string, string]): string =>
  Number(x.toFixed(1)) === 0 ? 'on target' : `${mm(x)} ${x > 0 ? more : less}`;

const sides = ({ medial, lateral }: PerCompartment<number>): string => {
  const of = (x: number): string => (x > 0 ? mm(x) : 'none');
  return medial === lateral
    ? medial > 0
      ? `${of(medial)} on both sides`
      : 'none'
    : medialLateral(of, medial, lateral);
};
const medialLateral = (of: (x: number) => string, medial: number, lateral: number): string =>
  `medial ${of(medial)}, lateral ${of(lateral)}`;

/** What one thing is fixed at, in words; what is not fixed: an empty text. */
export function pinInWords(id: PinId, pinned: Pinned, catalogue: Catalogue): string {
  const value = pinned[id];
  if (value === undefined) return '';
  switch (id) {
    case 'level':
      return pinned.level ? LEVEL_WORDS[pinned.level] : '';
    case 'femurSize':
    case 'traySize':
      return `size ${value}`;
    case 'femurProximalMm':
      return way(pinned.femurProximalMm ?? 0, ['distal', 'proximal']);
    case 'femurAnteriorMm':
      return way(pinned.femurAnteriorMm ?? 0, ['back', 'forward']);
    case 'trayMm':
      return `${mm(pinned.trayMm ?? 0)} ${(pinned.trayMm ?? 0) > 0 ? 'above' : 'below'} the target joint line`;
    case 'distalAugmentsMm':
    case 'posteriorAugmentsMm':
    case 'tibialAugmentsMm':
      return sides(pinned[id] ?? { medial: 0, lateral: 0 });
    case 'femoralOffsetMm':
      return (pinned.femoralOffsetMm ?? 0) > 0 ? mm(pinned.femoralOffsetMm ?? 0) : 'none';
    case 'femoralStem':
    case 'tibialStem':
      return value === NO_STEM ? 'none' : (catalogue.stems.find((s) => s.ref === value)?.name ?? `${String(value)}`);
    case 'insertMm':
      return mm(pinned.insertMm ?? 0);
    case 'slopeDeg':
      return `${Number((pinned.slopeDeg ?? 0).toFixed(1))} degrees`;
  }
}
