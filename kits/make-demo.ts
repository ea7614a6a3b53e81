import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { demoCatalogue } from '../catalogues/make-demo.ts';
import type { Catalogue, Insert } from '../core/catalogue/catalogue.ts';
import type { KitSet, SetList, StockItem } from '../core/kit/set-list.ts';

// The sets of an example hospital: invented, as are fees, days and lots. `node kits/make-demo.ts` writes
// kits/demo.json and kits/demo-stock.csv; a test compares them.

const CURRENCY = 'EUR';
/** What it costs to wash, pack and sterilise one tray; invented. */
const TRAY_COST = 60;

type Parts = KitSet['parts'];
type Part = { readonly ref: string };

const catalogue: Catalogue = demoCatalogue();
const each = (parts: readonly Part[], count = 1): Parts => parts.map(({ ref }) => ({ ref, count }));
const within = (from: number, to: number) => (size: number) => size >= from && size <= to;

/** Femurs of both sides with their augments, two of each augment. */
function femurs(from: number, to: number): Parts {
  const fits = within(from, to);
  return [
    ...each(catalogue.femurs.filter((f) => fits(f.size))),
    ...each(
      catalogue.femoralAugments.filter((a) => a.femurSizes.every(fits)),
      2,
    ),
  ];
}

const blocks = (from: number, to: number, thickness: (mm: number) => boolean): Parts =>
  each(
    catalogue.tibialAugments.filter((b) => b.traySizes.every(within(from, to)) && thickness(b.thicknessMm)),
    2,
  );

/** Trays with blocks to 10 mm, two of each block. */
const trays = (from: number, to: number): Parts => [
  ...each(catalogue.trays.filter((t) => within(from, to)(t.size))),
  ...blocks(from, to, (mm) => mm <= 10),
];

const inserts = (from: number, to: number, is: (insert: Insert) => boolean): Parts =>
  each(catalogue.inserts.filter((i) => within(from, to)(i.size) && is(i)));

/** Stems, two of each: one may be wanted in either bone. */
const stems = (prefix: string, is: (diameterMm: number, lengthMm: number) => boolean): Parts =>
  each(
    catalogue.stems.filter((s) => s.ref.startsWith(prefix) && is(s.diameterMm, s.lengthMm)),
    2,
  );

const ofBone = (parts: readonly (Part & { readonly bone: string })[] | undefined, bone: string): Parts =>
  each((parts ?? []).filter((p) => p.bone === bone));

const own = (ref: string, name: string, trayCount: number, parts: Parts, more: Partial<KitSet> = {}): KitSet => ({
  ref,
  name,
  parts,
  owner: 'own-shelf',
  trays: trayCount,
  fee: 0,
  leadDays: 0,
  ...more,
});

const loan = (
  [ref, name, trayCount]: readonly [string, string, number],
  parts: Parts,
  terms: Pick<KitSet, 'fee' | 'leadDays' | 'failShare'> & Partial<KitSet>,
): KitSet => ({ ref, name, parts, owner: 'loan', trays: trayCount, ...terms });

const usual = (i: Insert): boolean => i.level !== 'hinge' && i.labelMm <= 16;
const thick = (i: Insert): boolean => i.level !== 'hinge' && i.labelMm > 16;
const hinged = (i: Insert): boolean => i.level === 'hinge';

const componentSets = (): KitSet[] => [
  loan(['F-SMALL', 'Femurs 1 and 2', 2], femurs(1, 2), { fee: 240, leadDays: 3, failShare: 0.02 }),
  own('F-MID', 'Femurs 3 to 6', 4, femurs(3, 6)),
  loan(['F-LARGE', 'Femurs 7 and 8', 2], femurs(7, 8), { fee: 240, leadDays: 3, failShare: 0.02 }),
  loan(['T-SMALL', 'Trays 1 and 2', 1], trays(1, 2), { fee: 180, leadDays: 3, failShare: 0.02 }),
  own('T-MID', 'Trays 3 to 6', 2, trays(3, 6)),
  loan(['T-LARGE', 'Trays 7 and 8', 1], trays(7, 8), { fee: 180, leadDays: 3, failShare: 0.02 }),
  own(
    'B-MID',
    'Thick blocks, trays 3 to 6',
    1,
    blocks(3, 6, (mm) => mm > 10),
  ),
  loan(
    ['B-ENDS', 'Thick blocks, trays 1, 2, 7, 8', 1],
    [...blocks(1, 2, (mm) => mm > 10), ...blocks(7, 8, (mm) => mm > 10)],
    {
      fee: 150,
      leadDays: 5,
      failShare: 0.03,
    },
  ),
];

const insertSets = (): KitSet[] => [
  loan(
    ['I-SMALL', 'Inserts 1 and 2', 1],
    inserts(1, 2, (i) => !hinged(i)),
    { fee: 160, leadDays: 3, failShare: 0.02 },
  ),
  own('I-MID', 'Inserts 3 to 6, to 16 mm', 1, inserts(3, 6, usual)),
  own('I-THICK', 'Inserts 3 to 6, from 18 mm', 1, inserts(3, 6, thick)),
  loan(
    ['I-LARGE', 'Inserts 7 and 8', 1],
    inserts(7, 8, (i) => !hinged(i)),
    { fee: 160, leadDays: 3, failShare: 0.02 },
  ),
  loan(['H-MID', 'Hinge, inserts 3 to 6', 2], inserts(3, 6, hinged), { fee: 620, leadDays: 5, failShare: 0.03 }),
  loan(['H-ENDS', 'Hinge, inserts 1, 2, 7, 8', 2], [...inserts(1, 2, hinged), ...inserts(7, 8, hinged)], {
    fee: 620,
    leadDays: 7,
    failShare: 0.04,
  }),
];

