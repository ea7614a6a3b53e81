/** Where a section stands, told in one line. */
export interface SurpriseStanding {
  readonly is: 'settled' | 'open' | 'conflict';
  readonly line: string;
}
