import type { Stem } from '../../catalogue/catalogue.ts';
import { hold } from './milp-holding.ts';
import { type Extra, type Option, type Parts, partsOfKnee, picks, segments, total } from './milp-parts.ts';
import { ANGLES, profileOf } from './profile.ts';
import { less, Programme, type Sum, sum, times } from './programme.ts';
import { out, type Trial, type W, weigh } from './trial.ts';

/** More than any length of a knee, mm: relaxes the rows of parts that were not chosen. */
const FAR = 300;
const REACH = 20;
const OPENING = { ps: 5, vvc: 10, hinge: FAR } as const;
const MORE_IN_FLEXION = { ps: 4, vvc: 8, hinge: FAR } as const;
const SIDES = ['medial', 'lateral'] as const;

/** Everything that the rows are written from. */
interface Knee {
  readonly t: Trial;
  readonly p: Programme;
  readonly parts: Parts;
  readonly j: string;
  readonly q: string;
  readonly k: string;
  /** Femurs that their stem flexes, with the choice of both together, and the angle. */
  readonly flexed: readonly { readonly option: Option; readonly pick: string; readonly deg: number }[];
}

const of = (list: readonly Option[], value: (o: Option) => number): Sum =>
  sum(...list.map((o) => times(value(o), o.pick)));

/** Outside its window on either side. */
const payOutside = (p: Programme, value: Sum, { w, lo, hi }: W): void =>
  p.pay(w, p.excess(less(value, hi), less(lo, value)));

/** A space under a usual component: filled or cut within the limits; nothing where a segment stands. */
function payFace({ t, p }: Knee, space: Sum, segment: Sum): void {
  const { cementMm, cutMm } = t.catalogue.limits;
  const away = times(FAR, segment);
  p.atMost(space, sum(cementMm, away));
  p.atMost(times(-1, space), sum(cutMm, away));
  for (const id of ['cement', 'cement-deep'] as const)
    p.pay(weigh(t, id).w, p.excess(less(space, sum(weigh(t, id).hi, away))));
  p.pay(weigh(t, 'bone-cut').w, p.excess(less(times(-1, space), sum(weigh(t, 'bone-cut').hi, away))));
}

/** The one stem of the catalogue, where the bone takes it. */
function stemOf({ state, catalogue }: Trial, bone: 'femur' | 'tibia'): Stem | null {
  const [stem] = catalogue.stems;
  const canal = bone === 'femur' ? state.femurCanalMm : state.tibiaCanalMm;
  const limits = bone === 'femur' ? state.femoralStemLimits : state.tibialStemLimits;
  if (!stem || (stem.bone !== 'both' && stem.bone !== bone)) return null;
  if (limits && !limits.some((l) => l.ref === stem.ref && l.passes)) return null;
  if (typeof limits?.find((l) => l.ref === stem.ref)?.looseMm === 'number') return stem;
  if (canal === null) return stem.fixation === 'cemented' ? stem : null;
  return stem.diameterMm <= canal - (stem.fixation === 'cemented' ? 4 : 0) ? stem : null;
}

/** Where a segment stands: its cut in sound bone, within reach, and the bone that it replaces. */
function segmentOfFemur({ t, p, parts, j, q }: Knee): void {
  const { state } = t;
  const unless = less(FAR, times(FAR, segments(parts.femurs)));
  const cut = sum(
    of(parts.femurs, (o) => o.thickMm),
    j,
  );
  const { medial, lateral } = state.femurDistalMm;
  p.atMost(Math.max(medial, lateral), sum(cut, unless));
  for (const way of [1, -1]) {
    p.atMost(times(way, j), sum(REACH, unless));
    p.atMost(
      times(way, q),
      sum(
        of(parts.femurs, (o) => o.apFreeMm),
        unless,
      ),
    );
  }
  p.pay(weigh(t, 'bone-replaced').w, p.excess(less(cut, sum((medial + lateral) / 2, unless))));
}

function femur(knee: Knee): void {
  const { t, p, parts, j, q, flexed } = knee;
  const { state, catalogue } = t;
  const segment = segments(parts.femurs);
  const faces = SIDES.flatMap((side, i) => {
    const extra = (list: readonly [readonly Extra[], readonly Extra[]]) => total(list[i] as readonly Extra[]);
    const distal = sum(
      of(parts.femurs, (o) => o.thickMm),
      extra(parts.distal),
      j,
    );
    const behind = sum(
      of(parts.femurs, (o) => o.posteriorMm),
      extra(parts.posterior),
      q,
    );
    return [less(state.femurDistalMm[side], distal), less(state.femurPosteriorMm[side], behind)];
  });
  for (const space of faces) payFace(knee, space, segment);
  for (const id of ['joint-line-femur', 'joint-line-femur-far'] as const) payOutside(p, sum(j), weigh(t, id));

  const back = sum(...flexed.map(({ option, pick, deg }) => times(profileOf(t, option.outlines, deg).back, pick)));
  const deep = of(parts.femurs, (o) => o.apMm);
  const gap = less(state.anteriorToPosteriorMm, sum(deep, back, total(parts.couplers), q));
  const away = times(FAR, segment);
  p.atMost(times(-1, gap), away);
  p.atMost(gap, sum(catalogue.limits.flangeGapMm, away));
  p.pay(weigh(t, 'flange-gap').w, p.excess(less(gap, sum(weigh(t, 'flange-gap').hi, away))));

  segmentOfFemur(knee);
}