const stemSets = (): KitSet[] => [
  own(
    'S-CEMENT',
    'Cemented stems',
    1,
    stems('EX-SC', () => true),
  ),
  own(
    'S-PRESS',
    'Press-fit stems 10 to 17 mm, to 100 mm',
    2,
    stems('EX-SP', (d, l) => d <= 17 && l <= 100),
  ),
  loan(
    ['S-LONG', 'Press-fit stems 10 to 17 mm, from 150 mm', 2],
    stems('EX-SP', (d, l) => d <= 17 && l > 100),
    {
      fee: 260,
      leadDays: 3,
      failShare: 0.02,
    },
  ),
  loan(
    ['S-WIDE', 'Press-fit stems 18 to 24 mm', 2],
    stems('EX-SP', (d) => d > 17),
    {
      fee: 260,
      leadDays: 5,
      failShare: 0.03,
    },
  ),
  loan(
    ['S-BOW', 'Bowed femoral stems', 2],
    stems('EX-SB', () => true),
    { fee: 310, leadDays: 5, failShare: 0.03 },
  ),
  own('OFFSET', 'Offset couplers', 1, each(catalogue.offsetCouplers, 2)),
];

const metaphysealSets = (): KitSet[] => [
  loan(['C-FEMUR', 'Cones, femur', 1], ofBone(catalogue.cones, 'femur'), { fee: 340, leadDays: 5, failShare: 0.03 }),
  loan(['C-TIBIA', 'Cones, tibia', 1], ofBone(catalogue.cones, 'tibia'), { fee: 340, leadDays: 5, failShare: 0.03 }),
  loan(['M-FEMUR', 'Sleeves, femur', 2], ofBone(catalogue.sleeves, 'femur'), {
    fee: 420,
    leadDays: 5,
    failShare: 0.03,
  }),
  own('M-TIBIA', 'Sleeves, tibia', 2, ofBone(catalogue.sleeves, 'tibia')),
  loan(['G-FEMUR', 'Distal femoral components', 4], ofBone(catalogue.segments, 'femur'), {
    fee: 1400,
    leadDays: 10,
    failShare: 0.05,
  }),
  loan(['G-TIBIA', 'Proximal tibial components', 4], ofBone(catalogue.segments, 'tibia'), {
    fee: 1400,
    leadDays: 10,
    failShare: 0.05,
  }),
];

const serviceSets = (): KitSet[] => [
  own('X-REMOVE', 'Instruments for removal', 2, [], { services: ['extraction'] }),
  own('X-SPACER', 'Spacer moulds', 1, [], { services: ['spacer'] }),
  own('X-PLATES', 'Plates and cables', 3, [], { services: ['fracture-fixation'] }),
  own('X-GRAFT', 'Bone mill and graft', 1, [], { services: ['graft'] }),
  loan(['X-EXTENSOR', 'Mesh for the extensor mechanism', 1], [], {
    services: ['extensor-mechanism'],
    fee: 520,
    leadDays: 7,
    failShare: 0.04,
  }),
];

/** The sets of the example hospital, for the example catalogue. */
export function demoSetList(): SetList {
  return {
    format: 'gapline-sets',
    version: '1.0',
    id: 'example-hospital',
    name: 'Example hospital',
    catalogue: catalogue.id,
    invented: true,
    currency: CURRENCY,
    trayCost: TRAY_COST,
    sets: [...componentSets(), ...insertSets(), ...stemSets(), ...metaphysealSets(), ...serviceSets()],
  };
}

/** Lots on the example hospital's own shelf: most last for years, one has run out, one part is short. */
export function demoStock(): readonly StockItem[] {
  const owned = demoSetList().sets.filter((set) => set.owner === 'own-shelf' && set.parts.length > 0);
  return owned.flatMap((set, s) =>
    set.parts.map(({ ref, count }, p) => ({
      ref,
      lot: `X${String(s + 1).padStart(2, '0')}${String(p + 1).padStart(3, '0')}`,
      expires:
        set.ref === 'M-TIBIA' && ref === 'EX-MT1'
          ? '2026-10-31'
          : `20${28 + ((s + p) % 4)}-${String(((3 * p + s) % 12) + 1).padStart(2, '0')}-28`,
      count: set.ref === 'B-MID' && ref === 'EX-B3-20' ? 1 : count,
      set: set.ref,
    })),
  );
}

/** One part a line, so that a change of one part is a change of one line. */
export function setListText(list: SetList): string {
  const { sets, ...head } = list;
  const lines = Object.entries(head).map(([key, value]) => `  ${JSON.stringify(key)}: ${JSON.stringify(value)}`);
  const body = sets.map((set) => `    ${JSON.stringify(set)}`).join(',\n');
  return `{\n${lines.join(',\n')},\n  "sets": [\n${body}\n  ]\n}\n`;
}

export function stockText(items: readonly StockItem[]): string {
  const rows = items.map((i) => [i.ref, i.lot, i.expires, i.count, i.set ?? ''].join(','));
  return `ref,lot,expires,count,set\n${rows.join('\n')}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(new URL('demo.json', import.meta.url), setListText(demoSetList()));
  writeFileSync(new URL('demo-stock.csv', import.meta.url), stockText(demoStock()));
}
