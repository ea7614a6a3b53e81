import type { Catalogue, ConstraintLevel, Femur, Insert, Tray } from '../../catalogue/catalogue.ts';
import type { BoneState } from '../bone-state.ts';
import type { WeightTable } from '../weights.ts';

/**
 * The judge of the solver: writes the cost down once more from the specification and tries every combination of
 * parts, slopes and couplers, each at every point where its cost could be least. It shares no code with what it
 * judges (types only), and takes its time.
 *
 * For one combination the cost is a sum of hinges in J, q, K and in J - K, q - K, q - J. Such a sum is least at a
 * corner: three independent hinges meet there. So every point is tried at which each of J, q, K stands at a hinge of
 * its own or at a hinge of a difference to another one that does.
 *
 * Kept simple: one stem and at most one cone a bone, and the six faces, as the specification has them.
 */
export interface Trial {
  readonly state: BoneState;
  readonly catalogue: Catalogue;
  readonly weights: WeightTable;
  readonly leastPolyethyleneMm: number;
}

export interface Verdict {
  readonly cost: number;
  readonly level: ConstraintLevel;
  readonly femur: string;
  readonly tried: number;
}

type W = { w: number; lo: number; hi: number };
const out = (x: number, { w, lo, hi }: W): number => w * (x < lo ? lo - x : x > hi ? x - hi : 0);
const RANK = { ps: 0, vvc: 1, hinge: 2 } as const;
const OPENING = { ps: 5, vvc: 10, hinge: 1e9 } as const;
const MORE_IN_FLEXION = { ps: 4, vvc: 8, hinge: 1e9 } as const;
const TOLERANCE = 1e-7;

function leastRank(s: BoneState): number {
  if (s.extensorMechanism === 'absent' || s.mcl === 'absent') return 2;
  if (s.recurvatumDeg !== null && s.recurvatumDeg >= 10) return 2;
  return s.mcl === 'attenuated' || s.lcl === 'absent' ? 1 : 0;
}

/** Cost of stem and cone of one bone, the cheapest that is allowed. */
function fixation(t: Trial, bone: 'femur' | 'tibia', on: { rank: number; loaded: boolean; hasCone: boolean }): number {
  const weight = (id: string) => t.weights.weights.find((x) => x.id === id)?.weight ?? Number.NaN;
  const cls = bone === 'femur' ? t.state.femurClass : t.state.tibiaClass;
  const quality = bone === 'femur' ? t.state.femurQuality : t.state.tibiaQuality;
  const canal = bone === 'femur' ? t.state.femurCanalMm : t.state.tibiaCanalMm;
  const [stem] = t.catalogue.stems;
  let best = Number.POSITIVE_INFINITY;
  for (const useStem of [false, true])
    for (const useCone of [false, true]) {
      if (useCone && !on.hasCone) continue;
      if (useStem && (!stem || (canal !== null && stem.diameterMm > canal - (stem.fixation === 'cemented' ? 4 : 0))))
        continue;
      if (!useStem && (on.loaded || useCone || cls !== '1' || on.rank > 0)) continue;
      const rim = cls === '1' || cls === '2A';
      const solid = (rim && quality === 'good' ? 1 : 0) + (useCone || cls === '1' ? 1 : 0) + (useStem ? 1 : 0);
      if (!rim && solid < 2) continue;
      const perhaps = rim && quality === 'unknown' ? 1 : 0;
      const play = stem?.fixation === 'cemented' ? 8 : 0.5;
      const loose = useStem && stem && canal !== null ? Math.max(0, canal - play - stem.diameterMm) : 0;
      const cost =
        weight('zones') * Math.max(0, 2 - solid - perhaps) +
        (useStem ? weight('stem') : 0) +
        (useCone ? weight('cone') : 0) +
        weight('stem-fit') * loose;
      best = Math.min(best, cost);
    }
  return best;
}

/** All that is needed to price one combination of parts. */
interface Combination {
  readonly level: ConstraintLevel;
  readonly fixed: number;
  /** Where the component is flush on each side: J, q and U. */
  readonly j: readonly [number, number];
  readonly q: readonly [number, number];
  readonly u: readonly [number, number];
  readonly onCortex: number;
  readonly rise: number;
  readonly opens: number;
}

class Judge {
  tried = 0;
  best: Verdict | null = null;
  private readonly t: Trial;

  constructor(t: Trial) {
    this.t = t;
  }

  weight(id: string): W {
    const found = this.t.weights.weights.find((x) => x.id === id);
    if (!found) throw new Error(id);
    return { w: found.weight, lo: found.free[0], hi: found.free[1] };
  }

  space(s: number): number {
    const { cementMm, cutMm } = this.t.catalogue.limits;
    if (s > cementMm + TOLERANCE || s < -cutMm - TOLERANCE) return Number.POSITIVE_INFINITY;
    const filled = Math.max(0, s);
    return (
      out(filled, this.weight('cement')) +
      out(filled, this.weight('cement-deep')) +
      out(Math.max(0, -s), this.weight('bone-cut'))
    );
  }

