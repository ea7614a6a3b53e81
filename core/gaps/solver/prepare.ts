import {
  type Catalogue,
  CONSTRAINT_LEVELS,
  type Cone,
  type ConstraintLevel,
  type FemoralAugment,
  type Femur,
  type Insert,
  type OffsetCoupler,
  type TibialAugment,
  type Tray,
} from '../../catalogue/catalogue.ts';
import type { Side } from '../../landmarks/side.ts';

/** A tray with what may stand under it. */
export interface PreparedTray {
  readonly tray: Tray;
  readonly index: number;
  /** Blocks, none first, then by thickness. */
  readonly blocks: readonly (TibialAugment | null)[];
  /** Trays with equal thicknesses of blocks share their tables. */
  readonly blockKey: string;
  readonly cone: Cone | null;
}

/** A tray and the inserts that join it to one femur at one level; equal heights are listed once. */
export interface Bearing {
  readonly tray: PreparedTray;
  readonly inserts: readonly Insert[];
}

export interface PreparedFemur {
  readonly femur: Femur;
  readonly index: number;
  readonly distal: readonly (FemoralAugment | null)[];
  readonly posterior: readonly (FemoralAugment | null)[];
  readonly cone: Cone | null;
  readonly bearings: Readonly<Record<ConstraintLevel, readonly Bearing[]>>;
}

/** A catalogue sorted for the solver. */
export interface Prepared {
  readonly catalogue: Catalogue;
  readonly femurs: Readonly<Record<Side, readonly PreparedFemur[]>>;
  /** No coupler first, then by offset. */
  readonly couplers: readonly (OffsetCoupler | null)[];
  /** Number of combinations of parts that the compatibility tables allow, slopes included. */
  readonly combinations: Readonly<Record<Side, number>>;
}

const byThickness = <T extends { thicknessMm: number; ref: string }>(parts: readonly T[]): readonly (T | null)[] => {
  const sorted = [...parts].sort((a, b) => a.thicknessMm - b.thicknessMm || (a.ref < b.ref ? -1 : 1));
  return [null, ...sorted.filter((p, i) => p.thicknessMm !== sorted[i - 1]?.thicknessMm)];
};

const coneFor = (catalogue: Catalogue, bone: 'femur' | 'tibia', size: number): Cone | null =>
  [...(catalogue.cones ?? [])]
    .filter((c) => c.bone === bone && c.sizes.includes(size))
    .sort((a, b) => a.widthMm - b.widthMm || (a.ref < b.ref ? -1 : 1))[0] ?? null;

function insertsFor(catalogue: Catalogue, join: { femur: Femur; tray: Tray; level: ConstraintLevel }): Insert[] {
  const { femur, tray, level } = join;
  const { femurInsert, insertTray } = catalogue.compatibility;
  const joins = (i: Insert) =>
    i.level === level &&
    femurInsert.some((r) => r.femurSize === femur.size && r.insertSize === i.size && r.level === level) &&
    insertTray.some((r) => r.insertSize === i.size && r.traySize === tray.size);
  const far = (i: Insert) => Math.abs(i.size - tray.size);
  const sorted = catalogue.inserts
    .filter(joins)
    .sort(
      (a, b) =>
        a.labelMm - b.labelMm ||
        a.heightMm - b.heightMm ||
        a.leastPolyethyleneMm - b.leastPolyethyleneMm ||
        far(a) - far(b) ||
        a.size - b.size ||
        (a.ref < b.ref ? -1 : 1),
    );
  // Inserts that differ by nothing that counts here are one choice: the one nearest in size to the tray.
  return sorted.filter((x, n) => {
    const before = sorted[n - 1];
    return !(
      before &&
      before.labelMm === x.labelMm &&
      before.heightMm === x.heightMm &&
      before.leastPolyethyleneMm === x.leastPolyethyleneMm
    );
  });
}

function build(catalogue: Catalogue): Prepared {
  const trays: PreparedTray[] = catalogue.trays.map((tray, index) => {
    const blocks = byThickness(catalogue.tibialAugments.filter((a) => a.traySizes.includes(tray.size)));
    return {
      tray,
      index,
      blocks,
      blockKey: blocks.map((b) => b?.thicknessMm ?? 0).join(' '),
      cone: coneFor(catalogue, 'tibia', tray.size),
    };
  });
  const prepareFemur = (femur: Femur, index: number): PreparedFemur => {
    const augments = (face: 'distal' | 'posterior') =>
      byThickness(catalogue.femoralAugments.filter((a) => a.face === face && a.femurSizes.includes(femur.size)));
    const bearingsAt = (level: ConstraintLevel): Bearing[] =>
      femur.levels.includes(level)
        ? trays
            .filter((t) =>
              catalogue.compatibility.femurTray.some((r) => r.femurSize === femur.size && r.traySize === t.tray.size),
            )
            .map((tray) => ({ tray, inserts: insertsFor(catalogue, { femur, tray: tray.tray, level }) }))
            .filter((b) => b.inserts.length > 0)
        : [];
    return {
      femur,
      index,
      distal: augments('distal'),
      posterior: augments('posterior'),
      cone: coneFor(catalogue, 'femur', femur.size),
      bearings: { ps: bearingsAt('ps'), vvc: bearingsAt('vvc'), hinge: bearingsAt('hinge') },
    };
  };
  const couplers = [
    null,
    ...catalogue.offsetCouplers
      .filter((c) => c.bone !== 'tibia')
      .sort((a, b) => a.offsetMm - b.offsetMm || (a.ref < b.ref ? -1 : 1)),
  ];
  const of = (side: Side) =>
    catalogue.femurs.map(prepareFemur).filter(({ femur }) => femur.side === 'both' || femur.side === side);
  const femurs = { right: of('right'), left: of('left') };
  const count = (side: Side) =>
    femurs[side].reduce((sum, f) => {
      const bearings = CONSTRAINT_LEVELS.flatMap((level) => f.bearings[level]).reduce(
        (n, b) => n + b.inserts.length * b.tray.blocks.length ** 2,
        0,
      );
      return sum + f.distal.length ** 2 * f.posterior.length ** 2 * couplers.length * bearings;
    }, 0) * catalogue.limits.slopeDeg.length;
  return { catalogue, femurs, couplers, combinations: { right: count('right'), left: count('left') } };
}

const prepared = new WeakMap<Catalogue, Prepared>();

/**
 * Sorts a catalogue for the solver: which parts join which, equal choices once. The same catalogue object is sorted
 * only once, so that a drag on the film does not pay for it again.
 */
export function prepare(catalogue: Catalogue): Prepared {
  const known = prepared.get(catalogue);
  if (known) return known;
  const made = build(catalogue);
  prepared.set(catalogue, made);
  return made;
}
