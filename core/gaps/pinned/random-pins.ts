import type { Catalogue } from '../../catalogue/catalogue.ts';
import type { Construct } from '../construct.ts';
import type { Dice } from '../judge/random-cases.ts';
import { pinsOfConstruct } from './pin-of-construct.ts';
import { NO_STEM, PINS, type Pinned } from './pinned.ts';

/** For tests: a few things fixed by hand, some as the free optimum has them, some beside it, some that cannot be had. */
export function randomPins({ between, pick, unit }: Dice, catalogue: Catalogue, free: Construct): Pinned {
  const as = pinsOfConstruct(free, catalogue);
  const thick = (from: readonly { readonly thicknessMm: number }[]): number =>
    pick([0, 0, ...from.map((a) => a.thicknessMm)]);
  const both = (from: readonly { readonly thicknessMm: number }[]) => ({ medial: thick(from), lateral: thick(from) });
  const face = (name: 'distal' | 'posterior') => catalogue.femoralAugments.filter((a) => a.face === name);
  const near = (mm: number, by: number): number => Math.round((mm + between(-by, by)) * 10) / 10;
  const stem = (): string => pick([NO_STEM, catalogue.stems[0]?.ref ?? NO_STEM]);
  const other: Required<Pinned> = {
    level: pick(['ps', 'vvc', 'hinge'] as const),
    femurSize: pick(catalogue.femurs)?.size ?? 4,
    femurProximalMm: near(as.femurProximalMm, 2),
    femurAnteriorMm: near(as.femurAnteriorMm, 1.5),
    distalAugmentsMm: both(face('distal')),
    posteriorAugmentsMm: both(face('posterior')),
    femoralOffsetMm: pick([0, ...catalogue.offsetCouplers.filter((c) => c.bone !== 'tibia').map((c) => c.offsetMm)]),
    femoralStem: stem(),
    traySize: pick(catalogue.trays)?.size ?? 4,
    trayMm: near(as.trayMm, 3),
    tibialAugmentsMm: both(catalogue.tibialAugments),
    tibialStem: stem(),
    insertMm: pick(catalogue.inserts)?.labelMm ?? 10,
    slopeDeg: pick([0, 0, 3]),
  };
  const share = pick([0.05, 0.1, 0.25]);
  const chosen = PINS.filter(() => unit() < share);
  const one = pick(PINS);
  const ids = new Set([...chosen, one].map(({ id }) => id));
  const asIs = pick([0.4, 0.9]);
  return Object.fromEntries([...ids].map((id) => [id, unit() < asIs ? as[id] : other[id]]));
}
