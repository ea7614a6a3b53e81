/** What a set gives besides implants of the catalogue. */
export const SET_SERVICES = ['fracture-fixation', 'spacer', 'extraction', 'graft', 'extensor-mechanism'] as const;
export type SetService = (typeof SET_SERVICES)[number];

/** One tray or loan box: it is in the room or it is not. */
export interface KitSet {
  readonly ref: string;
  readonly name: string;
  /** Catalogue parts in it, by ref, and how many of each. */
  readonly parts: readonly { readonly ref: string; readonly count: number }[];
  readonly services?: readonly SetService[];
  readonly owner: 'own-shelf' | 'loan';
  /** Trays to sterilise. */
  readonly trays: number;
  /** Fee of having it brought, in the list's currency; 0 for an own set. */
  readonly fee: number;
  /** Working days from order to shelf; 0 for an own set. */
  readonly leadDays: number;
  /** Chance that it does not arrive or is not whole, 0 to 1; absent = not known. */
  readonly failShare?: number;
}

/** The sets that a hospital can have, for one catalogue. */
export interface SetList {
  readonly format: 'gapline-sets';
  readonly version: '1.0';
  readonly id: string;
  readonly name: string;
  readonly catalogue: string;
  readonly invented: boolean;
  readonly currency: string;
  /** What one tray to sterilise is worth, in the currency. */
  readonly trayCost: number;
  readonly sets: readonly KitSet[];
}

/** One implant on the shelf. */
export interface StockItem {
  readonly ref: string;
  readonly lot: string;
  /** Last day of use, YYYY-MM-DD. */
  readonly expires: string;
  readonly count: number;
  /** Set it lies in; absent = loose on the shelf. */
  readonly set?: string;
}

/** What was asked and decided about the kit of one case. */
export interface KitChoice {
  readonly setList?: string;
  /** Share of openings that must have an answer, %; absent = 99. */
  readonly sharePct?: number;
  /** Cost of a construct up to which a state counts as covered; absent = the default of docs/rules/kit.md. */
  readonly acceptableCost?: number;
  /** Day of surgery, YYYY-MM-DD. */
  readonly surgeryOn?: string;
  /** Sets decided on; absent = what is proposed. */
  readonly bring?: readonly string[];
  /** Sets that will not arrive. */
  readonly missing?: readonly string[];
}
