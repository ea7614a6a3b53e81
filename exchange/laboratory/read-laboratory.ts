import type { LabResult } from '@gapline/core/laboratory/lab-result.ts';
import type { Reason } from '@gapline/core/measure/outcome.ts';

/** Something that was in the file and was not taken over, shown to the person with why; never dropped in silence. */
export interface NotTaken {
  /** As it stood in the file, in one line. */
  readonly entry: string;
  readonly reason: Reason;
}

/** Results as entered, to be read and checked by core's laboratory rules, and what was left aside. */
export interface ReadLaboratory {
  readonly results: readonly LabResult[];
  readonly notTaken: readonly NotTaken[];
}
