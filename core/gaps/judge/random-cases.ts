import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Catalogue } from '../../catalogue/catalogue.ts';
import type { BoneState } from '../bone-state.ts';

/** A stream of numbers from a seed. */
export function dice(seed: number) {
  const generator = xoroshiro128plus(seed);
  const unit = () => (generator.next() >>> 0) / 2 ** 32;
  const between = (low: number, high: number) => low + (high - low) * unit();
  const pick = <T>(from: readonly T[]): T => from[Math.floor(unit() * from.length)] as T;
  return { unit, between, pick };
}
export type Dice = ReturnType<typeof dice>;

/** A bone state such as removal leaves behind; now and then on whole millimetres, where hinges fall together. */
export function randomState({ between, pick, unit }: Dice): BoneState {
  const whole = unit() < 0.3;
  const mm = (low: number, high: number) => (whole ? Math.round(between(low, high)) : between(low, high));
  const both = (low: number, high: number) => ({ medial: mm(low, high), lateral: mm(low, high) });
  return {
    side: pick(['right', 'left']),
    femurDistalMm: both(7, 20),
    femurPosteriorMm: both(6, 16),
    anteriorToPosteriorMm: mm(56, 72),
    femurWidthMm: mm(60, 80),
    tibiaWidthMm: mm(64, 86),
    tibiaMm: both(9, 28),
    extensionLaxityMm: both(-2, 6),
    flexionLaxityMm: both(-2, 8),
    flexionContactBehindMm: mm(12, 25),
    referenceSlopeDeg: pick([0, 3, 5]),
    femurClass: pick(['1', '2A', '2A', '2B', '3']),
    tibiaClass: pick(['1', '2A', '2A', '2B', '3']),
    femurQuality: pick(['good', 'good', 'sclerotic', 'osteoporotic', 'unknown']),
    tibiaQuality: pick(['good', 'good', 'sclerotic', 'osteoporotic', 'unknown']),
    mcl: pick(['intact', 'intact', 'intact', 'attenuated', 'absent', 'unknown']),
    lcl: pick(['intact', 'intact', 'absent', 'unknown']),
    extensorMechanism: 'intact',
    recurvatumDeg: pick([null, 0, 5, 12]),
    femurCanalMm: pick([null, 14, 15, 17]),
    tibiaCanalMm: pick([null, 14, 15, 17]),
  };
}

/** A few parts of a larger catalogue, so that everything can be tried in reasonable time. */
export function someParts(catalogue: Catalogue, { pick, unit }: Dice): Catalogue {
  const few = <T>(from: readonly T[], n: number): T[] => {
    const left = [...from];
    return Array.from(
      { length: Math.min(n, left.length) },
      () => left.splice(Math.floor(unit() * left.length), 1)[0] as T,
    );
  };
  const sizes = few([3, 4, 5, 6], 2);
  const distal = few([4, 8, 12, 16], 1);
  const posterior = few([4, 8], 1);
  const blocks = few([5, 10, 15], 1);
  const labels = few([10, 12, 14, 16, 20], 2);
  const levels = few(['ps', 'vvc', 'hinge'] as const, 2);
  return {
    ...catalogue,
    femurs: catalogue.femurs.filter((f) => sizes.includes(f.size)),
    trays: catalogue.trays.filter((t) => sizes.slice(0, pick([1, 2])).includes(t.size)),
    inserts: catalogue.inserts.filter((i) => labels.includes(i.labelMm) && levels.includes(i.level)),
    femoralAugments: catalogue.femoralAugments.filter((a) =>
      (a.face === 'distal' ? distal : posterior).includes(a.thicknessMm),
    ),
    tibialAugments: catalogue.tibialAugments.filter((a) => blocks.includes(a.thicknessMm)),
    offsetCouplers: few(catalogue.offsetCouplers, 1),
    stems: catalogue.stems.filter((s) => s.ref === pick(['EX-SC10-100', 'EX-SC10-100'])),
    limits: { ...catalogue.limits, slopeDeg: pick([[0], [0, 3]]) },
  };
}
