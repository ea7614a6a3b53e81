import type { Catalogue } from '../../catalogue/catalogue.ts';
import { LEVEL_WORDS } from '../../constraint/level-words.ts';
import type { Construct } from '../../gaps/construct.ts';
import { describeConstruct } from '../../gaps/describe-construct.ts';

export interface ConstructWords {
  /** Constraint and the three sizes, to be read from across the table. */
  readonly head: string;
  /** Everything else that goes in, one part each. */
  readonly parts: readonly string[];
}

/** A construct in two sizes of type: what it is, and what else goes in. */
export function constructWords(construct: Construct, catalogue: Catalogue): ConstructWords {
  const main = new Set([construct.femur, construct.tray, construct.insert]);
  const lines = describeConstruct(construct, catalogue);
  const size = (ref: string, of: readonly { readonly ref: string; readonly size: number }[]): string =>
    String(of.find((part) => part.ref === ref)?.size ?? ref);
  const insert = catalogue.inserts.find((i) => i.ref === construct.insert);
  const head = [
    LEVEL_WORDS[construct.level],
    `femur\u00a0${size(construct.femur, catalogue.femurs)}`,
    `tray\u00a0${size(construct.tray, catalogue.trays)}`,
    `insert\u00a0${insert ? `${insert.labelMm}\u00a0mm` : construct.insert}`,
  ].join(', ');
  const parts = lines
    .filter((line) => !main.has(line.ref))
    .map((line) => `${line.amount > 1 ? `${line.amount} × ` : ''}${line.name}, ${line.where}`);
  return { head, parts };
}
