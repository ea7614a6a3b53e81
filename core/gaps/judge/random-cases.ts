import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { Catalogue } from '../../catalogue/catalogue.ts';
import type { BoneState, CavityFit, StemLimit } from '../bone-state.ts';
import type { WeightTable } from '../weights.ts';

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

/** A few parts of the usual kinds of a larger catalogue, so that everything can be tried in reasonable time. */
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
    sleeves: [],
    segments: [],
    limits: { ...catalogue.limits, slopeDeg: pick([[0], [0, 3]]) },
  };
}

/** A few parts of every kind: as `someParts`, with a sleeve or two, cones and segments of few lengths. */
export function someOfEveryKind(catalogue: Catalogue, d: Dice): Catalogue {
  const few = someParts(catalogue, d);
  const { pick, unit } = d;
  const sizes = [...few.femurs, ...few.trays].map((part) => part.size);
  const segments = (catalogue.segments ?? [])
    .filter((s) => sizes.includes(s.size) && unit() < 0.9)
    .map((s) => ({ ...s, replacesMm: pick([40, 65]), stepsMm: pick([[], [20], [30]]), apFreeMm: pick([2, 6]) }));
  return {
    ...few,
    inserts:
      unit() < 0.6
        ? few.inserts
        : catalogue.inserts.filter((i) => [10, 14, 18].includes(i.labelMm)).filter((i) => i.level === 'hinge'),
    cones: (catalogue.cones ?? []).filter(() => unit() < 0.6).map((c) => ({ ...c, boreMm: pick([16, 20, 24]) })),
    sleeves: (catalogue.sleeves ?? [])
      .filter(() => unit() < 0.4)
      .map((s) => ({ ...s, ...(unit() < 0.3 ? { takesOffset: true } : {}) })),
    segments,
    offsetCouplers: few.offsetCouplers.map((c) => ({ ...c, ...(unit() < 0.3 ? { sizes: sizes.slice(0, 2) } : {}) })),
    limits: unit() < 0.3 ? { ...few.limits, cementMm: 6, cutMm: 5 } : few.limits,
  };
}

/** Canal, cavity and outline measured or not, and bone lost so far that a segment may be wanted. */
export function randomSurprise(d: Dice, catalogue: Catalogue): BoneState {
  const { between, pick, unit } = d;
  const base = randomState(d);
  const limits = (): readonly StemLimit[] =>
    catalogue.stems.map(({ ref, lengthMm }) => ({
      ref,
      passes: unit() < 0.9,
      longestPassingMm: lengthMm,
      ...(unit() < 0.5 ? { looseMm: pick([null, 0, between(0, 3)]) } : {}),
      forcedTiltDeg: {
        coronal: pick([null, 0, between(-4, 4)]),
        sagittal: pick([null, between(-3, 6), between(-3, 6)]),
      },
    }));
  const cavity = (bone: 'femur' | 'tibia'): readonly CavityFit[] =>
    [...(catalogue.cones ?? []), ...(catalogue.sleeves ?? [])]
      .filter((part) => part.bone === bone && unit() < 0.9)
      .map(({ ref }) => ({ ref, fits: unit() < 0.7, reasons: [] }));
  const deep = (p: { medial: number; lateral: number }, mm: number) => ({ medial: p.medial + mm, lateral: p.lateral });
  const lost = unit() < 0.3;
  const spot = pick(catalogue.femurs)?.outlines.sagittal.flat();
  const state: BoneState = {
    ...base,
    ...(unit() < 0.3 ? { mcl: 'absent' as const } : {}),
    ...(lost ? { femurClass: '3' as const, femurDistalMm: deep(base.femurDistalMm, between(0, 60)) } : {}),
    ...(unit() < 0.2 ? { tibiaClass: '3' as const, tibiaMm: deep(base.tibiaMm, between(0, 60)) } : {}),
    ...(unit() < 0.3 && spot ? { targetOutline: spot.map(([y, z]) => ({ y, z: z * between(0.96, 1.04) })) } : {}),
    ...(unit() < 0.5 ? { femoralStemLimits: limits() } : {}),
    ...(unit() < 0.5 ? { tibialStemLimits: limits() } : {}),
    ...(unit() < 0.5 ? { femurCavity: cavity('femur') } : {}),
    ...(unit() < 0.5 ? { tibiaCavity: cavity('tibia') } : {}),
  };
  return state.tibialStemLimits ? { ...state, tibialStemLimits: placed(d, state.tibialStemLimits) } : state;
}