function tibia(knee: Knee): void {
  const { t, p, parts, k } = knee;
  const { medial, lateral } = t.state.tibiaMm;
  const segment = segments(parts.trays);
  const rise = sum(
    of(parts.trays, (o) => o.thickMm),
    ...parts.inserts.map((i) => times(i.insert.heightMm, i.pick)),
  );
  const u = less(k, rise);
  SIDES.forEach((side, i) => {
    payFace(knee, sum(u, t.state.tibiaMm[side], times(-1, total(parts.blocks[i] as readonly Extra[]))), segment);
  });
  payOutside(p, sum(k), weigh(t, 'joint-line-tibia'));
  const unless = less(FAR, times(FAR, segment));
  p.atMost(u, sum(-Math.max(medial, lateral), unless));
  for (const way of [1, -1]) p.atMost(times(way, k), sum(REACH, unless));
  p.pay(weigh(t, 'bone-replaced').w, p.excess(less(times(-1, u), sum((medial + lateral) / 2, unless))));
}

const tan = (deg: number) => Math.tan((deg * Math.PI) / 180);
const mean = (x: { medial: number; lateral: number }) => (x.medial + x.lateral) / 2;

/** What the slope that is chosen opens at 90 degrees. */
const slopeOpens = ({ t: { state }, parts }: Knee): Sum =>
  sum(
    ...parts.slopes.map(({ pick, deg }) =>
      times(state.flexionContactBehindMm * (tan(deg) - tan(state.referenceSlopeDeg)), pick),
    ),
  );

/** How much looser the shape of the femur that is chosen leaves the knee at the angle of that place in the list. */
function shapeLooser({ t, parts, flexed }: Knee, angle: number): Sum {
  const at = (o: Option, deg: number) => profileOf(t, o.outlines, deg).looser[angle] as number;
  return sum(
    ...parts.femurs.map((o) => times(at(o, 0), o.pick)),
    ...flexed.map(({ option, pick, deg }) => times(at(option, deg) - at(option, 0), pick)),
  );
}

/** The worst of the angles of mid-flexion on one side. */
function arc(knee: Knee, side: (typeof SIDES)[number]): void {
  const { t, p, j, q, k } = knee;
  const { w, lo, hi } = weigh(t, 'arc');
  const e = t.state.extensionLaxityMm[side];
  const f = t.state.flexionLaxityMm[side];
  const over = ANGLES.flatMap((deg, i) => {
    const r = (deg * Math.PI) / 180;
    const drift = sum(e + ((f - e) * deg) / 90, times(deg / 90, slopeOpens(knee)));
    const value = less(sum(drift, shapeLooser(knee, i), times(Math.cos(r), j), times(Math.sin(r), q)), k);
    return [less(value, hi), less(lo, value)];
  });
  p.pay(w, p.excess(...over));
}

function laxity(knee: Knee): void {
  const { t, p, parts, j, q, k } = knee;
  const { extensionLaxityMm: e, flexionLaxityMm: f } = t.state;
  const opens = slopeOpens(knee);
  const accepted = (mm: Readonly<Record<'ps' | 'vvc' | 'hinge', number>>) =>
    sum(...parts.inserts.map(({ pick, insert }) => times(mm[insert.level], pick)));
  for (const side of SIDES) {
    const extension = less(sum(e[side], j), k);
    payOutside(p, extension, weigh(t, `laxity-extension-${side}`));
    p.atMost(extension, accepted(OPENING));
    payOutside(p, less(sum(f[side], opens, q), k), weigh(t, `laxity-flexion-${side}`));
    arc(knee, side);
  }
  const more = less(sum(mean(f) - mean(e), opens, q), j);
  payOutside(p, more, weigh(t, 'flexion-extension'));
  p.atMost(more, accepted(MORE_IN_FLEXION));
  const fixed =
    out(e.lateral - e.medial, weigh(t, 'difference-extension')) +
    out(f.lateral - f.medial, weigh(t, 'difference-flexion'));
  p.pay(1, sum(fixed));
}

/**
 * The second judge: the question of the solver as a mixed-integer linear programme, for a general solver to answer. Parts
 * are yes-or-no choices tied by compatibility rows; J, q and K are lengths; every hinge is an excess that is paid for.
 * As with the first judge the catalogue holds one stem.
 */
export function kneeProgramme(t: Trial): Programme {
  const p = new Programme();
  const stems = { femur: stemOf(t, 'femur'), tibia: stemOf(t, 'tibia') };
  const parts = partsOfKnee(t, p, stems);
  for (const bone of ['femur', 'tibia'] as const) hold(t, p, { parts, bone, stem: stems[bone] });
  const deg = t.state.femoralStemLimits?.find((l) => l.ref === stems.femur?.ref)?.forcedTiltDeg.sagittal ?? 0;
  const flexed = (deg === 0 ? [] : parts.femurs.filter((o) => !o.segment)).map((option) => {
    // Both: the femur and the stem.
    const pick = p.choice();
    p.atMost(pick, option.pick);
    p.atMost(pick, parts.stem.femur);
    p.atMost(sum(option.pick, parts.stem.femur), sum(1, pick));
    return { option, pick, deg };
  });
  const [j, q, k] = [p.length(-150, 150), p.length(-150, 150), p.length(-150, 150)];
  const knee: Knee = { t, p, parts, j, q, k, flexed };
  femur(knee);
  tibia(knee);
  laxity(knee);
  p.atMost(picks(parts.slopes), 1);
  return p;
}
