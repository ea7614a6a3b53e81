import type { ConstraintLevel, Insert, Outlines, Stem } from '../../catalogue/catalogue.ts';
import { placed, trayCouplers } from './place.ts';
import { type Programme, type Sum, sum, times } from './programme.ts';
import { leastRank, NEVER, out, RANK, type Trial, weigh } from './trial.ts';

/** A component of one bone with the choice that stands for it. */
export interface Option {
  readonly pick: string;
  readonly size: number;
  readonly widthMm: number;
  readonly levels: readonly ConstraintLevel[];
  readonly segment: boolean;
  /** td, or the length of a segment; thickness of a tray, or the length of a segment. */
  readonly thickMm: number;
  readonly posteriorMm: number;
  readonly apMm: number;
  readonly apFreeMm: number;
  readonly boxMm: number;
  readonly outlines: Outlines | undefined;
}

/** An augment, coupler or slope with the choice that stands for it. */
export interface Extra {
  readonly pick: string;
  readonly mm: number;
}

export interface Parts {
  readonly femurs: readonly Option[];
  readonly trays: readonly Option[];
  readonly inserts: readonly { readonly pick: string; readonly insert: Insert }[];
  readonly slopes: readonly { readonly pick: string; readonly deg: number }[];
  readonly distal: readonly [readonly Extra[], readonly Extra[]];
  readonly posterior: readonly [readonly Extra[], readonly Extra[]];
  readonly blocks: readonly [readonly Extra[], readonly Extra[]];
  readonly couplers: readonly Extra[];
  /** Choices of a coupler under a tray, one for each tray that takes it. */
  readonly trayCouplers: readonly { readonly pick: string }[];
  readonly stem: Readonly<Record<'femur' | 'tibia', string>>;
}

export const picks = (list: readonly { readonly pick: string }[]): Sum => sum(...list.map((x) => x.pick));
export const total = (list: readonly Extra[]): Sum => sum(...list.map((x) => times(x.mm, x.pick)));
export const usual = (list: readonly Option[]): Sum => picks(list.filter((o) => !o.segment));
export const segments = (list: readonly Option[]): Sum => picks(list.filter((o) => o.segment));

function components(t: Trial, p: Programme, bone: 'femur' | 'tibia'): Option[] {
  const { state, catalogue } = t;
  const cls = bone === 'femur' ? state.femurClass : state.tibiaClass;
  const boneMm = bone === 'femur' ? state.femurWidthMm : state.tibiaWidthMm;
  const mine = (part: { side: string }) => part.side === 'both' || part.side === state.side;
  const none = { posteriorMm: 0, apFreeMm: 0, boxMm: 0, segment: false };
  const ordinary =
    bone === 'femur'
      ? catalogue.femurs.filter(mine).map((f) => ({
          ...none,
          ...f,
          thickMm: f.distalMm,
          boxMm: f.boxWidthMm,
        }))
      : catalogue.trays.map((tray) => ({
          ...none,
          ...tray,
          levels: Object.keys(RANK) as ConstraintLevel[],
          thickMm: tray.thicknessMm,
        }));
  const found = ordinary
    .filter((o) => (o.widthMm - boneMm) / 2 <= catalogue.limits.overhangMm)
    .map((o): Option => {
      const over = (o.widthMm - boneMm) / 2;
      const pick = p.choice();
      // What a tray's width costs hangs on where it is set.
      const cost = out(Math.max(0, over), weigh(t, 'femur-overhang'));
      if (bone === 'femur') p.pay(cost + out(Math.max(0, -over), weigh(t, 'femur-underhang')), pick);
      return { ...o, pick };
    });
  for (const s of cls === '3' ? (catalogue.segments ?? []).filter((x) => x.bone === bone && mine(x)) : [])
    for (const step of [0, ...s.stepsMm])
      found.push({
        ...none,
        ...s,
        pick: p.choice(),
        segment: true,
        thickMm: s.replacesMm + step,
        outlines: s.outlines,
      });
  p.equal(picks(found), 1);
  return found;
}

/** What may join what. */
function compatibility(t: Trial, p: Programme, parts: Pick<Parts, 'femurs' | 'trays' | 'inserts'>): void {
  const { femurInsert, insertTray, femurTray } = t.catalogue.compatibility;
  for (const { pick, insert } of parts.inserts) {
    const femurs = parts.femurs.filter(
      (f) =>
        f.levels.includes(insert.level) &&
        femurInsert.some((r) => r.femurSize === f.size && r.insertSize === insert.size && r.level === insert.level),
    );
    const trays = parts.trays.filter(
      (o) =>
        o.levels.includes(insert.level) &&
        insertTray.some((r) => r.insertSize === insert.size && r.traySize === o.size),
    );
    p.atMost(pick, picks(femurs));
    p.atMost(pick, picks(trays));
  }
  for (const f of parts.femurs)
    p.atMost(
      f.pick,
      picks(parts.trays.filter((o) => femurTray.some((r) => r.femurSize === f.size && r.traySize === o.size))),
    );
}

