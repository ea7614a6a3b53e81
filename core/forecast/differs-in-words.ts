import type { Catalogue } from '../catalogue/catalogue.ts';
import type { Construct } from '../gaps/construct.ts';
import { type PartsOfConstruct, partsOf } from '../gaps/parts-of.ts';
import type { PerCompartment } from '../landmarks/side.ts';
import { choiceNames } from './choices.ts';
import { insertKind } from './kind.ts';

interface Thick {
  readonly thicknessMm: number;
}

const mm = (v: number): string => String(Number(v.toFixed(1)));

/** Augments of one face on one side: "block 10 instead of 5 medially", "no block medially". */
function augment(word: string, [now, before]: readonly [Thick | null, Thick | null], where: string): string[] {
  if (now?.thicknessMm === before?.thicknessMm) return [];
  if (!now) return [`no ${word} ${where}`];
  return [`${word} ${mm(now.thicknessMm)}${before ? ` instead of ${mm(before.thicknessMm)}` : ''} ${where}`];
}

/** Both sides of a face in one phrase where they change alike. */
function face(
  word: string,
  now: PerCompartment<Thick | null>,
  before: PerCompartment<Thick | null>,
): readonly string[] {
  const medial = augment(word, [now.medial, before.medial], 'medially');
  const lateral = augment(word, [now.lateral, before.lateral], 'laterally');
  const alike = medial[0]?.replace('medially', '') === lateral[0]?.replace('laterally', '');
  return alike && medial[0] ? [medial[0].replace('medially', 'on both sides')] : [...medial, ...lateral];
}

function stem(bone: string, now: PartsOfConstruct['femoralStem'], before: PartsOfConstruct['femoralStem']): string[] {
  if (now?.fixation === before?.fixation && now?.lengthMm === before?.lengthMm) return [];
  if (!now) return [`no ${bone} stem`];
  const fixation = now.fixation === before?.fixation ? '' : `${now.fixation} `;
  return [
    `${fixation}${bone} stem ${mm(now.lengthMm)}${before && !fixation ? ` instead of ${mm(before.lengthMm)}` : ''}`,
  ];
}

/** An offset coupler or none, whatever its offset. */
function coupler(bone: string, [now, before]: readonly [unknown, unknown]): string[] {
  if ((now === null) === (before === null)) return [];
  return [`${now === null ? 'no ' : ''}${bone} offset coupler`];
}

/** Part that holds in the metaphysis: its kind, not its size. */
function metaphysis(bone: string, now: PartsOfConstruct, before: PartsOfConstruct): string[] {
  const kind = (p: PartsOfConstruct): string | null =>
    bone === 'femoral'
      ? p.femoralCone
        ? 'cone'
        : p.femoralSleeve
          ? 'sleeve'
          : null
      : p.tibialCone
        ? 'cone'
        : p.tibialSleeve
          ? 'sleeve'
          : null;
  const [is, was] = [kind(now), kind(before)];
  if (is === was) return [];
  if (is === null) return [`no ${bone} ${was}`];
  return [`${bone} ${is}${was ? ` instead of a ${was}` : ''}`];
}

/** A component by its size, or by its name where the end of the bone is replaced. */
function component(
  word: string,
  now: { readonly ref: string; readonly name: string; readonly size: number; readonly segment: boolean },
  before: { readonly ref: string; readonly size: number; readonly segment: boolean },
): string[] {
  if (now.ref === before.ref) return [];
  if (now.segment) return [now.name];
  return [`${word} size ${now.size}${before.segment ? '' : ` instead of ${before.size}`}`];
}

/**
 * How a construct differs from the first choice, in the words of theatre and in the order in which it is built: "block
 * 10 instead of 5 medially, tibial stem 100, same insert". Empty = the same in kind (FOR-10).
 * Thicknesses and lengths in mm. References of another catalogue are a bug and throw.
 */
export function differsInWords(construct: Construct, first: Construct, catalogue: Catalogue): string {
  const now = partsOf(construct, catalogue);
  const before = partsOf(first, catalogue);
  const sized = (p: PartsOfConstruct, bone: 'femur' | 'tray') => ({
    ...p[bone],
    segment: (bone === 'femur' ? p.femoralSegment : p.tibialSegment) !== null,
  });
  const level = choiceNames(catalogue).get(construct.level) ?? construct.level;
  const words = [
    ...(construct.level === first.level ? [] : [level]),
    ...component('tray', sized(now, 'tray'), sized(before, 'tray')),
    ...face('block', now.blocks, before.blocks),
    ...metaphysis('tibial', now, before),
    ...stem('tibial', now.tibialStem, before.tibialStem),
    ...coupler('tibial', [now.tibialOffset, before.tibialOffset]),
    ...component('femur', sized(now, 'femur'), sized(before, 'femur')),
    ...face('distal augment', now.distal, before.distal),
    ...face('posterior augment', now.posterior, before.posterior),
    ...metaphysis('femoral', now, before),
    ...stem('femoral', now.femoralStem, before.femoralStem),
    ...coupler('femoral', [now.femoralOffset, before.femoralOffset]),
  ];
  const insert = insertKind(now.insert.labelMm, before.insert.labelMm);
  if (insert !== 'same')
    words.push(`${insert} insert, ${mm(now.insert.labelMm)} instead of ${mm(before.insert.labelMm)}`);
  else if (words.length > 0) words.push('same insert');
  return words.join(', ');
}
