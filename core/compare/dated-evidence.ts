import type { KneeEvidence } from '../landmarks/knee-evidence.ts';
import type { TracedBone } from '../limb/canal-along-itself.ts';

/** One knee as the films of one date show it. */
export interface DatedEvidence {
  /** Day of the films, `YYYY-MM-DD`, or how they are called where they carry none. */
  readonly date: string;
  /** The knee with the films of that date alone, read as its present ones. */
  readonly evidence: KneeEvidence;
  readonly traces?: readonly TracedBone[];
  /** What gave each film its scale, by film: equal words on both dates = the same piece of metal. */
  readonly scaleObjects?: ReadonlyMap<string, string>;
}