  corners(flush: readonly [number, number], way: 1 | -1): number[] {
    const { cementMm, cutMm } = this.t.catalogue.limits;
    const deep = [this.weight('cement-deep').hi, this.weight('cement').hi, cementMm, 0];
    return flush.flatMap((f) => [
      ...deep.map((d) => f + way * d),
      f - way * cutMm,
      f - way * this.weight('bone-cut').hi,
    ]);
  }

  settle(c: Combination): number {
    const { state, catalogue } = this.t;
    const e = [state.extensionLaxityMm.medial, state.extensionLaxityMm.lateral] as const;
    const f = [state.flexionLaxityMm.medial + c.opens, state.flexionLaxityMm.lateral + c.opens] as const;
    const more = (f[0] + f[1] - e[0] - e[1]) / 2;
    const em = this.weight('laxity-extension-medial');
    const el = this.weight('laxity-extension-lateral');
    const fm = this.weight('laxity-flexion-medial');
    const fl = this.weight('laxity-flexion-lateral');
    const fe = this.weight('flexion-extension');
    const line = this.weight('joint-line-femur');
    const far = this.weight('joint-line-femur-far');
    const tibia = this.weight('joint-line-tibia');
    const flange = this.weight('flange-gap');
    const ownJ = (j: number) => this.space(c.j[0] - j) + this.space(c.j[1] - j) + out(j, line) + out(j, far);
    const ownQ = (q: number) => {
      const gap = c.onCortex - q;
      if (gap < -TOLERANCE || gap > catalogue.limits.flangeGapMm + TOLERANCE) return Number.POSITIVE_INFINITY;
      return this.space(c.q[0] - q) + this.space(c.q[1] - q) + out(gap, flange);
    };
    const ownK = (k: number) => this.space(k - c.rise - c.u[0]) + this.space(k - c.rise - c.u[1]) + out(k, tibia);
    const price = (j: number, q: number, k: number): number => {
      const E = [e[0] + j - k, e[1] + j - k] as const;
      const F = [f[0] + q - k, f[1] + q - k] as const;
      const d = more + q - j;
      if (Math.max(...E) > OPENING[c.level] + TOLERANCE || d > MORE_IN_FLEXION[c.level] + TOLERANCE)
        return Number.POSITIVE_INFINITY;
      return ownJ(j) + ownQ(q) + ownK(k) + out(E[0], em) + out(E[1], el) + out(F[0], fm) + out(F[1], fl) + out(d, fe);
    };
    const possible = (xs: readonly number[], own: (x: number) => number) =>
      [...new Set(xs)].filter((x) => own(x) < 1e9);
    const J = possible([...this.corners(c.j, -1), line.lo, line.hi, far.lo, far.hi], ownJ);
    const Q = possible(
      [...this.corners(c.q, -1), c.onCortex, c.onCortex - catalogue.limits.flangeGapMm, c.onCortex - flange.hi],
      ownQ,
    );
    const K = possible([...this.corners(c.u, 1).map((u) => u + c.rise), tibia.lo, tibia.hi], ownK);
    if (J.length === 0 || Q.length === 0 || K.length === 0) return Number.POSITIVE_INFINITY;
    const jk = [em.lo - e[0], em.hi - e[0], el.lo - e[1], el.hi - e[1], OPENING[c.level] - Math.max(...e)];
    const qk = [fm.lo - f[0], fm.hi - f[0], fl.lo - f[1], fl.hi - f[1]];
    const qj = [fe.lo - more, fe.hi - more, MORE_IN_FLEXION[c.level] - more];
    let least = Number.POSITIVE_INFINITY;
    const at = (j: number, q: number, k: number) => {
      const p = price(j, q, k);
      if (p < least) least = p;
    };
    // Two lengths known: the third at a hinge of its own or at one of a difference.
    const third = {
      q: (j: number, k: number) => [...Q, ...qj.map((g) => j + g), ...qk.map((g) => k + g)],
      k: (j: number, q: number) => [...K, ...jk.map((g) => j - g), ...qk.map((g) => q - g)],
      j: (q: number, k: number) => [...J, ...qj.map((g) => q - g), ...jk.map((g) => k + g)],
    };
    // First length at a hinge of its own, second at its own or tied to the first, third anyhow.
    for (const j of J) {
      for (const q of [...Q, ...qj.map((g) => j + g)]) for (const k of third.k(j, q)) at(j, q, k);
      for (const k of jk.map((g) => j - g)) for (const q of third.q(j, k)) at(j, q, k);
    }
    for (const q of Q) {
      for (const j of qj.map((g) => q - g)) for (const k of third.k(j, q)) at(j, q, k);
      for (const k of [...K, ...qk.map((g) => q - g)]) for (const j of third.j(q, k)) at(j, q, k);
    }
    for (const k of K) {
      for (const j of [...J, ...jk.map((g) => k + g)]) for (const q of third.q(j, k)) at(j, q, k);
      for (const q of qk.map((g) => k + g)) for (const j of third.j(q, k)) at(j, q, k);
    }
    return least;
  }

