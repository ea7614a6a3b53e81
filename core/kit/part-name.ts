import type { Catalogue } from '../catalogue/catalogue.ts';
import { everyPart } from '../catalogue/every-part.ts';

/** A part's name as the catalogue has it, beginning small so that it stands within a sentence; its reference where it has none. */
export function partName(catalogue: Catalogue, ref: string): string {
  const name = everyPart(catalogue).find((p) => p.ref === ref && p.name)?.name;
  return name ? name.charAt(0).toLowerCase() + name.slice(1) : ref;
}