/** Augments of one side: at most one, only with a component that takes it. */
function extras(
  t: Trial,
  p: Programme,
  list: readonly { readonly mm: number; readonly on: readonly Option[] }[],
): Extra[] {
  const found = list.map(({ mm, on }) => {
    const pick = p.choice();
    p.atMost(pick, usual(on));
    p.pay(
      weigh(t, 'augment-count').w + weigh(t, 'augment-thickness').w * mm + out(mm, weigh(t, 'augment-thick')),
      pick,
    );
    return { pick, mm };
  });
  p.atMost(picks(found), 1);
  return found;
}

/** Where each tray stands: without a stem, on it, or on it with a coupler; one of these, each at its own price. */
function places(t: Trial, p: Programme, of: { readonly trays: readonly Option[]; readonly stem: string }) {
  const coupled: { readonly pick: string }[] = [];
  const bare: { readonly pick: string }[] = [];
  for (const tray of of.trays.filter((o) => !o.segment)) {
    const ways = [
      { stem: false, coupler: null },
      { stem: true, coupler: null },
      ...trayCouplers(t, tray.size).map((coupler) => ({ stem: true, coupler })),
    ].map((way) => ({ way, pick: p.choice(), cost: placed(t, tray, way) }));
    p.equal(picks(ways), tray.pick);
    for (const { way, pick, cost } of ways) {
      if (cost === NEVER) p.atMost(pick, 0);
      else p.pay(cost, pick);
      if (way.stem) p.atMost(pick, of.stem);
      else bare.push({ pick });
      if (way.coupler) coupled.push({ pick });
    }
  }
  p.atMost(sum(picks(bare), of.stem), 1);
  return coupled;
}

export function partsOfKnee(t: Trial, p: Programme, stemOf: Readonly<Record<'femur' | 'tibia', Stem | null>>): Parts {
  const { state, catalogue, leastPolyethyleneMm } = t;
  const least = leastRank(state);
  const femurs = components(t, p, 'femur');
  const trays = components(t, p, 'tibia');
  const inserts = catalogue.inserts
    .filter((i) => i.leastPolyethyleneMm >= leastPolyethyleneMm && RANK[i.level] >= least)
    .map((insert) => {
      const pick = p.choice();
      const thick = out(insert.labelMm, weigh(t, 'insert-thick')) + out(insert.labelMm, weigh(t, 'insert-very-thick'));
      p.pay(thick + out(RANK[insert.level] - least, weigh(t, 'constraint')), pick);
      return { pick, insert };
    });
  p.equal(picks(inserts), 1);
  compatibility(t, p, { femurs, trays, inserts });
  const slopes = catalogue.limits.slopeDeg.map((deg) => ({ pick: p.choice(), deg }));
  p.equal(picks(slopes), 1);
  const face = (name: 'distal' | 'posterior') =>
    catalogue.femoralAugments
      .filter((a) => a.face === name)
      .map((a) => ({ mm: a.thicknessMm, on: femurs.filter((f) => a.femurSizes.includes(f.size)) }));
  const under = catalogue.tibialAugments.map((a) => ({
    mm: a.thicknessMm,
    on: trays.filter((o) => a.traySizes.includes(o.size)),
  }));
  const couplers = catalogue.offsetCouplers
    .filter((o) => o.bone !== 'tibia')
    .map((o) => ({ pick: p.choice(), mm: o.offsetMm, sizes: o.sizes }));
  for (const { pick, sizes } of couplers) {
    p.pay(weigh(t, 'offset-coupler').w, pick);
    p.atMost(pick, usual(femurs.filter((f) => sizes?.includes(f.size) ?? true)));
  }
  p.atMost(picks(couplers), 1);
  const stem = { femur: p.choice(), tibia: p.choice() };
  for (const bone of ['femur', 'tibia'] as const) if (!stemOf[bone]) p.atMost(stem[bone], 0);
  return {
    femurs,
    trays,
    inserts,
    slopes,
    couplers,
    trayCouplers: places(t, p, { trays, stem: stem.tibia }),
    stem,
    distal: [extras(t, p, face('distal')), extras(t, p, face('distal'))],
    posterior: [extras(t, p, face('posterior')), extras(t, p, face('posterior'))],
    blocks: [extras(t, p, under), extras(t, p, under)],
  };
}