  augments(list: readonly number[]): number {
    const used = list.filter((x) => x > 0);
    return (
      this.weight('augment-count').w * used.length +
      this.weight('augment-thickness').w * used.reduce((a, b) => a + b, 0) +
      used.reduce((sum, x) => sum + out(x, this.weight('augment-thick')), 0)
    );
  }

  width(part: number, bone: number, name: 'femur' | 'tray'): number {
    const over = (part - bone) / 2;
    if (over > this.t.catalogue.limits.overhangMm + TOLERANCE) return Number.POSITIVE_INFINITY;
    return over > 0 ? out(over, this.weight(`${name}-overhang`)) : out(-over, this.weight(`${name}-underhang`));
  }

  joint(femur: Femur, tray: Tray, insert: Insert): void {
    const { state, catalogue, leastPolyethyleneMm } = this.t;
    const c = catalogue.compatibility;
    const { level } = insert;
    const rank = RANK[level];
    const joins =
      (femur.side === 'both' || femur.side === state.side) &&
      femur.levels.includes(level) &&
      c.femurInsert.some((r) => r.femurSize === femur.size && r.insertSize === insert.size && r.level === level) &&
      c.insertTray.some((r) => r.insertSize === insert.size && r.traySize === tray.size) &&
      c.femurTray.some((r) => r.femurSize === femur.size && r.traySize === tray.size);
    if (!joins || insert.leastPolyethyleneMm < leastPolyethyleneMm || rank < leastRank(state)) return;
    const parts =
      this.width(femur.widthMm, state.femurWidthMm, 'femur') +
      this.width(tray.widthMm, state.tibiaWidthMm, 'tray') +
      out(insert.labelMm, this.weight('insert-thick')) +
      out(insert.labelMm, this.weight('insert-very-thick')) +
      out(rank - leastRank(state), this.weight('constraint')) +
      out(state.extensionLaxityMm.lateral - state.extensionLaxityMm.medial, this.weight('difference-extension')) +
      out(state.flexionLaxityMm.lateral - state.flexionLaxityMm.medial, this.weight('difference-flexion'));
    if (parts === Number.POSITIVE_INFINITY) return;
    const face = (name: 'distal' | 'posterior') => [
      0,
      ...catalogue.femoralAugments
        .filter((a) => a.face === name && a.femurSizes.includes(femur.size))
        .map((a) => a.thicknessMm),
    ];
    const blocks = [
      0,
      ...catalogue.tibialAugments.filter((a) => a.traySizes.includes(tray.size)).map((a) => a.thicknessMm),
    ];
    const cone = (bone: string, size: number) =>
      (catalogue.cones ?? []).some((k) => k.bone === bone && k.sizes.includes(size));
    const rad = Math.PI / 180;
    for (const dm of face('distal'))
      for (const dl of face('distal'))
        for (const pm of face('posterior'))
          for (const pl of face('posterior'))
            for (const offset of [0, ...catalogue.offsetCouplers.map((o) => o.offsetMm)])
              for (const bm of blocks)
                for (const bl of blocks)
                  for (const slope of catalogue.limits.slopeDeg) {
                    this.tried++;
                    const fixed =
                      parts +
                      this.augments([dm, dl, pm, pl, bm, bl]) +
                      (offset > 0 ? this.weight('offset-coupler').w : 0) +
                      fixation(this.t, 'femur', {
                        rank,
                        loaded: dm + dl + pm + pl + offset > 0,
                        hasCone: cone('femur', femur.size),
                      }) +
                      fixation(this.t, 'tibia', { rank, loaded: bm + bl > 0, hasCone: cone('tibia', tray.size) });
                    if (this.best && fixed > this.best.cost) continue;
                    const cost =
                      fixed +
                      this.settle({
                        level,
                        fixed,
                        j: [
                          state.femurDistalMm.medial - femur.distalMm - dm,
                          state.femurDistalMm.lateral - femur.distalMm - dl,
                        ],
                        q: [
                          state.femurPosteriorMm.medial - femur.posteriorMm - pm,
                          state.femurPosteriorMm.lateral - femur.posteriorMm - pl,
                        ],
                        u: [bm - state.tibiaMm.medial, bl - state.tibiaMm.lateral],
                        onCortex: state.anteriorToPosteriorMm - femur.apMm - offset,
                        rise: tray.thicknessMm + insert.heightMm,
                        opens:
                          state.flexionContactBehindMm *
                          (Math.tan(slope * rad) - Math.tan(state.referenceSlopeDeg * rad)),
                      });
                    if (cost < (this.best?.cost ?? Number.POSITIVE_INFINITY))
                      this.best = { cost, level, femur: femur.ref, tried: 0 };
                  }
  }
}

/** The least cost of all combinations, or null where none keeps the limits; and how many were tried. */
export function tryEverything(trial: Trial): Verdict | null {
  const judge = new Judge(trial);
  for (const femur of trial.catalogue.femurs)
    for (const tray of trial.catalogue.trays)
      for (const insert of trial.catalogue.inserts) judge.joint(femur, tray, insert);
  return judge.best && { ...judge.best, tried: judge.tried };
}
