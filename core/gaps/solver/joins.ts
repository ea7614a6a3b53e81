import type { Catalogue, ConstraintLevel, Femur, Insert } from '../../catalogue/catalogue.ts';
import type { Bearing, Bearings, PreparedFemur, PreparedTray, Seat } from './prepared.ts';
import { numbering, remember } from './remember.ts';

/** Inserts in the order in which they are tried; those that differ by nothing that counts here are one choice. */
function distinct(inserts: readonly Insert[], traySize: number): Insert[] {
  const far = (i: Insert) => Math.abs(i.size - traySize);
  const sorted = [...inserts].sort(
    (a, b) =>
      a.labelMm - b.labelMm ||
      a.heightMm - b.heightMm ||
      a.leastPolyethyleneMm - b.leastPolyethyleneMm ||
      far(a) - far(b) ||
      a.size - b.size ||
      (a.ref < b.ref ? -1 : 1),
  );
  // Of equal ones the nearest in size to the tray.
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

interface Inserts {
  readonly list: readonly Insert[];
  /** Heights and labels as a text. */
  readonly key: string;
}

/** Trays that join one femur at one level, worked out when they are first asked for: a room asks for few of them. */
class Joined implements Bearings {
  readonly table: number;
  private readonly trays: readonly PreparedTray[];
  private readonly join: (tray: PreparedTray) => Bearing[];
  private known: readonly Bearing[] | null = null;
  private knownUsual: readonly Bearing[] | null = null;

  constructor(table: number, trays: readonly PreparedTray[], join: (tray: PreparedTray) => Bearing[]) {
    this.table = table;
    this.trays = trays;
    this.join = join;
  }

  get usual(): readonly Bearing[] {
    this.knownUsual ??= this.trays.filter((tray) => !tray.segment).flatMap(this.join);
    return this.knownUsual;
  }

  get all(): readonly Bearing[] {
    this.known ??= [...this.usual, ...this.trays.filter((tray) => tray.segment).flatMap(this.join)];
    return this.known;
  }
}

/**
 * Which trays and inserts join a femur at each level, by the compatibility tables. Worked out once for each pair of
 * sizes: both sides, and every length of a segment, share it.
 */
export function joinTable(
  catalogue: Catalogue,
  trays: readonly PreparedTray[],
): (femur: Femur) => PreparedFemur['bearings'] {
  const { femurInsert, insertTray, femurTray } = catalogue.compatibility;
  const ofFemur = new Set(femurInsert.map((r) => `${r.femurSize}|${r.insertSize}|${r.level}`));
  const ofTray = new Set(insertTray.map((r) => `${r.insertSize}|${r.traySize}`));
  const together = new Set(femurTray.map((r) => `${r.femurSize}|${r.traySize}`));
  const bySize = new Map<string, Insert[]>();
  for (const insert of catalogue.inserts) remember(bySize, `${insert.size}|${insert.level}`, () => []).push(insert);
  const sizes = [...new Set(catalogue.inserts.map((i) => i.size))];
  const insertTable = new Map<string, Inserts>();
  const insertsFor = (femurSize: number, traySize: number, level: ConstraintLevel): Inserts =>
    remember(insertTable, `${femurSize}|${traySize}|${level}`, () => {
      const joined = sizes.filter(
        (size) => ofFemur.has(`${femurSize}|${size}|${level}`) && ofTray.has(`${size}|${traySize}`),
      );
      const list = distinct(
        joined.flatMap((size) => bySize.get(`${size}|${level}`) ?? []),
        traySize,
      );
      return { list, key: list.map((i) => `${i.heightMm} ${i.labelMm} ${i.leastPolyethyleneMm}`).join('|') };
    });
  const heights = new Map<number, number>();
  const seat = (insert: Insert, { tray }: PreparedTray): Seat => {
    const shiftMm = tray.thicknessMm + insert.heightMm;
    return { insert, shiftMm, height: remember(heights, shiftMm, () => heights.size) };
  };
  const seatTable = numbering();
  const bearing = (tray: PreparedTray, { list, key }: Inserts): Bearing => ({
    tray,
    seats: list.map((insert) => seat(insert, tray)),
    seatTable: seatTable(`${tray.tray.thicknessMm}|${key}`),
  });
  const bearingTable = new Map<string, Bearings>();
  const bearingsFor = ({ size, levels }: Femur, level: ConstraintLevel): Bearings =>
    remember(bearingTable, levels.includes(level) ? `${size}|${level}` : 'none', () => {
      const join = (tray: PreparedTray): Bearing[] => {
        const goes = levels.includes(level) && together.has(`${size}|${tray.tray.size}`);
        if (!goes || tray.segment?.levels.includes(level) === false) return [];
        const inserts = insertsFor(size, tray.tray.size, level);
        return inserts.list.length > 0 ? [bearing(tray, inserts)] : [];
      };
      return new Joined(bearingTable.size, trays, join);
    });
  return (femur) => ({
    ps: bearingsFor(femur, 'ps'),
    vvc: bearingsFor(femur, 'vvc'),
    hinge: bearingsFor(femur, 'hinge'),
  });
}
