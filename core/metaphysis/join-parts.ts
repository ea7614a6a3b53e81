import type { Femur, OffsetCoupler, Stem, Tray } from '../catalogue/catalogue.ts';
import type { MetaphysealPart } from './metaphyseal-part.ts';

/** What a cone or sleeve is joined with in one bone. */
export interface JoinedWith {
  readonly component:
    | { readonly bone: 'femur'; readonly part: Femur }
    | { readonly bone: 'tibia'; readonly part: Tray };
  readonly stem: Stem | null;
  readonly coupler: OffsetCoupler | null;
  /** A part of the other kind in the same bone. */
  readonly besides: MetaphysealPart['kind'] | null;
}

export interface JoinVerdict {
  readonly verdict: 'joins' | 'does-not-join' | 'not-known';
  readonly against: readonly string[];
  readonly notKnown: readonly string[];
}

/** Room that cement wants between a cone's bore and what passes it, each side, mm (META-7; planning default, grade D). */
export const BORE_ROOM_MM = 2;

const mm = (v: number) => `${v.toFixed(1)} mm`;

/** Width that must pass a bore: as wide as the part itself, the offset counted to one side, cement all round. */
const throughBore = (widthMm: number, offsetMm: number): number => widthMm + 2 * offsetMm + 2 * BORE_ROOM_MM;

/**
 * Whether a cone or sleeve goes together with component, stem and offset coupler of its bone (META-6 to META-8): sizes, one kind a bone, a
 * sleeve's straight stem, what must pass a cone's bore: stem with its offset, and the box as far as it reaches into the cone.
 *
 * Lengths mm. A bore that the catalogue does not state leaves the collision not known, and so does the width of a keel.
 */
export function joinParts({ kind, part }: MetaphysealPart, joined: JoinedWith): JoinVerdict {
  const against: string[] = [];
  const notKnown: string[] = [];
  const { component, stem, coupler } = joined;
  if (part.bone !== component.bone) against.push(`is made for the ${part.bone}`);
  if (!part.sizes.includes(component.part.size)) against.push(`does not take size ${component.part.size}`);
  if (joined.besides && joined.besides !== kind) against.push(`never beside a ${joined.besides} in one bone`);
  if (!stem) against.push('wants a stem');
  if (kind === 'sleeve') {
    if (coupler && !part.takesOffset) against.push('takes a straight stem only: no offset coupler');
  } else if (part.boreMm === undefined) notKnown.push('inner opening of the cone');
  else {
    const stemWants = stem ? throughBore(stem.diameterMm, coupler?.offsetMm ?? 0) : 0;
    if (stemWants > part.boreMm)
      against.push(
        `its opening of ${mm(part.boreMm)} is too narrow for the stem${coupler ? ' on its offset' : ''} with cement: ${mm(stemWants)}`,
      );
    if (component.bone === 'femur') boxInBore(against, component.part, part.boreMm);
    else notKnown.push('width of the keel');
  }
  return {
    verdict: against.length > 0 ? 'does-not-join' : notKnown.length > 0 ? 'not-known' : 'joins',
    against,
    notKnown,
  };
}

/** A box that reaches above the distal bone face stands inside the cone there. */
function boxInBore(against: string[], femur: Femur, boreMm: number): void {
  const reachesMm = femur.boxDepthMm - femur.distalMm;
  if (reachesMm > 0 && femur.boxWidthMm > boreMm)
    against.push(`the box, ${mm(femur.boxWidthMm)} wide, reaches ${mm(reachesMm)} into an opening of ${mm(boreMm)}`);
}
