import type { Catalogue } from '@gapline/core/catalogue/catalogue.ts';
import type { Fault } from './fault.ts';

const LISTS = [
  'femurs',
  'femoralAugments',
  'trays',
  'tibialAugments',
  'inserts',
  'stems',
  'offsetCouplers',
  'cones',
  'sleeves',
  'segments',
] as const;

/** The same reference twice, in whichever lists: an order would be ambiguous. */
function duplicates(catalogue: Catalogue): Fault[] {
  const first = new Map<string, string>();
  const found: Fault[] = [];
  for (const list of LISTS)
    (catalogue[list] ?? []).forEach(({ ref }, i) => {
      const pointer = `/${list}/${i}/ref`;
      const before = first.get(ref);
      if (before === undefined) first.set(ref, `${list}[${i}]`);
      else
        found.push({
          code: 'reference-twice',
          pointer,
          what: `is "${ref}", which ${before} has already`,
          mend: 'Give every part a reference of its own.',
        });
    });
  return found;
}

interface Sizes {
  readonly femur: ReadonlySet<number>;
  readonly tray: ReadonlySet<number>;
  readonly insert: ReadonlySet<number>;
}

const missing = (kind: keyof Sizes, size: number, pointer: string): Fault => ({
  code: 'size-without-part',
  pointer,
  what: `names ${kind} size ${size}, and no ${kind} of the catalogue has it`,
  mend: `Add the ${kind} of size ${size}, or remove it here.`,
});

function named(kind: keyof Sizes, sizes: Sizes, wanted: readonly { size: number; pointer: string }[]): Fault[] {
  return wanted.filter(({ size }) => !sizes[kind].has(size)).map(({ size, pointer }) => missing(kind, size, pointer));
}

function compatibility({ compatibility: table }: Catalogue, sizes: Sizes): Fault[] {
  const column = <R extends object, K extends keyof R & string>(rows: readonly R[], name: string, key: K) =>
    rows.map((row, i) => ({ size: Number(row[key]), pointer: `/compatibility/${name}/${i}/${key}` }));
  return [
    ...named('femur', sizes, column(table.femurInsert, 'femurInsert', 'femurSize')),
    ...named('insert', sizes, column(table.femurInsert, 'femurInsert', 'insertSize')),
    ...named('insert', sizes, column(table.insertTray, 'insertTray', 'insertSize')),
    ...named('tray', sizes, column(table.insertTray, 'insertTray', 'traySize')),
    ...named('femur', sizes, column(table.femurTray, 'femurTray', 'femurSize')),
    ...named('tray', sizes, column(table.femurTray, 'femurTray', 'traySize')),
  ];
}

function augments(catalogue: Catalogue, sizes: Sizes): Fault[] {
  const spread = (list: string, key: string, rows: readonly (readonly number[])[]) =>
    rows.flatMap((row, i) => row.map((size, n) => ({ size, pointer: `/${list}/${i}/${key}/${n}` })));
  const metaphyseal = (list: 'cones' | 'sleeves', bone: 'femur' | 'tibia') =>
    spread(
      list,
      'sizes',
      (catalogue[list] ?? []).map((c) => (c.bone === bone ? c.sizes : [])),
    );
  const segments = (bone: 'femur' | 'tibia') =>
    (catalogue.segments ?? []).flatMap((s, i) =>
      s.bone === bone ? [{ size: s.size, pointer: `/segments/${i}/size` }] : [],
    );
  return [
    ...named(
      'femur',
      sizes,
      spread(
        'femoralAugments',
        'femurSizes',
        catalogue.femoralAugments.map((a) => a.femurSizes),
      ),
    ),
    ...named(
      'tray',
      sizes,
      spread(
        'tibialAugments',
        'traySizes',
        catalogue.tibialAugments.map((a) => a.traySizes),
      ),
    ),
    ...(['cones', 'sleeves'] as const).flatMap((list) => [
      ...named('femur', sizes, metaphyseal(list, 'femur')),
      ...named('tray', sizes, metaphyseal(list, 'tibia')),
    ]),
    ...named('femur', sizes, segments('femur')),
    ...named('tray', sizes, segments('tibia')),
  ];
}

/** Dimensions that contradict each other: more polyethylene than the insert is high. */
function dimensions({ inserts }: Catalogue): Fault[] {
  return inserts.flatMap(({ leastPolyethyleneMm, heightMm }, i) =>
    leastPolyethyleneMm > heightMm
      ? [
          {
            code: 'polyethylene-above-height',
            pointer: `/inserts/${i}/leastPolyethyleneMm`,
            what: `is ${leastPolyethyleneMm}, more than the true height of ${heightMm}`,
            mend: 'Give the least polyethylene under the bearing surface, and the true height of its low point.',
          },
        ]
      : [],
  );
}

/** A bowed stem without its radius, or a straight one with one (CAT-5). */
function bows({ stems }: Catalogue): Fault[] {
  return stems.flatMap(({ shape, bowRadiusMm }, i): Fault[] => {
    const bowed = shape === 'bowed';
    if (bowed === (bowRadiusMm !== undefined)) return [];
    return bowed
      ? [
          {
            code: 'bow-without-radius',
            pointer: `/stems/${i}/shape`,
            what: 'is bowed, and the stem states no radius',
            mend: 'Give bowRadiusMm, the radius of the axis in mm.',
          },
        ]
      : [
          {
            code: 'radius-without-bow',
            pointer: `/stems/${i}/bowRadiusMm`,
            what: `is ${bowRadiusMm}, and the stem is straight`,
            mend: 'Give shape "bowed", or leave the radius out.',
          },
        ];
  });
}

/** A cone whose opening is not narrower than the cone itself (CAT-5). */
function bores({ cones }: Catalogue): Fault[] {
  return (cones ?? []).flatMap(({ boreMm, widthMm }, i) =>
    boreMm !== undefined && boreMm >= widthMm
      ? [
          {
            code: 'bore-above-width',
            pointer: `/cones/${i}/boreMm`,
            what: `is ${boreMm}, not less than the width of ${widthMm}`,
            mend: 'Give the inner opening of the cone, and its greatest outer width.',
          },
        ]
      : [],
  );
}

/** Faults that a schema cannot see: references twice, sizes that no part has, dimensions that contradict (CAT-2, CAT-3, CAT-5). */
export function referenceFaults(catalogue: Catalogue): readonly Fault[] {
  const sizes: Sizes = {
    femur: new Set(catalogue.femurs.map((f) => f.size)),
    tray: new Set(catalogue.trays.map((t) => t.size)),
    insert: new Set(catalogue.inserts.map((i) => i.size)),
  };
  return [
    ...duplicates(catalogue),
    ...compatibility(catalogue, sizes),
    ...augments(catalogue, sizes),
    ...dimensions(catalogue),
    ...bows(catalogue),
    ...bores(catalogue),
  ];
}
