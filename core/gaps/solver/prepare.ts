import { type Catalogue, CONSTRAINT_LEVELS } from '../../catalogue/catalogue.ts';
import type { Side } from '../../landmarks/side.ts';
import { femurOfSegment, segmentLengthsMm, trayOfSegment } from '../segment.ts';
import { takesSize } from '../tray-place.ts';
import { joinTable } from './joins.ts';
import type { Prepared, PreparedFemur, PreparedTray } from './prepared.ts';
import { numbering, remember } from './remember.ts';

interface Thick {
  readonly ref: string;
  readonly thicknessMm: number;
}

const byThickness = <T extends Thick>(parts: readonly T[]): readonly (T | null)[] => {
  const sorted = [...parts].sort((a, b) => a.thicknessMm - b.thicknessMm || (a.ref < b.ref ? -1 : 1));
  return [null, ...sorted.filter((p, i) => p.thicknessMm !== sorted[i - 1]?.thicknessMm)];
};

const thicknessesOf = (parts: readonly (Thick | null)[]): string => parts.map((p) => p?.thicknessMm ?? 0).join(' ');

/** Cones and sleeves that take a size, as a key: what they leave open to the bone state is judged there. */
function holdKeyOf(catalogue: Catalogue, bone: 'femur' | 'tibia', of: { size: number; boxWidthMm: number }): string {
  const takes = (part: { bone: string; sizes: readonly number[] }) =>
    part.bone === bone && part.sizes.includes(of.size);
  const cones = (catalogue.cones ?? []).filter(
    (c) => takes(c) && (c.boreMm === undefined || c.boreMm >= of.boxWidthMm),
  );
  return [...cones, ...(catalogue.sleeves ?? []).filter(takes)].map((p) => p.ref).join(' ');
}

function preparedTrays(catalogue: Catalogue): PreparedTray[] {
  const blockTable = numbering();
  const holdTable = numbering();
  const usual = catalogue.trays.map((tray): Omit<PreparedTray, 'index'> => {
    const blocks = byThickness(catalogue.tibialAugments.filter((a) => a.traySizes.includes(tray.size)));
    return {
      tray,
      segment: null,
      side: 'both',
      blocks,
      blockTable: blockTable(thicknessesOf(blocks)),
      holdTable: holdTable(holdKeyOf(catalogue, 'tibia', { size: tray.size, boxWidthMm: 0 })),
    };
  });
  const segments = segmentsOf(catalogue, 'tibia').map(
    ({ segment, lengthMm }): Omit<PreparedTray, 'index'> => ({
      tray: trayOfSegment(segment, lengthMm),
      segment,
      side: segment.side,
      blocks: [null],
      blockTable: blockTable('segment'),
      holdTable: holdTable('segment'),
    }),
  );
  return [...usual, ...segments].map((tray, index) => ({ ...tray, index }));
}

/** Every segment of a bone in every length in which it can be built. */
const segmentsOf = (catalogue: Catalogue, bone: 'femur' | 'tibia') =>
  (catalogue.segments ?? [])
    .filter((segment) => segment.bone === bone)
    .flatMap((segment) => segmentLengthsMm(segment).map((lengthMm) => ({ segment, lengthMm })));

function preparedFemurs(catalogue: Catalogue): Omit<PreparedFemur, 'bearings' | 'couplers'>[] {
  const distalTable = numbering();
  const condyleTable = numbering();
  const holdTable = numbering();
  const usual = catalogue.femurs.map((femur) => {
    const augments = (face: 'distal' | 'posterior') =>
      byThickness(catalogue.femoralAugments.filter((a) => a.face === face && a.femurSizes.includes(femur.size)));
    const distal = augments('distal');
    const posterior = augments('posterior');
    return {
      femur,
      segment: null,
      distal,
      posterior,
      distalTable: distalTable(`${femur.distalMm}|${thicknessesOf(distal)}`),
      condyleTable: condyleTable(`${femur.posteriorMm}|${thicknessesOf(posterior)}`),
      holdTable: holdTable(holdKeyOf(catalogue, 'femur', femur)),
    };
  });
  const segments = segmentsOf(catalogue, 'femur').map(({ segment, lengthMm }) => ({
    femur: femurOfSegment(segment, lengthMm),
    segment,
    distal: [null],
    posterior: [null],
    distalTable: distalTable(`segment|${lengthMm}`),
    condyleTable: condyleTable(`segment|${segment.apFreeMm}`),
    holdTable: holdTable('segment'),
  }));
  return [...usual, ...segments].map((femur, index) => ({ ...femur, index }));
}

function build(catalogue: Catalogue): Prepared {
  const trays = preparedTrays(catalogue);
  const bearings = joinTable(catalogue, trays);
  const byOffset = catalogue.offsetCouplers.toSorted((a, b) => a.offsetMm - b.offsetMm || (a.ref < b.ref ? -1 : 1));
  const behind = ({ femur, segment }: Pick<PreparedFemur, 'femur' | 'segment'>) =>
    segment ? [null] : [null, ...byOffset.filter((c) => c.bone !== 'tibia' && takesSize(c, femur.size))];
  const femurs = preparedFemurs(catalogue).map(
    (part): PreparedFemur => ({ ...part, bearings: bearings(part.femur), couplers: behind(part) }),
  );
  const forTrays = byOffset.filter((c) => c.bone !== 'femur');
  const trayCouplers = new Map(
    catalogue.trays.map(({ size }) => [size, forTrays.filter((c) => takesSize(c, size))] as const),
  );
  const underTray = ({ segment, tray }: PreparedTray) => (segment ? 1 : 1 + (trayCouplers.get(tray.size)?.length ?? 0));
  const of = (side: Side) => femurs.filter(({ femur }) => femur.side === 'both' || femur.side === side);
  const onSide = { right: of('right'), left: of('left') };
  const count = (side: Side) =>
    onSide[side].reduce((sum, f) => {
      const joined = CONSTRAINT_LEVELS.flatMap((level) => f.bearings[level].all)
        .filter(({ tray }) => tray.side === 'both' || tray.side === side)
        .reduce((n, b) => n + b.seats.length * b.tray.blocks.length ** 2 * underTray(b.tray), 0);
      return sum + f.distal.length ** 2 * f.posterior.length ** 2 * f.couplers.length * joined;
    }, 0) * catalogue.limits.slopeDeg.length;
  const counts = new Map<Side, number>();
  return {
    catalogue,
    femurs: onSide,
    usualFemurs: { right: usual(onSide.right), left: usual(onSide.left) },
    trayCouplers,
    combinations: (side) => remember(counts, side, () => count(side)),
  };
}

/** Those that are no segments. */
const usual = (femurs: readonly PreparedFemur[]) => femurs.filter(({ segment }) => !segment);

const prepared = new WeakMap<Catalogue, Prepared>();

/**
 * Sorts a catalogue for the solver: which parts join which, equal choices once, segments in every length. The same
 * catalogue object is sorted only once, so that a drag on the film does not pay for it again.
 */
export function prepare(catalogue: Catalogue): Prepared {
  const known = prepared.get(catalogue);
  if (known) return known;
  const made = build(catalogue);
  prepared.set(catalogue, made);
  return made;
}
