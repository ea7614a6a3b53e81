import type { StandingIs } from '../parts/StandingShape.tsx';

/** Where a section stands, told in one line. */
export interface SurpriseStanding {
  readonly is: StandingIs;
  readonly line: string;
}
