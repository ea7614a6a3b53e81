import type { Catalogue } from '../catalogue/catalogue.ts';
import { LEVEL_WORDS, levelInSentence } from '../constraint/level-words.ts';
import type { Construct } from './construct.ts';
import { type PartsOfConstruct, partsOf } from './parts-of.ts';

/** Moves smaller than this are within what any saw does, and are not named, mm. */
const NAMED_MM = 0.5;

const mm = (x: number): string => `${Number(Math.abs(x).toFixed(1))} mm`;

interface Named {
  readonly ref: string;
  readonly name: string;
}

/** A part for another: by what tells them apart where that is a measure or a size, else by their names. */
function swapped<T extends Named>(
  [before, after]: readonly [T | null, T | null],
  [what, where]: readonly [string, string],
  measure?: (part: T) => string,
): string[] {
  if (before?.ref === after?.ref) return [];
  const told = (part: T) => (measure ? measure(part) : lower(part.name));
  const head = measure ? `${what} ` : '';
  const at = where === '' ? '' : ` ${where}`;
  if (!after) return before ? [`No ${measure ? `${lower(what)} ` : ''}${told(before)}${at}`] : [];
  const text = `${head}${told(after)}${at} instead of ${before ? told(before) : 'none'}`;
  return [text.charAt(0).toUpperCase() + text.slice(1)];
}

const lower = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);

/** Size of a usual component; the name of a segment with its length. */
const sized =
  (segment: PartsOfConstruct['femoralSegment'], lengthMm: number) =>
  (part: Named & { readonly size: number }): string =>
    segment && part.ref === segment.ref ? `${lower(segment.name)}, ${lengthMm} mm` : `size ${part.size}`;

function ofParts(a: PartsOfConstruct, b: PartsOfConstruct): string[] {
  const sides = (face: 'distal' | 'posterior' | 'blocks', what: string) =>
    (['medial', 'lateral'] as const).flatMap((x) =>
      // The same thickness for another size is no change that needs a word.
      a[face][x]?.thicknessMm === b[face][x]?.thicknessMm
        ? []
        : swapped([a[face][x], b[face][x]], [what, `on the ${x} side`], (part) => mm(part.thicknessMm)),
    );
  const tray = sized(b.tibialSegment ?? a.tibialSegment, (b.tibialSegment ? b : a).tray.thicknessMm);
  const femur = sized(b.femoralSegment ?? a.femoralSegment, (b.femoralSegment ? b : a).femur.distalMm);
  const sameLabel = a.insert.labelMm === b.insert.labelMm;
  return [
    ...swapped([a.tray, b.tray], ['Tray', ''], tray),
    ...sides('blocks', 'Tibial block'),
    ...swapped([a.femur, b.femur], ['Femur', ''], femur),
    ...sides('distal', 'Distal augment'),
    ...sides('posterior', 'Posterior augment'),
    ...swapped([a.femoralOffset, b.femoralOffset], ['Femoral offset coupler', ''], (part) => mm(part.offsetMm)),
    ...swapped([a.tibialOffset, b.tibialOffset], ['Tibial offset coupler', ''], (part) => mm(part.offsetMm)),
    ...(sameLabel ? [] : swapped([a.insert, b.insert], ['Insert', ''], (part) => mm(part.labelMm))),
    ...swapped<Named>([a.femoralCone ?? a.femoralSleeve, b.femoralCone ?? b.femoralSleeve], ['', 'in the femur']),
    ...swapped<Named>([a.tibialCone ?? a.tibialSleeve, b.tibialCone ?? b.tibialSleeve], ['', 'in the tibia']),
    ...swapped([a.femoralStem, b.femoralStem], ['', 'in the femur']),
    ...swapped([a.tibialStem, b.tibialStem], ['', 'in the tibia']),
  ];
}

/**
 * What one construct has that another has not, in plain words: the level of constraint, then
 * parts in the order of the steps (tibia, femur, insert), then where the components stand. Empty where they are alike.
 * Moves under half a millimetre are not named.
 *
 * @param from the plan; `to` what it becomes. Both of the same catalogue.
 */
export function constructChanges(from: Construct, to: Construct, catalogue: Catalogue): readonly string[] {
  const moved = (by: number, [less, more]: readonly [string, string], what: string): string[] =>
    Math.abs(by) < NAMED_MM ? [] : [`${what} ${mm(by)} ${by > 0 ? more : less}`];
  return [
    ...(from.level === to.level ? [] : [`${LEVEL_WORDS[to.level]} instead of ${levelInSentence(from.level)}`]),
    ...ofParts(partsOf(from, catalogue), partsOf(to, catalogue)),
    ...moved(to.trayMm - from.trayMm, ['lower', 'higher'], 'Tray'),
    ...moved(to.femurProximalMm - from.femurProximalMm, ['further distal', 'further proximal'], 'Femoral joint line'),
    ...moved(to.femurAnteriorMm - from.femurAnteriorMm, ['further back', 'further forward'], 'Posterior femur'),
    ...(to.slopeDeg === from.slopeDeg ? [] : [`Slope ${to.slopeDeg} instead of ${from.slopeDeg} degrees`]),
  ];
}
