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
  const insertTable = new Map<string, Insert[]>();
  const insertsFor = (femurSize: number, traySize: number, level: ConstraintLevel) =>
    remember(insertTable, `${femurSize}|${traySize}|${level}`, () => {
      const joined = sizes.filter(
        (size) => ofFemur.has(`${femurSize}|${size}|${level}`) && ofTray.has(`${size}|${traySize}`),
      );
      return distinct(
        joined.flatMap((size) => bySize.get(`${size}|${level}`) ?? []),
        traySize,
      );
    });
  const heights = new Map<number, number>();
  const seat = (insert: Insert, { tray }: PreparedTray): Seat => {
    const shiftMm = tray.thicknessMm + insert.heightMm;
    return { insert, shiftMm, height: remember(heights, shiftMm, () => heights.size) };
  };
  const seatTable = numbering();
  const keyOf = ({ insert, shiftMm }: Seat) => `${shiftMm} ${insert.labelMm} ${insert.leastPolyethyleneMm}`;
  const bearing = (tray: PreparedTray, inserts: readonly Insert[]): Bearing => {
    const seats = inserts.map((i) => seat(i, tray));
    return { tray, seats, seatTable: seatTable(seats.map(keyOf).join('|')) };
  };
  const bearingTable = new Map<string, Bearings>();
  const bearingsFor = ({ size, levels }: Femur, level: ConstraintLevel): Bearings =>
    remember(bearingTable, levels.includes(level) ? `${size}|${level}` : 'none', () => {
      const joined = levels.includes(level) ? trays.filter(({ tray }) => together.has(`${size}|${tray.size}`)) : [];
      const all = joined
        .filter(({ segment }) => segment?.levels.includes(level) !== false)
        .map((tray) => bearing(tray, insertsFor(size, tray.tray.size, level)))
        .filter((b) => b.seats.length > 0);
      return { table: bearingTable.size, all, usual: all.filter(({ tray }) => !tray.segment) };
    });
  return (femur) => ({
    ps: bearingsFor(femur, 'ps'),
    vvc: bearingsFor(femur, 'vvc'),
    hinge: bearingsFor(femur, 'hinge'),
  });
}
