import { oneOf, type SectionField, section } from './field-kinds.ts';

/** Words of a fact that may be known. Clearing it and `unknown` mean the same: not asked, never no. */
export const KNOWN = ['yes', 'no', 'unknown'] as const;

export const known = (label: string) => oneOf(label, KNOWN);

/** A section with one known-or-not field for each item of a table. */
export const knownOf = (
  label: string,
  items: readonly { readonly id: string; readonly label: string }[],
): SectionField => section(label, Object.fromEntries(items.map((item) => [item.id, known(item.label)])));
