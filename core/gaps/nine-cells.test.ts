import { describe, expect, test } from 'vitest';
import { demoCatalogue } from '../../catalogues/make-demo.ts';
import type { BoneState } from './bone-state.ts';
import { constructChanges } from './construct-changes.ts';
import { DEFAULT_WEIGHTS } from './default-weights.ts';
import { easyKnee, plainConstruct } from './easy-knee.ts';
import { type Cell, type GapFound, type NineCells, nineCells } from './nine-cells.ts';

const catalogue = demoCatalogue();
const weights = DEFAULT_WEIGHTS;
const both = (x: number) => ({ medial: x, lateral: x });
/** Bone lost on both condyles, more medially, and a millimetre or two of laxity. */
const worn: BoneState = {
  ...easyKnee,
  femurClass: '2A',
  femurDistalMm: { medial: 17, lateral: 13 },
  femurPosteriorMm: { medial: 13, lateral: 9 },
  extensionLaxityMm: both(1),
  flexionLaxityMm: { medial: 1.5, lateral: 2.5 },
};

const tableOf = (state: BoneState, byMm?: number): NineCells => {
  const made = nineCells({ state, catalogue, weights, ...(byMm === undefined ? {} : { byMm }) });
  if (!made.ok) throw new Error(made.reason.message);
  return made.value;
};
const tables = [tableOf(worn), tableOf(easyKnee)];
const cellOf = (table: NineCells, flexion: GapFound, extension: GapFound): Cell => {
  const found = table.rows.flat().find((c) => c.flexion === flexion && c.extension === extension);
  if (!found) throw new Error('no such cell');
  return found;
};
/** How the best of a cell moves the femur against the bearing: extension by J - K, flexion by q - K. */
const moves = (table: NineCells, cell: Cell) => {
  if (!cell.best) throw new Error('no construct');
  const at = ({ construct, effect }: NonNullable<Cell['best']>) => ({
    extension: construct.femurProximalMm - effect.bearingMm,
    flexion: construct.femurAnteriorMm - effect.bearingMm,
    k: effect.bearingMm,
    slope: construct.slopeDeg,
  });
  const [a, b] = [at(table.plan), at(cell.best)];
  return {
    extension: b.extension - a.extension,
    flexion: b.flexion - a.flexion,
    k: b.k - a.k,
    slope: b.slope - a.slope,
  };
};
const cheapest = (cell: Cell) => cell.levers[0]?.id ?? null;
const cost = (cell: Cell, id: string) => cell.levers.find((l) => l.id === id)?.cost ?? Number.POSITIVE_INFINITY;

