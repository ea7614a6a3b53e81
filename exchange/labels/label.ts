/** What an implant's label says, in our own words. Absent = the label does not carry it. Dates are ISO. */
export interface Label {
  readonly carrier: 'gs1' | 'hibc';
  /** Device identifier: GTIN (14 digits) or HIBC labeller + product + unit. */
  readonly device?: string;
  readonly lot?: string;
  readonly serial?: string;
  readonly expires?: string;
  readonly made?: string;
  readonly quantity?: number;
  /** Elements that were read but have no place above, as code and value: shown, never dropped. */
  readonly others: readonly { readonly code: string; readonly value: string }[];
  readonly warnings: readonly string[];
}
