import type { Catalogue, Femur, Tray } from '../catalogue/catalogue.ts';

/** A part that does not exist yet and might help, put beside those that do. */
export interface Addition {
  readonly id: string;
  /** What is lacking without it. */
  readonly lacks: string;
  readonly catalogue: Catalogue;
  /** Name of each new part, by its reference. */
  readonly names: ReadonlyMap<string, string>;
}

type Lists = 'femurs' | 'femoralAugments' | 'trays' | 'tibialAugments' | 'inserts' | 'stems' | 'cones';

interface New {
  readonly list: Lists;
  readonly part: { readonly ref: string; readonly name: string };
}

const last = <T>(parts: readonly T[], measure: (part: T) => number): T | undefined =>
  parts.reduce<T | undefined>((most, p) => (most === undefined || measure(p) > measure(most) ? p : most), undefined);

/** The thickest augment of each size, thicker by some millimetres. */
function thickerBlocks({ tibialAugments, trays }: Catalogue, byMm: number): New[] {
  return [...new Set(trays.map((t) => t.size))].flatMap((size) => {
    const of = tibialAugments.filter((a) => a.traySizes.includes(size));
    const mm = (last(of, (a) => a.thicknessMm)?.thicknessMm ?? 0) + byMm;
    const part = { ref: `new-block-${size}`, name: `tibial block of ${mm} mm for tray ${size}`, thicknessMm: mm };
    return [{ list: 'tibialAugments' as const, part: { ...part, traySizes: [size] } }];
  });
}

function thickerAugments(catalogue: Catalogue, face: 'distal' | 'posterior', byMm: number): New[] {
  return [...new Set(catalogue.femurs.map((f) => f.size))].map((size) => {
    const of = catalogue.femoralAugments.filter((a) => a.face === face && a.femurSizes.includes(size));
    const mm = (last(of, (a) => a.thicknessMm)?.thicknessMm ?? 0) + byMm;
    const part = { ref: `new-${face}-${size}`, name: `${face} augment of ${mm} mm for femur ${size}`, face };
    return { list: 'femoralAugments' as const, part: { ...part, thicknessMm: mm, femurSizes: [size] } };
  });
}

function thickerInserts({ inserts }: Catalogue, byMm: number): New[] {
  const kinds = new Map(inserts.map((i) => [`${i.size} ${i.level}`, i]));
  return [...kinds.values()].flatMap(({ size, level }) => {
    const thickest = last(
      inserts.filter((i) => i.size === size && i.level === level),
      (i) => i.labelMm,
    );
    if (!thickest) return [];
    const labelMm = thickest.labelMm + byMm;
    const part = { ...thickest, ref: `new-insert-${size}-${level}`, name: `insert ${size} of ${labelMm} mm`, labelMm };
    const { heightMm, leastPolyethyleneMm } = thickest;
    return [
      {
        list: 'inserts' as const,
        part: { ...part, heightMm: heightMm + byMm, leastPolyethyleneMm: leastPolyethyleneMm + byMm },
      },
    ];
  });
}

/** Cones for every size, as wide as any. */
function conesForAll({ femurs, trays }: Catalogue): New[] {
  return (['femur', 'tibia'] as const).map((bone) => ({
    list: 'cones' as const,
    part: {
      ref: `new-cone-${bone}`,
      name: `cone for the ${bone}`,
      bone,
      widthMm: 40,
      heightMm: 30,
      sizes: (bone === 'femur' ? femurs : trays).map((p) => p.size),
    },
  }));
}

/** Stems thinner than the thinnest and wider than the widest, usual and long. */
function otherStems({ stems }: Catalogue): New[] {
  const diameters = stems.map((s) => s.diameterMm);
  const [least, most] = [Math.min(...diameters), Math.max(...diameters)];
  const wanted = stems.length === 0 ? [10, 14] : [least - 2, most + 2];
  return wanted.flatMap((diameterMm) =>
    [75, 150].flatMap((lengthMm) =>
      (['cemented', 'press-fit'] as const).map((fixation) => ({
        list: 'stems' as const,
        part: {
          ref: `new-stem-${fixation}-${diameterMm}-${lengthMm}`,
          name: `${fixation} stem of ${diameterMm} x ${lengthMm} mm`,
          bone: 'both' as const,
          fixation,
          diameterMm,
          lengthMm,
        },
      })),
    ),
  );
}

/** The part one step beyond the widest (+1) or the narrowest (-1); it joins what that one joins. */
function beyondWidth(parts: readonly (Femur | Tray)[], way: 1 | -1): New['part'][] {
  const [end, next] = [...parts].sort((a, b) => way * (b.widthMm - a.widthMm));
  if (!end || !next) return [];
  const word = way === 1 ? 'wider' : 'narrower';
  const [widthMm, apMm] = [2 * end.widthMm - next.widthMm, 2 * end.apMm - next.apMm];
  const part = { ...end, ref: `new-${word}-${end.ref}`, name: `component ${word} than ${end.name}`, widthMm, apMm };
  return [part];
}

function otherSizes({ femurs, trays }: Catalogue): New[] {
  const sides = (['right', 'left', 'both'] as const).map((side) => femurs.filter((f) => f.side === side));
  return ([1, -1] as const).flatMap((way) => [
    ...sides.flatMap((side) => beyondWidth(side, way)).map((part) => ({ list: 'femurs' as const, part })),
    ...beyondWidth(trays, way).map((part) => ({ list: 'trays' as const, part })),
  ]);
}

function withNew(catalogue: Catalogue, added: readonly New[]): Catalogue {
  const lists: Record<string, readonly unknown[]> = {};
  for (const { list, part } of added) lists[list] = [...(lists[list] ?? catalogue[list] ?? []), part];
  return { ...catalogue, ...lists };
}

/**
 * Parts that a system might have besides, from small to large steps: each kind of part a little beyond the largest that there
 * is. To find out what is lacking for a knee that the whole catalogue does not cover. They exist nowhere: they are a
 * way of naming the gap, never a proposal to build.
 */
export function additionsTo(catalogue: Catalogue): readonly Addition[] {
  const tried: readonly [id: string, lacks: string, added: readonly New[]][] = [
    ['block', 'no tibial block of the catalogue is that thick', thickerBlocks(catalogue, 5)],
    ['distal', 'no distal augment of the catalogue is that thick', thickerAugments(catalogue, 'distal', 4)],
    ['posterior', 'no posterior augment of the catalogue is that thick', thickerAugments(catalogue, 'posterior', 4)],
    ['insert', 'no insert of the catalogue is that thick', thickerInserts(catalogue, 3)],
    ['cone', 'no cone of the catalogue fits these sizes', conesForAll(catalogue)],
    ['stem', 'no stem of the catalogue fits the canal', otherStems(catalogue)],
    ['size', 'no component of the catalogue fits the width of the bone', otherSizes(catalogue)],
    ['block-more', 'no tibial block of the catalogue is that thick', thickerBlocks(catalogue, 10)],
    ['distal-more', 'no distal augment of the catalogue is that thick', thickerAugments(catalogue, 'distal', 8)],
    ['posterior-more', 'no posterior augment is that thick', thickerAugments(catalogue, 'posterior', 8)],
    ['insert-more', 'no insert of the catalogue is that thick', thickerInserts(catalogue, 9)],
  ];
  return tried.map(([id, lacks, added]) => ({
    id,
    lacks,
    catalogue: withNew(catalogue, added),
    names: new Map(added.map(({ part }) => [part.ref, part.name])),
  }));
}