/** Where each stem carries the tray, and how much longer the canal lets it be, as far as that is known. */
function placed({ between, pick, unit }: Dice, limits: readonly StemLimit[]): readonly StemLimit[] {
  return limits.map((limit) => ({
    ...limit,
    ...(unit() < 0.9
      ? {
          offset: { lateralMm: pick([0, between(-5, 5)]), anteriorMm: pick([null, between(-9, 4), between(-9, 4)]) },
          mostAddedMm: pick([null, between(15, 40)]),
        }
      : {}),
  }));
}

/** A knee whose tibial stem sets its tray off the middle, and a small catalogue with couplers: little else is in play. */
export function randomCoupling(
  d: Dice,
  whole: Catalogue,
): { readonly state: BoneState; readonly catalogue: Catalogue } {
  const { between, pick, unit } = d;
  const size = pick([3, 4, 5]);
  const trays = whole.trays.filter((t) => t.size === size || t.size === size + pick([1, 2]));
  const sleeves = (whole.sleeves ?? []).filter(() => unit() < 0.5).map((s) => ({ ...s, takesOffset: unit() < 0.5 }));
  const catalogue: Catalogue = {
    ...someParts(whole, d),
    femurs: whole.femurs.filter((f) => f.size === size && f.side === 'right'),
    trays,
    inserts: whole.inserts.filter((i) => i.size === size && i.level === 'vvc' && [10, 16].includes(i.labelMm)),
    femoralAugments: [],
    stems: whole.stems.filter((s) => s.ref === 'EX-SC10-100'),
    offsetCouplers: whole.offsetCouplers
      .filter(() => unit() < 0.9)
      .map((c) => ({
        ...c,
        bone: pick(['both', 'tibia', 'tibia', 'femur']),
        addedLengthMm: pick([10, 20]),
        ...(unit() < 0.3 ? { sizes: [size] } : {}),
      })),
    sleeves,
    limits: { ...whole.limits, slopeDeg: [0] },
  };
  const side = (mm: number) => ({ medial: mm + between(-1, 1), lateral: mm + between(-1, 1) });
  const width = trays[0]?.widthMm ?? 72;
  const [limit] = placed({ ...d, unit: () => 0 }, [
    { ref: 'EX-SC10-100', passes: true, longestPassingMm: null, forcedTiltDeg: { coronal: 0, sagittal: 0 } },
  ]);
  const femur = catalogue.femurs[0];
  return {
    catalogue,
    state: {
      ...randomState(d),
      side: 'right',
      femurDistalMm: side(9),
      femurPosteriorMm: side(9),
      anteriorToPosteriorMm: (femur?.apMm ?? 62) + between(0, 4),
      femurWidthMm: (femur?.widthMm ?? 68) + between(-2, 3),
      tibiaWidthMm: width + between(-3, 6),
      tibiaMm: side(between(14, 22)),
      extensionLaxityMm: side(1),
      flexionLaxityMm: side(1),
      tibiaClass: pick(['1', '2A', '2A', '2B']),
      mcl: 'intact',
      lcl: 'absent',
      recurvatumDeg: 0,
      ...(limit ? { tibialStemLimits: [limit] } : {}),
    },
  };
}

/** Weights turned up and down, and the window of mid-flexion narrow enough to be met. */
export function randomWeights({ pick }: Dice, table: WeightTable): WeightTable {
  const arc = { weight: pick([0.5, 1.5, 4]), free: pick([[-1, 5] as const, [0, 2] as const, [0.5, 3] as const]) };
  const weights = table.weights.map((w) => {
    if (w.id === 'arc') return { ...w, ...arc };
    if (['sleeve', 'cone', 'bone-replaced', 'stem-conflict'].includes(w.id))
      return { ...w, weight: w.weight * pick([0.3, 1, 2]) };
    return w;
  });
  return { ...table, weights };
}