describe('flexion against extension gap, for this patient', () => {
  test('GAP-30 nine cells, rows of flexion; the middle one is the plan, and nothing is to be done in it', () => {
    for (const table of tables) {
      expect(table.rows.map((row) => row.length)).toEqual([3, 3, 3]);
      const middle = cellOf(table, 'as planned', 'as planned');
      expect(middle.best).toEqual(table.plan);
      expect(middle.changes).toEqual([]);
    }
  });

  test('GAP-30 every cell closes what is loose and opens what is tight', () => {
    for (const table of tables)
      for (const cell of table.rows.flat()) {
        const by = moves(table, cell);
        if (cell.extension === 'tight') expect(by.extension).toBeGreaterThan(0);
        if (cell.extension === 'loose') expect(by.extension).toBeLessThan(0);
        if (cell.flexion === 'tight') expect(by.flexion + by.slope).toBeGreaterThan(0);
        if (cell.flexion === 'loose') expect(by.flexion).toBeLessThan(0);
      }
  });

  test('GAP-8 GAP-30 the tibia answers both gaps: thinner insert when both are tight, more when both are loose', () => {
    for (const table of tables) {
      expect(moves(table, cellOf(table, 'tight', 'tight')).k).toBeLessThan(0);
      expect(moves(table, cellOf(table, 'loose', 'loose')).k).toBeGreaterThan(0);
    }
    expect(cheapest(cellOf(tables[0]!, 'tight', 'tight'))).toBe('insert');
    expect(cellOf(tables[0]!, 'tight', 'tight').changes[0]).toBe('Insert 10 mm instead of 13 mm');
  });

  test('GAP-8 GAP-30 loose in extension only: distal augments, never a thicker insert alone', () => {
    const cell = cellOf(tables[0]!, 'as planned', 'loose');
    expect(cheapest(cell)).toMatch(/^distal/);
    expect(cost(cell, 'distal')).toBeLessThan(cost(cell, 'insert'));
    expect(cell.changes).toContain('Distal augment 8 mm on the medial side instead of 4 mm');
  });

  test('GAP-8 GAP-30 tight in flexion only: distal augment with thinner insert, or a smaller femur', () => {
    const cell = cellOf(tables[0]!, 'tight', 'as planned');
    expect(cell.levers.slice(0, 2).map((l) => l.id)).toEqual(['distal-insert', 'size']);
    expect(cell.levers[1]?.changes[0]).toBe('Femur size 3 instead of size 4');
  });

  test('GAP-8 GAP-30 loose in flexion and tight in extension: posterior augments with offset, and a thinner insert', () => {
    const cell = cellOf(tables[0]!, 'loose', 'tight');
    expect(cheapest(cell)).toBe('posterior-insert');
    expect(cell.changes).toContain('Posterior augment 8 mm on the medial side instead of 4 mm');
    expect(cell.changes).toContain('Insert 11 mm instead of 13 mm');
  });

  test('GAP-8 GAP-30 tight in flexion and loose in extension: smaller femur and distal augments', () => {
    const { changes } = cellOf(tables[0]!, 'tight', 'loose');
    expect(changes[0]).toBe('Femur size 3 instead of size 4');
    expect(changes.some((c) => c.startsWith('Distal augment 8 mm on the medial side'))).toBe(true);
  });

  test('GAP-30 levers stand in the order of cost, none below the best, each changes something of its own', () => {
    for (const cell of tables.flatMap((t) => t.rows.flat())) {
      const costs = cell.levers.map((l) => l.cost);
      expect([...costs].sort((a, b) => a - b)).toEqual(costs);
      for (const lever of cell.levers) {
        expect(lever.cost).toBeGreaterThanOrEqual((cell.best?.cost ?? 0) - 1e-9);
        expect(lever.changes.length).toBeGreaterThan(0);
      }
      expect(new Set(cell.levers.map((l) => l.changes.join())).size).toBe(cell.levers.length);
    }
  });

  test('GAP-30 a tolerance that is none, and a knee without any plan, are refused with their mend', () => {
    for (const byMm of [0, -4, Number.NaN, Number.POSITIVE_INFINITY])
      expect(nineCells({ state: worn, catalogue, weights, byMm })).toMatchObject({
        ok: false,
        reason: { code: 'cell-tolerance' },
      });
    const none = nineCells({ state: { ...worn, femurCanalMm: 8 }, catalogue, weights });
    expect(none).toMatchObject({ ok: false, reason: { code: 'no-plan', mend: expect.stringContaining('canal') } });
  });
});

describe('what changes between two constructs, in words', () => {
  test('nothing between a construct and itself', () => {
    expect(constructChanges(plainConstruct, plainConstruct, catalogue)).toEqual([]);
  });

  test('tibia first, then femur, then insert, then where they stand', () => {
    const other = {
      ...plainConstruct,
      level: 'vvc' as const,
      tray: 'EX-T5',
      tibialAugments: { medial: 'EX-B5-10', lateral: null },
      tibialStem: 'EX-SP14-75',
      insert: 'EX-I4V14',
      femurProximalMm: -3,
      trayMm: -18,
      slopeDeg: 3,
    };
    expect(constructChanges(plainConstruct, other, catalogue)).toEqual([
      'Varus-valgus constrained instead of posterior-stabilised',
      'Tray size 5 instead of size 4',
      'Tibial block 10 mm on the medial side instead of none',
      'Insert 14 mm instead of 12 mm',
      'Stem, press-fit, 14 x 75 mm in the tibia instead of none',
      'Tray 2 mm lower',
      'Femoral joint line 3 mm further distal',
      'Slope 3 instead of 0 degrees',
    ]);
    expect(constructChanges(other, plainConstruct, catalogue)).toContain('No tibial block 10 mm on the medial side');
  });

  test('a segment is named with its length', () => {
    const other = { ...plainConstruct, femur: 'EX-DF4', femoralSegmentMm: 95, femoralStem: 'EX-SP14-100' };
    expect(constructChanges(plainConstruct, other, catalogue)[0]).toBe(
      'Femur distal femoral component 4, 95 mm instead of size 4',
    );
  });

  test('the same augment for another size needs no word, and moves under half a millimetre none', () => {
    const a = { ...plainConstruct, distalAugments: { medial: 'EX-D4-8', lateral: null } };
    const b = {
      ...plainConstruct,
      femur: 'EX-F5R',
      distalAugments: { medial: 'EX-D5-8', lateral: null },
      femurProximalMm: 0.4,
    };
    expect(constructChanges(a, b, catalogue)).toEqual(['Femur size 5 instead of size 4']);
  });
});
